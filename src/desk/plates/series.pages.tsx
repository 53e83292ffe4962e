// The series that plates belong to: how far each has come, who is still to sit for one, and the form of one.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Series } from '../../plates/series.schemas.js';
import type { SeriesNow } from '../../plates/series.service.js';
import type { Notice } from '../frame.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface SeriesProps {
  visit: StaffVisit;
  now: SeriesNow;
  /** Null: all of them. */
  one: Series | null;
  /** Whether the form for a new one is open. */
  isNew: boolean;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const SERIES = '/plates/series';

export function SeriesPage(props: SeriesProps) {
  const { visit, now, one, isNew, notice, sent } = props;
  const open = now.series.filter((each) => !each.archived);
  const away = now.series.filter((each) => each.archived);
  return (
    <PlatesFrame
      visit={visit}
      title={one ? one.name : 'Series'}
      at={SERIES}
      notice={notice}
      errors={sent?.errors}
    >
      {one ? (
        <>
          <About {...props} one={one} />
          <Card title="Change this series">
            <SeriesForm {...props} />
          </Card>
          <p class="alone">
            <a href={deskPath(visit, SERIES)}>All series</a>
          </p>
        </>
      ) : (
        <>
          <p>
            {comingInWords(now)} For which series they come is not asked when somebody asks for a sitting.
          </p>
          {open.length === 0 && <p>There is no series yet.</p>}
          {open.map((each) => (
            <Card key={each.series_id} title={each.name}>
              <About {...props} one={each} />
              <p class="alone">
                <a href={deskPath(visit, `${SERIES}/${each.series_id}`)}>
                  Change this<span class="unseen">: {each.name}</span>
                </a>
              </p>
            </Card>
          ))}
          {away.length > 0 && (
            <details>
              <summary>Put away ({away.length})</summary>
              <ul>
                {away.map((each) => (
                  <li key={each.series_id}>
                    <a href={deskPath(visit, `${SERIES}/${each.series_id}`)}>{each.name}</a>:{' '}
                    {progressInWords(each)}
                  </li>
                ))}
              </ul>
            </details>
          )}
          {isNew ? (
            <Card title="A new series">
              <SeriesForm {...props} />
            </Card>
          ) : (
            <p class="alone">
              <a href={`${deskPath(visit, SERIES)}?form=new#form`}>A new series</a>
            </p>
          )}
        </>
      )}
    </PlatesFrame>
  );
}

/** "23 of 40 plates": those kept. */
export function progressInWords({ keepers, target }: Series): string {
  if (target === null) return counted(keepers, 'plate');
  return `${keepers} of ${counted(target, 'plate')}${keepers >= target ? ', complete' : ''}`;
}

/** "2 sittings for a series wait for a place; one has a place that is still to come." */
function comingInWords({ coming }: SeriesNow): string {
  const of = (...states: string[]) => states.reduce((sum, state) => sum + (coming.get(state) ?? 0), 0);
  const [waiting, confirmed] = [of('requested', 'waiting', 'offered'), of('confirmed')];
  const wait = `${waiting === 0 ? 'No sitting' : waiting === 1 ? 'One sitting' : `${waiting} sittings`} for a series ${waiting > 1 ? 'wait' : 'waits'} for a place`;
  return `${wait}; ${confirmed === 0 ? 'none has' : confirmed === 1 ? 'one has' : `${confirmed} have`} a place and ${confirmed > 1 ? 'are' : 'is'} still to come.`;
}

function About({ visit, one }: { visit: StaffVisit; one: Series }) {
  return (
    <>
      {one.about !== '' && <p>{one.about}</p>}
      <Facts
        items={[
          { term: 'So far', detail: progressInWords(one) },
          { term: 'Next number', detail: String(one.next) },
          {
            term: 'Its plates',
            detail: (
              <>
                <a href={`${deskPath(visit, '/plates')}?series=${one.series_id}`}>
                  all<span class="unseen"> of {one.name}</span>
                </a>{' '}
                <a href={`${deskPath(visit, '/plates/labels')}?series=${one.series_id}`}>
                  their labels<span class="unseen">, {one.name}</span>
                </a>
              </>
            ),
          },
        ]}
      />
    </>
  );
}

export const answersOf = ({ name, about, target, archived }: Series) => ({
  name,
  about,
  target: target ?? '',
  archived: archived ? 'yes' : '',
});

function SeriesForm({ visit, one, sent }: SeriesProps) {
  const known = one ? answersOf(one) : undefined;
  return (
    <div id="form">
      <Form
        action={deskPath(visit, `${SERIES}/${one?.series_id ?? 'new'}`)}
        csrf={visit.formToken}
        label={one ? `Change: ${one.name}` : 'A new series'}
        values={sent?.values ?? known}
        shown={known}
        errors={sent?.errors ?? []}
      >
        <TextField name="name" label="Name" />
        <TextArea name="about" label="What it is about" optional />
        <NumberField name="target" label="How many plates it is to have" unit="plates" optional />
        {one && (
          <CheckboxGroup
            name="archived"
            label="Put away"
            options={[{ value: 'yes', label: 'No plate is added to it any more' }]}
            optional
          />
        )}
        <Button>{one ? 'Change this' : 'Add this'}</Button>
      </Form>
    </div>
  );
}
