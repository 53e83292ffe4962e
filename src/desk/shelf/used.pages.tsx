// What a day took, and what the studio's own figures have become of it.
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { RecordedDay, WhichDay } from '../../chemistry/actuals.schemas.js';
import {
  type Learned,
  type Maker,
  MAKERS,
  type OwnFigures,
  UNLIKE_DAYS,
  USED,
  type Used,
  USUAL_DAYS,
  USUAL_TRIES,
} from '../../chemistry/learning.calc.js';
import { plateAreaUm2, UM2_PER_SQUARE_INCH } from '../../chemistry/plate-sizes.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords, monthName } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Fieldset, Form, NumberField, TextArea } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { PlateSize } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { Unsettled } from './unsettled.pages.js';
import { UNIT_WORDS, USED_UNITS } from './used.schemas.js';
import type { UsedNow } from './used.service.js';

const DAYS_SHOWN = 30;
export const MAKER_WORDS: Record<Maker, string> = { sittings: 'Of sittings', beginners: 'Of learners' };
export const USED_WORDS: Record<Used, string> = {
  collodion: 'Collodion',
  developer: 'Developer',
  fixer: 'Fixer',
  varnish: 'Varnish',
  silver: 'Silver nitrate',
};

interface UsedProps {
  visit: StaffVisit;
  now: UsedNow;
  /** The record that the form corrects. */
  corrects: WhichDay | null;
  values: Record<string, unknown>;
  notice?: Notice | undefined;
  errors?: FieldProblem[];
}

export function UsedPage({ visit, now, corrects, values, notice, errors = [] }: UsedProps) {
  const { sizes, days, figures } = now;
  return (
    <ShelfFrame visit={visit} title="What a day took" at="/used" notice={notice} errors={errors}>
      <p class="lead">
        Write down what you know of a day; none of it must be. By and by your own figures take the place of
        the usual ones. What it took is taken off the shelf on its own.
      </p>
      <Unsettled visit={visit} now={now} />
      <h2>{corrects ? `Correct ${dayInWords(corrects.day)}` : 'Write down a day'}</h2>
      <DayForm visit={visit} now={now} corrects={corrects} values={values} errors={errors} />
      <h2 id="own">Your own figures</h2>
      <Figures figures={figures} size={sizes[0]} />
      <p class="alone">
        <a href={shelfPath(visit, '/estimate')}>What plates would take by these figures</a>
      </p>
      <Table
        caption={
          days.length > DAYS_SHOWN ? `The latest ${DAYS_SHOWN} of ${days.length} days` : 'Days written down'
        }
        columns={[
          { head: 'Day' },
          { head: 'Plates' },
          { head: 'Used' },
          { head: 'Note' },
          { head: 'A slip?' },
        ]}
        rows={days.slice(0, DAYS_SHOWN).map((day) => dayRow(visit, day, sizes, isTyped(now, day)))}
        empty="No day is written down yet."
      />
    </ShelfFrame>
  );
}

type FormProps = Pick<UsedProps, 'visit' | 'now' | 'corrects' | 'values'> & { errors: FieldProblem[] };

function DayForm({ visit, now, corrects, values, errors }: FormProps) {
  const { today, sizes } = now;
  const typed = corrects !== null && isTyped(now, corrects);
  const stands = corrects ? now.days.find((one) => whichText(one) === whichText(corrects)) : undefined;
  const known = 'day-day' in values ? values : { ...boxes(today), madeBy: 'sittings', ...values };
  return (
    <Form
      action={shelfPath(visit, '/used')}
      csrf={visit.formToken}
      shown={stands && answersOf(stands)}
      values={known}
      errors={errors}
      label="What a day took"
    >
      {corrects && <input type="hidden" name="corrects" value={whichText(corrects)} />}
      <DateField name="day" label="Day" />
      <RadioGroup
        name="madeBy"
        label="Whose plates?"
        hint="Learners fail more, so they are counted apart."
        options={MAKERS.map((value) => ({ value, label: MAKER_WORDS[value] }))}
      />
      {typed && (
        <p>
          Its plates were typed in, and are counted from there:{' '}
          <a href={typeInPath(visit, corrects.day)}>correct them</a>.
        </p>
      )}
      {sizes
        .filter((size) => !typed && (size.offered || values[`tries-${size.id}`]))
        .map(({ id, name }) => (
          <Fieldset key={id} legend={name}>
            <NumberField name={`tries-${id}`} label="Made, with those that failed" unit="plates" optional />
            <NumberField name={`kept-${id}`} label="Of these kept" unit="plates" optional />
          </Fieldset>
        ))}
      <Fieldset
        legend="Used up"
        hint="By the marks on the bottles in the morning and the evening; silver by measuring the bath."
      >
        {USED.map((what) => (
          <NumberField
            key={what}
            name={what}
            label={USED_WORDS[what]}
            unit={UNIT_WORDS[USED_UNITS[what]]}
            optional
            decimal
          />
        ))}
      </Fieldset>
      <TextArea name="note" label="Note" optional rows={2} />
      <Button>Write it down</Button>
    </Form>
  );
}

