// One silver bath: how it stands, its chart, one short form for each thing that is written down at the sink, and the
// ledger. A form is opened by its link, so that a phone shows one at a time.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords, monthName } from '../../lib/words.js';
import { BathChart } from '../../platform/html/kit/bath-chart.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import { dependingOn } from '../../stock/bath-days.calc.js';
import type { ChartPoint } from '../../stock/baths.calc.js';
import type { BathEvent } from '../../stock/baths.schemas.js';
import type { WholeBath } from '../../stock/baths.service.js';
import type { Notice as Said } from '../frame.pages.js';
import { shortDay } from '../words.calc.js';
import { OwnLoss } from './bath-loss.pages.js';
import { gramsPerLitre, KIND_WORDS, lineInWords, strengthInWords } from './bath-words.calc.js';
import { answersOf, BathFields, Faults, factsOf, type SentBath, StateTag } from './baths.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';

const LINES_SHOWN = 8;

/** What is written down, and the word of its link. */
export const DOINGS = {
  hydrometer: 'Hydrometer',
  titration: 'Titration',
  'topped up': 'Topped up',
  poured: 'Plates poured',
  cared: 'Sunned or filtered',
  state: 'What it does now',
  acidity: 'Acidity',
  note: 'A note',
} as const;
export type Doing = keyof typeof DOINGS;
const isMeasuring = (doing: Doing) => doing === 'hydrometer' || doing === 'titration';
export const isDoing = (sent: unknown): sent is Doing => typeof sent === 'string' && sent in DOINGS;

interface BathPageProps {
  visit: StaffVisit;
  found: WholeBath;
  formKey: string;
  /** The form that is open: a thing to write down, 'edit', or ''. */
  form: Doing | 'edit' | '';
  notice?: Said | undefined;
  sent?: SentBath | undefined;
}

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

function EnterForm({ visit, found, formKey, sent, doing }: BathPageProps & { doing: Doing }) {
  const mine = sent?.form === doing ? sent : undefined;
  const { now, today } = found;
  return (
    <section class="card" id="form">
      <h2>{DOINGS[doing]}</h2>
      <Form
        action={shelfPath(visit, `/baths/${now.bath.id}/enter`)}
        csrf={visit.formToken}
        formKey={formKey}
        label={DOINGS[doing]}
        values={mine?.values ?? firstAnswers(today, found, doing)}
        errors={mine?.errors ?? []}
      >
        {isMeasuring(doing) ? (
          <>
            <input type="hidden" name="do" value="measured" />
            <input type="hidden" name="method" value={doing} />
          </>
        ) : (
          <input type="hidden" name="do" value={doing} />
        )}
        <DoingFields doing={doing} found={found} owner={visit.account.role === 'owner'} />
        <DateField name="day" label={doing === 'state' ? 'Since' : 'Day'} />
        {doing !== 'note' && <TextArea name="note" label="A note" rows={2} optional />}
        <Button>Write it down</Button>
      </Form>
    </section>
  );
}

function firstAnswers(today: Temporal.PlainDate, { now }: WholeBath, doing: Doing) {
  return {
    'day-day': String(today.day),
    'day-month': monthName(today.month),
    'day-year': String(today.year),
    ...(doing === 'hydrometer' ? { temperature: '20' } : {}),
    ...(doing === 'titration' ? { normality: '0.1' } : {}),
    ...(doing === 'poured' ? { plateSizeId: now.bath.plateSizeId } : {}),
    ...(doing === 'state' ? { state: now.bath.state } : {}),
  };
}

function DoingFields({ doing, found, owner }: { doing: Doing; found: WholeBath; owner: boolean }) {
  const { now, sizes, crystals } = found;
  const lot = crystals.find((one) => one.id === now.bath.lotId);
  switch (doing) {
    case 'hydrometer':
    case 'titration':
      return <MeasuredFields by={doing} />;
    case 'topped up':
      return (
        <>
          <NumberField name="crystals" label="Silver nitrate" unit="g" decimal optional />
          <NumberField name="volume" label="Distilled water" unit="mL" decimal optional />
          {lot && (
            <CheckboxGroup
              name="fromLot"
              label="Where from"
              options={[{ value: 'yes', label: `Taken from ${lot.label}` }]}
              optional
            />
          )}
        </>
      );
    case 'poured':
      return (
        <>
          <NumberField name="plates" label="Plates" hint="Every try counts." unit="plates" />
          <SelectField
            name="plateSizeId"
            label="Size"
            options={sizes.map((one) => ({ value: one.id, label: one.name }))}
            empty={null}
          />
        </>
      );
    case 'cared':
      return (
        <RadioGroup
          name="care"
          label="It was"
          options={[
            { value: 'sunned', label: 'Sunned' },
            { value: 'filtered', label: 'Filtered' },
            { value: 'rested', label: 'Rested' },
          ]}
        />
      );
    case 'state':
      return (
        <>
          <RadioGroup
            name="state"
            label="It is"
            options={[
              { value: 'working', label: 'Working' },
              { value: 'sunning', label: 'In the sun' },
              { value: 'resting', label: 'Resting' },
              { value: 'filtering', label: 'Being filtered' },
              ...(owner ? [{ value: 'retired', label: 'Retired' }] : []),
            ]}
          />
          <DateField name="until" label="Working again on" hint="If it is away." optional />
        </>
      );
    case 'acidity':
      return <NumberField name="ph" label="pH" hint="By test paper: 4 to 5 is usual." decimal />;
    case 'note':
      return <TextArea name="note" label="Note" />;
  }
}

function MeasuredFields({ by }: { by: 'hydrometer' | 'titration' }) {
  return (
    <>
      {by === 'hydrometer' ? (
        <>
          <p>A guide only in an old bath: it holds alcohol and salts.</p>
          <NumberField
            name="density"
            label="Density"
            hint="As the hydrometer shows it, such as 1.073."
            decimal
          />
          <NumberField name="temperature" label="Temperature of the bath" unit="°C" decimal />
        </>
      ) : (
        <>
          <NumberField name="thiocyanateMl" label="Thiocyanate used" unit="mL" decimal />
          <NumberField name="normality" label="Its strength" unit="mol/L" decimal />
          <NumberField name="sampleMl" label="Bath taken" unit="mL" decimal />
        </>
      )}
      <NumberField name="volume" label="In the bath" hint="If you looked." unit="mL" decimal optional />
    </>
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

function Edit({ visit, found, form, sent }: BathPageProps) {
  const { bath } = found.now;
  const path = shelfPath(visit, `/baths/${bath.id}`);
  if (form !== 'edit')
    return (
      <p class="alone">
        <a href={`${path}?do=edit#edit`}>Change this bath</a>
      </p>
    );
  return (
    <section class="card" id="edit">
      <h2>Change this bath</h2>
      <Form
        action={path}
        csrf={visit.formToken}
        label="Change this bath"
        values={sent?.form === 'edit' ? sent.values : answersOf(bath)}
        errors={sent?.form === 'edit' ? sent.errors : []}
      >
        <BathFields sizes={found.sizes} crystals={found.crystals} />
        <Button>Save</Button>
      </Form>
    </section>
  );
}
