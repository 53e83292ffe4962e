// All silver baths: how each stands, which day takes which, the log of faults, and the form for a new one.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { BathDay, BathPlan } from '../../stock/bath-days.calc.js';
import type { BathNow } from '../../stock/baths.calc.js';
import type { Bath, Fault } from '../../stock/baths.schemas.js';
import type { Baths } from '../../stock/baths.service.js';
import { NO_BATH_WORDS } from '../../stock/due.calc.js';
import type { Lot, PlateSize } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { shortDay } from '../words.calc.js';
import { gramsPerLitre, STATE_TONES, STATE_WORDS, strengthInWords } from './bath-words.calc.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { typedAmount } from './words.calc.js';

const DAYS_SHOWN = 10;

export interface SentBath {
  /** What the form was about: 'new', 'edit', or the kind of line. */
  form: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

interface BathsPageProps {
  visit: StaffVisit;
  found: Baths & { faults: Fault[]; crystals: Lot[] };
  formKey: string;
  notice?: Notice | undefined;
  sent?: SentBath | undefined;
}

export function BathsPage({ visit, found, formKey, notice, sent }: BathsPageProps) {
  const { baths, plan, sizes, faults, crystals } = found;
  const owner = visit.account.role === 'owner';
  return (
    <ShelfFrame visit={visit} title="Silver baths" at="/baths" notice={notice} errors={sent?.errors}>
      {baths.length > 0 && (
        <p class="alone">
          <a href={shelfPath(visit, '/baths/off')}>The chemistry is off</a>
        </p>
      )}
      {baths.length === 0 && <p class="empty">No bath is entered yet.</p>}
      {baths.map((now) => (
        <Card key={now.bath.id} title={now.bath.name}>
          <p>
            <StateTag bath={now.bath} />
          </p>
          <Facts items={factsOf(now, found)} />
          <p class="alone">
            <a href={shelfPath(visit, `/baths/${now.bath.id}`)}>
              Write down, and the ledger<span class="unseen"> of {now.bath.name}</span>
            </a>
          </p>
        </Card>
      ))}
      <h2>Which day takes which</h2>
      <p>By the sheets set aside for each day, spare tries included.</p>
      <Table
        caption="The next days with plates"
        columns={[
          { head: 'Day' },
          { head: 'Bath' },
          { head: 'Plates', figures: true },
          { head: 'Strength' },
          { head: 'To do' },
        ]}
        rows={plan.days.slice(0, DAYS_SHOWN).map((day) => dayRow(day))}
        empty="Nothing is set aside for any day."
      />
      {faults.length > 0 && <Faults visit={visit} faults={faults} baths={baths} />}
      {owner && (
        <details open={sent?.form === 'new' || baths.length === 0}>
          <summary>A new bath</summary>
          <Form
            action={shelfPath(visit, '/baths')}
            csrf={visit.formToken}
            formKey={formKey}
            label="A new bath"
            values={sent?.form === 'new' ? sent.values : FIRST}
            errors={sent?.form === 'new' ? sent.errors : []}
          >
            <BathFields sizes={sizes} crystals={crystals} />
            <NumberField name="strength" label="Its strength now" unit="g in a litre" decimal />
            <NumberField
              name="inIt"
              label="In it now"
              hint="Leave empty when it is full."
              unit="mL"
              decimal
              optional
            />
            <Button>Enter this bath</Button>
          </Form>
        </details>
      )}
    </ShelfFrame>
  );
}

/** Common practice, no source: 9 per cent, topped up below 7. */
const FIRST = { tank: 'upright tank', targetStrength: '90', leastStrength: '70', careAfterPlates: '40' };

export function StateTag({ bath }: { bath: Bath }) {
  const { state, stateSince, stateUntil } = bath;
  return (
    <Tag tone={STATE_TONES[state]}>
      {STATE_WORDS[state]} since {shortDay(stateSince)}
      {stateUntil && `, until ${shortDay(stateUntil)}`}
    </Tag>
  );
}

export function factsOf({ bath, level, measured, plates, acidity }: BathNow, { sizes, plan }: Baths) {
  const size = sizes.find((one) => one.id === bath.plateSizeId);
  return [
    {
      term: 'Takes',
      detail: `${size?.name ?? 'plates'}, in ${bath.tank === 'tray' ? 'a' : 'an'} ${bath.tank}`,
    },
    {
      term: 'Strength',
      detail: level ? strengthNow(level) : 'not known',
    },
    ...(measured
      ? [
          {
            term: 'Told last',
            detail: `${strengthInWords(measured.strength ?? 0)} on ${shortDay(measured.day)}, ${counted(plates, 'plate')} since`,
          },
        ]
      : []),
    {
      term: 'In it',
      detail: `about ${formatQuantity(level?.likely.volume ?? 0n, 'uL')} of ${formatQuantity(bath.volume, 'uL')}; not below ${formatQuantity(bath.leastVolume, 'uL')}`,
    },
    ...(acidity?.ph != null
      ? [{ term: 'Acidity', detail: `pH ${acidity.ph} on ${shortDay(acidity.day)}` }]
      : []),
    ...(bath.state === 'retired' ? [] : aheadOf(bath, plan)),
  ];
}

/** What is to be done about a bath in use. */
function aheadOf(bath: Bath, plan: BathPlan) {
  const topUp = plan.topUps.find((one) => one.bath.id === bath.id);
  const care = plan.cares.find((one) => one.bath.id === bath.id);
  return [
    {
      term: 'Top up',
      detail: topUp
        ? `by ${shortDay(topUp.by)}: ${formatQuantity(topUp.crystals, 'mg', 'up')} of crystals and ${formatQuantity(topUp.volume, 'uL', 'up')} of water, as things stand`
        : 'not needed for what is booked',
    },
    {
      term: 'Sun and filter',
      detail: care ? `from ${shortDay(care.from)}, back by ${shortDay(care.until)}` : 'not needed yet',
    },
  ];
}

/** "about 78.2 g/L (78.0 to 78.4)"; just measured there is no between. */
function strengthNow({ most, likely, least }: NonNullable<BathNow['level']>): string {
  const [from, to] = [gramsPerLitre(most.strength).toFixed(1), gramsPerLitre(least.strength).toFixed(1)];
  return `about ${strengthInWords(likely.strength)}${from === to ? '' : ` (${from} to ${to})`}`;
}

function dayRow(day: BathDay) {
  const { before, after } = day;
  return [
    shortDay(day.date),
    day.bath ? day.bath.name : <Tag tone="bad">none: {NO_BATH_WORDS[day.reason ?? 'no bath']}</Tag>,
    day.plates,
    before && after
      ? `${strengthInWords(before.likely.strength)} to ${strengthInWords(after.likely.strength)}`
      : '',
    day.topUp ? `top up by ${shortDay(day.topUp.by)}: ${formatQuantity(day.topUp.crystals, 'mg', 'up')}` : '',
  ];
}

interface FaultsProps {
  visit: StaffVisit;
  faults: Fault[];
  baths: BathNow[];
}

export function Faults({ visit, faults, baths }: FaultsProps) {
  const nameOf = (fault: Fault) =>
    baths.find(({ bath }) => bath.id === fault.bathId)?.bath.name ?? 'a bottle';
  return (
    <>
      <h2>What went wrong before</h2>
      <Table
        caption="The log of faults"
        columns={[
          { head: 'Day' },
          { head: 'Seen' },
          { head: 'With' },
          { head: 'Changed' },
          { head: 'Helped' },
        ]}
        rows={faults.map((fault) => [
          <a key="day" href={shelfPath(visit, `/baths/off/${fault.id}`)}>
            {shortDay(fault.day)}
          </a>,
          fault.note === '' ? fault.seen : `${fault.seen}: ${fault.note}`,
          nameOf(fault),
          fault.changed,
          fault.helped,
        ])}
      />
    </>
  );
}

export function BathFields({ sizes, crystals }: { sizes: PlateSize[]; crystals: Lot[] }) {
  return (
    <>
      <TextField name="name" label="Name" hint="As it is labelled." width="medium" />
      <RadioGroup
        name="tank"
        label="It stands in"
        options={[
          { value: 'upright tank', label: 'An upright tank' },
          { value: 'tray', label: 'A tray' },
        ]}
      />
      <SelectField
        name="plateSizeId"
        label="Largest plate"
        options={sizes.map((one) => ({ value: one.id, label: one.name }))}
      />
      <NumberField name="volume" label="Holds when full" unit="mL" decimal />
      <NumberField name="leastVolume" label="Not used below" unit="mL" decimal />
      <NumberField
        name="targetStrength"
        label="Made up to"
        hint="9 per cent is 90; 40 grains in the US ounce are 88."
        unit="g in a litre"
        decimal
      />
      <NumberField name="leastStrength" label="Topped up below" unit="g in a litre" decimal />
      <NumberField
        name="careAfterPlates"
        label="Sun and filter after so many of its largest plates"
        unit="plates"
      />
      <SelectField
        name="lotId"
        label="Bottle of crystals it is made of"
        empty="None"
        options={crystals.map((one) => ({ value: one.id, label: one.label }))}
        optional
      />
      <TextArea name="note" label="A note" rows={2} optional />
    </>
  );
}

export const answersOf = (bath: Bath) => ({
  name: bath.name,
  tank: bath.tank,
  plateSizeId: bath.plateSizeId,
  volume: typedAmount(bath.volume, 'uL'),
  leastVolume: typedAmount(bath.leastVolume, 'uL'),
  targetStrength: String(gramsPerLitre(bath.targetStrength)),
  leastStrength: String(gramsPerLitre(bath.leastStrength)),
  careAfterPlates: String(bath.careAfterPlates),
  lotId: bath.lotId ?? '',
  note: bath.note,
});