function Figures({ figures, size }: { figures: OwnFigures; size: PlateSize | undefined }) {
  const area = size ? plateAreaUm2(size.widthMm, size.heightMm) : UM2_PER_SQUARE_INCH;
  const inches = Number(area) / Number(UM2_PER_SQUARE_INCH);
  const amount = (what: Used) => (figure: number) =>
    what === 'silver'
      ? formatQuantity(BigInt(Math.round((figure * inches) / 1000)), 'mg')
      : formatQuantity(BigInt(Math.round(figure * inches)), 'uL');
  const share = (figure: number) => `${Math.round(figure * 100)} of 100`;
  const { learnedUse, learnedShare, learnedSameDay } = figures;
  return (
    <>
      <Table
        caption={size ? `Amounts for one plate of ${size.name}` : 'Amounts for a square inch'}
        columns={[
          { head: 'Figure' },
          { head: 'Usual', figures: true },
          { head: 'Your own', figures: true },
          { head: 'Told by' },
          { head: 'The usual still counts', figures: true },
          { head: 'Reckoned with', figures: true },
        ]}
        rows={[
          ...USED.map((what) => figureRow(USED_WORDS[what], learnedUse[what], amount(what), 'day')),
          ...MAKERS.map((by) =>
            figureRow(`Plates kept, ${MAKER_WORDS[by].toLowerCase()}`, learnedShare[by], share, 'plate'),
          ),
          ...MAKERS.map((by) =>
            figureRow(
              `Plates of a day failing together, ${MAKER_WORDS[by].toLowerCase()}`,
              learnedSameDay[by],
              share,
              'day',
            ),
          ),
        ]}
      />
      <details>
        <summary>How was this reckoned?</summary>
        <p>
          Each figure is weighed: the usual one counts as {USUAL_DAYS} days of your own for amounts, and as{' '}
          {USUAL_TRIES} plates for how many are kept. Your own amount is all that was used on the days that
          tell it, over the area of all plates made on them, failed ones too. These figures are used when
          places are given and stock is set aside.
        </p>
        <p>
          Plates of a day fail together when the bath fogs: 0 is not at all, 100 would be all or none. This is
          told by how much days differ beyond chance (intraclass correlation), and that they do not counts as{' '}
          {UNLIKE_DAYS} days. The more they do, the more is set aside to be enough nine times in ten.
        </p>
      </details>
    </>
  );
}

function figureRow(name: string, learned: Learned, words: (figure: number) => string, one: string) {
  const { usual, own, count, usualWeight, figure } = learned;
  return [
    name,
    words(usual),
    own === null ? 'not known yet' : words(own),
    own === null ? 'nothing yet' : counted(count, one),
    `${Math.round(usualWeight * 100)} %`,
    words(figure),
  ];
}

function dayRow(visit: StaffVisit, record: RecordedDay, sizes: readonly PlateSize[], typed: boolean) {
  const { day, madeBy, plates, used, note } = record;
  const made = plates.map(({ plateSizeId, tries, keepers }) => {
    const size = sizes.find(({ id }) => id === plateSizeId);
    return `${keepers} kept of ${tries}, ${size?.name ?? 'another size'}`;
  });
  const poured = USED.flatMap((what) => {
    const quantity = used[what];
    return quantity === undefined
      ? []
      : [`${USED_WORDS[what].toLowerCase()} ${formatQuantity(quantity, USED_UNITS[what])}`];
  });
  const which = whichText(record);
  return [
    `${dayInWords(day)}, ${MAKER_WORDS[madeBy].toLowerCase()}`,
    made.join('; ') || 'not told',
    poured.join(', ') || 'not told',
    note,
    <span key="slip" class="actions">
      <a href={`${shelfPath(visit, '/used')}?correct=${which}`}>
        Correct<span class="unseen"> {dayInWords(day)}</span>
      </a>
      {typed ? (
        <a href={typeInPath(visit, day)}>
          Its plates<span class="unseen"> of {dayInWords(day)}</span>
        </a>
      ) : (
        <Form action={shelfPath(visit, '/used/remove')} csrf={visit.formToken}>
          <input type="hidden" name="which" value={which} />
          <button type="submit" class="plain nowrap">
            Take out<span class="unseen"> {dayInWords(day)}</span>
          </button>
        </Form>
      )}
    </span>,
  ];
}

const isTyped = ({ typed }: UsedNow, { day, madeBy }: WhichDay) =>
  madeBy === 'sittings' && typed.has(day.toString());
const typeInPath = (visit: StaffVisit, day: WhichDay['day']) =>
  `/s/${visit.studio.slug}/desk/days/${day}/plates`;

/** A record as its form sends it, so that it can be corrected. */
export function answersOf({ day, madeBy, plates, used, note }: RecordedDay): Record<string, unknown> {
  const counts = plates.flatMap(({ plateSizeId, tries, keepers }) => [
    [`tries-${plateSizeId}`, String(tries)],
    [`kept-${plateSizeId}`, String(keepers)],
  ]);
  const amounts = Object.entries(used).map(([what, quantity]) => [what, String(Number(quantity) / 1000)]);
  return { ...boxes(day), madeBy, note, ...Object.fromEntries([...counts, ...amounts]) };
}

const boxes = (day: WhichDay['day']) => ({
  'day-day': String(day.day),
  'day-month': monthName(day.month),
  'day-year': String(day.year),
});
const whichText = ({ day, madeBy }: WhichDay) => `${day}-${madeBy}`;
