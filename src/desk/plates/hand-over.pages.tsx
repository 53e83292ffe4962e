// A list of plates for an archive: what stands on it, on the screen and on paper, and what may be added.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Notice as Said } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { BookQuery } from '../../plates/book.schemas.js';
import type { MayGo } from '../../plates/hand-over.calc.js';
import { MOST_OFFERED, type Offered, type OneHandOver } from '../../plates/hand-over.service.js';
import { namesOf } from '../../plates/record.calc.js';
import type { Series } from '../../plates/series.schemas.js';
import type { Notice } from '../frame.pages.js';
import { seriesPlace, whoOn } from './book.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

export interface HandOverProps {
  visit: StaffVisit;
  found: OneHandOver;
  series: Series[];
  query: BookQuery;
  notice?: Notice | undefined;
  /** A form that was sent wrong. */
  sent?: { form: 'add' | 'give'; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const pathOf = ({ visit, found }: HandOverProps, more = '') =>
  deskPath(visit, `/plates/hand-over/${found.list.hand_over_id}${more}`);

export function HandOverPage(props: HandOverProps) {
  const { visit, found, notice, sent } = props;
  const { list, plates } = found;
  const back = plates.filter((one) => !one.may.ok);
  return (
    <PlatesFrame
      visit={visit}
      title={`For ${list.taken_by}`}
      at="/plates/hand-over"
      notice={notice}
      errors={sent?.errors}
    >
      <p>
        {list.given_on ? `Given on ${dayInWords(list.given_on)}` : 'Not given yet'},{' '}
        {plates.length === 0 ? 'nothing on it' : `${counted(plates.length, 'plate')} on it`}.
      </p>
      {list.note !== '' && <p>{list.note}</p>}
      {back.length > 0 && (
        <Said tone="warn">
          {back.map(({ plate, may }) => (
            <p key={plate.id}>
              Plate {plate.number}: {whyNot(may)}.
              {list.given_on ? ' The archive has to be told; this list stays as it was given.' : ''}
            </p>
          ))}
        </Said>
      )}
      <Table
        caption={`Plates for ${list.taken_by}`}
        columns={[
          { head: 'Plate', figures: true },
          { head: 'Goes as' },
          { head: 'Day' },
          { head: 'Names' },
          { head: 'Series' },
          { head: 'Size' },
        ]}
        rows={plates.map((one) => [
          <a key="number" href={deskPath(visit, `/plates/${one.plate.number}`)}>
            {one.plate.number}
          </a>,
          one.as,
          dayInWords(one.plate.day),
          namesOf(one.plate, one.on) || 'not to be named',
          seriesPlace(one.plate),
          one.plate.size,
        ])}
        empty="No plate stands on this list yet."
      />
      {plates.length > 0 && (
        <>
          <div class="print-only">
            <p>Given by: ____________________________ on: ______________</p>
            <p>Taken by: ____________________________ on: ______________</p>
          </div>
          <p class="alone no-print">
            <a href={pathOf(props, '/list.csv')} download>
              This list as a table (CSV)
            </a>
          </p>
        </>
      )}
      <div class="no-print">{list.given_on ? <TakeBack {...props} /> : <StillOpen {...props} />}</div>
    </PlatesFrame>
  );
}

const WHY_NOT = {
  struck: 'it was typed in by mistake',
  'not kept': 'it is not kept',
  'people not known': 'who is on it is not known here, so nobody can have agreed',
};

/** "Perpetua Brodrick took back the yes; of Ansel Brodrick no yes is known" */
export function whyNot(may: MayGo): string {
  if (may.ok) return 'it may go';
  if (may.reason !== 'no consent') return WHY_NOT[may.reason];
  return [
    may.takenBack.length === 0 ? '' : `${may.takenBack.join(', ')} took back the yes`,
    may.asked.length === 0 ? '' : `no yes to an archive is known of ${may.asked.join(', ')}`,
  ]
    .filter((one) => one !== '')
    .join('; ');
}

function TakeBack({ visit, found, ...props }: HandOverProps) {
  if (!found.canTakeBack) return null;
  return (
    <Form
      action={pathOf({ visit, found, ...props }, '/take-back')}
      csrf={visit.formToken}
      label="Not given after all"
    >
      <Button kind="quiet">Not given after all</Button>
    </Form>
  );
}

function StillOpen(props: HandOverProps) {
  const { visit, found, sent } = props;
  return (
    <>
      <AddForm {...props} />
      {found.plates.length > 0 && (
        <>
          <Card title="They were given">
            <Form
              action={pathOf(props, '/give')}
              csrf={visit.formToken}
              label="They were given"
              values={sent?.form === 'give' ? sent.values : {}}
              errors={sent?.form === 'give' ? sent.errors : []}
            >
              <DateField name="day" label="On which day" value={found.today} />
              <Button>Write this down</Button>
            </Form>
            <p class="small">
              Where all kept plates of a sitting are given, they count as having left the studio.
            </p>
          </Card>
          <details>
            <summary>Take a plate off this list</summary>
            {found.plates.map(({ plate }) => (
              <Form
                key={plate.id}
                action={pathOf(props, '/off')}
                csrf={visit.formToken}
                label={`Take off plate ${plate.number}`}
              >
                <input type="hidden" name="plate" value={plate.id} />
                <Button kind="quiet">Take off plate {plate.number}</Button>
              </Form>
            ))}
          </details>
        </>
      )}
    </>
  );
}

function AddForm(props: HandOverProps) {
  const { visit, found, sent } = props;
  const may = found.offered.filter((one) => one.may.ok);
  const not = found.offered.filter((one) => !one.may.ok);
  return (
    <Card title="Add plates">
      <FindForm {...props} />
      {found.more && <p>Only the newest {MOST_OFFERED} are shown; look for the others.</p>}
      {may.length === 0 ? (
        <p>No kept plate is found that may go.</p>
      ) : (
        <Form
          action={pathOf(props, '/add')}
          csrf={visit.formToken}
          label="Add plates"
          values={sent?.form === 'add' ? sent.values : {}}
          errors={sent?.form === 'add' ? sent.errors : []}
        >
          <CheckboxGroup name="plates" label="Kept plates that may go" options={may.map(optionOf)} />
          <RadioGroup
            name="what"
            label="What goes"
            options={[
              { value: 'plate', label: 'The plates' },
              { value: 'scan', label: 'Scans of them' },
            ]}
          />
          <Button>Add these</Button>
        </Form>
      )}
      {not.length > 0 && (
        <details>
          <summary>Plates that may not go ({not.length})</summary>
          <ul>
            {not.map((one) => (
              <li key={one.plate.id}>
                Plate {one.plate.number}, {whoOn(one)}: {whyNot(one.may)}.
              </li>
            ))}
          </ul>
        </details>
      )}
    </Card>
  );
}

const optionOf = (one: Offered) => ({
  value: one.plate.id,
  label: `${one.plate.number}, ${whoOn(one)}`,
  hint: `${dayInWords(one.plate.day)}${
    one.plateOn ? `; as a scan only: the plate is on the list for ${one.plateOn.taken_by}` : ''
  }`,
});

function FindForm(props: HandOverProps) {
  const { series, query } = props;
  return (
    <Form
      action={pathOf(props)}
      method="get"
      label="Find plates"
      values={{ find: query.find, series: query.series ?? '' }}
    >
      <TextField name="find" label="Number or name" type="search" optional />
      {series.length > 0 && (
        <SelectField
          name="series"
          label="Series"
          options={series.map((one) => ({ value: one.series_id, label: one.name }))}
          empty="Any, or none"
        />
      )}
      <Button kind="quiet">Find plates</Button>
    </Form>
  );
}
