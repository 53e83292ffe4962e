import { counted, dayInWords } from '../../lib/words.js';
import { BathChart } from '../../platform/html/kit/bath-chart.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import { dependingOn } from '../../stock/bath-days.calc.js';
import type { ChartPoint } from '../../stock/baths.calc.js';
import type { BathEvent } from '../../stock/baths.schemas.js';
import { shortDay } from '../words.calc.js';
import { OwnLoss } from './bath-loss.pages.js';
import { gramsPerLitre, KIND_WORDS, lineInWords, strengthInWords } from './bath-words.calc.js';
import { Faults, factsOf, StateTag } from './baths.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { DOINGS, type Doing, type BathPageProps, EnterForm, Edit } from './bath-forms.pages.js';

const LINES_SHOWN = 8;

export function BathPage(props: BathPageProps) {
  const { visit, found, form, notice, sent } = props;
  const { now, chart, faults, baths } = found;
  const { bath } = now;
  const path = shelfPath(visit, `/baths/${bath.id}`);
  return (
    <ShelfFrame visit={visit} title={bath.name} at="/baths" notice={notice} errors={sent?.errors}>
      <p>
        <StateTag bath={bath} />
      </p>
      {bath.state === 'suspect' && <Depending {...props} />}
      <nav class="actions" aria-label="Write down">
        {(Object.keys(DOINGS) as Doing[]).map((one) => (
          <a
            key={one}
            href={`${path}?do=${encodeURIComponent(one)}#form`}
            aria-current={one === form ? 'true' : undefined}
          >
            {DOINGS[one]}
          </a>
        ))}
        <a href={`${shelfPath(visit, '/baths/off')}?what=bath:${bath.id}`}>The chemistry is off</a>
      </nav>
      {form !== '' && form !== 'edit' && <EnterForm {...props} doing={form} />}
      <Card title="How it stands">
        <Facts items={factsOf(now, found)} />
        {bath.note !== '' && <p>{bath.note}</p>}
      </Card>
      <h2>Strength against plates</h2>
      <BathChart
        points={chart.map(toPoint)}
        least={gramsPerLitre(bath.leastStrength)}
        target={gramsPerLitre(bath.targetStrength)}
        label={`Strength of ${bath.name} in grams a litre against plates; the table below tells the same.`}
      />
      <ChartTable chart={chart} />
      <p class="small">
        Dots are measured. The line is reckoned from there: the film of each plate takes silver, and the drops
        it carries off take bath. The band is how much that may differ; only a measurement tells. The broken
        line is the strength below which it is topped up.
      </p>
      <OwnLoss loss={now.loss} size={found.sizes.find(({ id }) => id === bath.plateSizeId)} />
      <Ledger {...props} />
      {faults.length > 0 && <Faults visit={visit} faults={faults} baths={baths} />}
      {visit.account.role === 'owner' && <Edit {...props} />}
    </ShelfFrame>
  );
}

const toPoint = ({ plates, strength, kind }: ChartPoint) => ({
  plates,
  kind,
  weakest: gramsPerLitre(strength.most),
  likely: gramsPerLitre(strength.likely),
  strongest: gramsPerLitre(strength.least),
});

function ChartTable({ chart }: { chart: ChartPoint[] }) {
  const words = { measured: 'measured', reckoned: 'reckoned', ahead: 'booked' };
  return (
    <details>
      <summary>The same as a table</summary>
      <Table
        caption="Strength by plates"
        columns={[
          { head: 'Plates', figures: true },
          { head: 'Day' },
          { head: 'Strength', figures: true },
          { head: 'Between', figures: true },
          { head: 'How' },
        ]}
        rows={chart.map(({ plates, day, strength, kind }) => [
          plates,
          shortDay(day),
          strengthInWords(strength.likely),
          kind === 'measured'
            ? ''
            : `${strengthInWords(strength.most)} to ${strengthInWords(strength.least)}`,
          words[kind],
        ])}
        empty="No strength was told yet."
      />
    </details>
  );
}

function Depending({ found }: BathPageProps) {
  const { now, plates, baths, sizes, today } = found;
  const days = dependingOn(now.bath.id, plates, baths, sizes, today);
  if (days.length === 0) return <Notice tone="warn">No day with plates depends on it.</Notice>;
  return (
    <Notice tone="warn">
      <p>Nobody is written to. These days were its own:</p>
      <ul>
        {days.map(({ day, instead }) => (
          <li key={day.date.toString()}>
            {dayInWords(day.date)}: {instead ? `${instead.name} takes it` : 'no other bath takes it'}
          </li>
        ))}
      </ul>
    </Notice>
  );
}

function Ledger({ visit, found }: BathPageProps) {
  const { events, now } = found;
  const gone = new Set(events.map((one) => one.takesBack));
  const lines = events.filter((one) => one.kind !== 'taken back').reverse();
  const action = shelfPath(visit, `/baths/${now.bath.id}/take-back`);
  const rowOf = (event: BathEvent) => [
    shortDay(event.day),
    gone.has(event.id)
      ? `taken back: ${lineInWords(event)}`
      : [KIND_WORDS[event.kind], lineInWords(event)].filter(Boolean).join(': '),
    event.who,
    canTakeBack(event) && !gone.has(event.id) ? (
      <Form key="back" action={action} csrf={visit.formToken}>
        <input type="hidden" name="line" value={event.id} />
        <button type="submit" class="plain nowrap">
          Take back
          <span class="unseen">{` ${KIND_WORDS[event.kind]} of ${shortDay(event.day)}`}</span>
        </button>
      </Form>
    ) : (
      ''
    ),
  ];
  const columns = [{ head: 'Day' }, { head: 'What' }, { head: 'By' }, { head: 'A slip?' }];
  return (
    <>
      <h2>Ledger</h2>
      <Table
        caption="What was written down, the latest first"
        columns={columns}
        rows={lines.slice(0, LINES_SHOWN).map(rowOf)}
      />
      {lines.length > LINES_SHOWN && (
        <details>
          <summary>{counted(lines.length - LINES_SHOWN, 'earlier line')}</summary>
          <Table caption="Before these" columns={columns} rows={lines.slice(LINES_SHOWN).map(rowOf)} />
        </details>
      )}
    </>
  );
}

const canTakeBack = ({ kind }: BathEvent) => kind !== 'made' && kind !== 'state';
