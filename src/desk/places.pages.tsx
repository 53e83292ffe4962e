// Giving a place: the days that suit, month by month, each with its light, its room and its shelf.
// Without JavaScript: one form, one choice, months that fold.
import { skyCoefficientsConfirmed } from '../daylight/exposure.calc.js';
import { counted, monthInWords, monthName, timeInWords, weekdayName } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { FieldError, fieldId } from '../platform/html/kit/errors.js';
import { Form } from '../platform/html/kit/form.js';
import {
  type Hours,
  hoursAround,
  LightBar,
  LightLegend,
  type PlaceInLight,
} from '../platform/html/kit/light-bar.js';
import { Tag } from '../platform/html/kit/notices.js';
import { StockMark } from '../platform/html/kit/stock-mark.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Slot } from '../room/openings.calc.js';
import { tooLong } from '../room/pose.calc.js';
import { CLOSED_WORDS } from '../room/room.service.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { NO_BATH_WORDS } from '../stock/due.calc.js';
import type { Outlook } from '../stock/outlook.calc.js';
import { type DayChoice, dayToAct, openPlaces } from './glance.calc.js';
import { reasonInWords } from './outlook-words.calc.js';
import { holdStillInShort, shortDay } from './words.calc.js';

/** Months stand open until so many places are in sight; the others unfold. */
const PLACES_IN_SIGHT = 12;
const FIELD = 'start';

interface GivePlaceProps {
  zone: string;
  choices: DayChoice[];
  action: string;
  /** Where the chosen place is offered instead of given. */
  offerAction?: string;
  formToken: string;
  /** Seconds that all on the plates can hold still. */
  limit?: number;
  /** The start that was chosen before, as "2027-05-14T11:15"; '' for none. */
  chosen: string;
  errors: FieldProblem[];
}

export function GivePlace(props: GivePlaceProps) {
  const { zone, choices, action, formToken, chosen, errors, limit = Number.POSITIVE_INFINITY } = props;
  const places = openPlaces(choices);
  const months = byMonth(choices, chosen, limit);
  const hours = hoursAround(choices.flatMap((day) => [...lightOf(day, zone), ...day.slots.map(timesOf)]));
  const message = errors.find(({ field }) => field === FIELD)?.message;
  const day = { zone, hours, chosen, firstPlace: places[0]?.slot, limit };
  return (
    <>
      <h2>Give a place</h2>
      {places.length === 0 ? (
        <p class="empty">None of the days that suit has a place that can be given.</p>
      ) : (
        <p>
          {counted(places.length, 'place')} can be given. The room and what is needed from the shelf are set
          aside at once, and they are told.
        </p>
      )}
      {choices.length > 0 && <LightLegend states={['open', 'taken']} />}
      <Form action={action} csrf={formToken} label="Give a place">
        <FieldError id={`${fieldId(FIELD)}-error`} message={message} />
        {months.map((month) => (
          <details key={month.name} open={month.inSight}>
            <summary>
              {month.name}: {month.open === 0 ? 'no open place' : counted(month.open, 'open place')}
            </summary>
            {month.days.map((one) => (
              <Day key={one.date.toString()} choice={one} {...day} wrong={message !== undefined} />
            ))}
          </details>
        ))}
        {places.length > 0 && (
          <div class="actions">
            <Button>Give this place</Button>
            {props.offerAction !== undefined && (
              <Button kind="quiet" formaction={props.offerAction}>
                Offer it, for them to answer
              </Button>
            )}
          </div>
        )}
      </Form>
      {places.length > 0 && <LightNote />}
    </>
  );
}

/** Every page that shows a prediction says what it rests on. */
export function LightNote() {
  return (
    <p class="small">
      How long one holds still is a prediction from the height of the sun and the studio’s own reference
      {skyCoefficientsConfirmed ? '.' : '; its figures for the sky are not confirmed.'}
    </p>
  );
}

/**
 * How the shelf stands for a day, and for what reason. Far-out days stay quiet: only what is near has weight, and
 * ingredients are named once it is time to think of them.
 */
export function StockLine({ stock }: { stock: Outlook }) {
  const act = dayToAct(stock);
  const quiet = stock.state === 'nothing to do yet';
  const reasons = stock.reasons.filter(({ state, into }) =>
    quiet ? into === null : state !== 'nothing to do yet',
  );
  return (
    <>
      <StockMark state={stock.state} by={act} near={act !== null} />
      {reasons.length > 0 && <span class="small"> ({reasons.map(reasonInWords).join('; ')})</span>}
    </>
  );
}

/** The same without reasons, where there is nothing to do yet. */
export const StockInShort = ({ stock }: { stock: Outlook }) =>
  stock.state === 'nothing to do yet' ? (
    <StockMark state={stock.state} by={null} near={false} />
  ) : (
    <StockLine stock={stock} />
  );

interface DayProps {
  choice: DayChoice;
  zone: string;
  hours: Hours;
  chosen: string;
  /** The error summary leads to the first place of all. */
  firstPlace: Slot | undefined;
  wrong: boolean;
  limit: number;
}

function Day({ choice, zone, hours, chosen, firstPlace, wrong, limit }: DayProps) {
  const { date, slots, stock, helperMissing, noBath } = choice;
  const open = openPlaces([choice]).map(({ slot }) => slot);
  const closed = slots.filter((slot) => !open.includes(slot)).map((slot) => whyNot(slot, stock));
  const name = shortDay(date);
  if (open.length === 0)
    return (
      <p class="small">
        {name}: none. {closed.join('; ')}.
      </p>
    );
  const [light] = lightOf(choice, zone);
  const stockId = `shelf-${date}`;
  return (
    <article class="day">
      <h3>
        {weekdayName(date.dayOfWeek)} <span class="nowrap">{`${date.day} ${monthName(date.month)}`}</span>
      </h3>
      <div class="day-light">
        <LightBar window={light ?? null} slots={slots.flatMap(markOf)} hours={hours} />
      </div>
      <p id={stockId}>
        <StockLine stock={stock} />
        {helperMissing && <NoHelper />}
        {noBath && <WithoutBath reason={noBath} />}
      </p>
      <fieldset class="field choices" aria-describedby={stockId}>
        <legend class="unseen">{name}</legend>
        {open.map((slot) => (
          <Place
            key={startOf(slot)}
            slot={slot}
            id={slot === firstPlace ? fieldId(FIELD) : `${fieldId(FIELD)}-${startOf(slot)}`}
            checked={startOf(slot) === chosen}
            wrong={wrong}
            limit={limit}
          />
        ))}
      </fieldset>
      {closed.length > 0 && <p class="small">Not open: {closed.join('; ')}.</p>}
    </article>
  );
}

/** A day that no silver bath takes can be given all the same. */
export const WithoutBath = ({ reason }: { reason: NoBath }) => (
  <>
    {' '}
    <Tag tone="warn">{NO_BATH_WORDS[reason]}</Tag>
  </>
);

/** A day with too few hands can be given all the same. */
export const NoHelper = () => (
  <>
    {' '}
    <Tag tone="warn">no helper yet</Tag>
  </>
);

/** Said where a place asks for more than the people of a sitting hold still; nothing is hidden for it. */
export function TooLong({ slot, limit }: { slot: Slot; limit: number }) {
  if (!slot.holdStill || !tooLong(slot.holdStill.clear, limit)) return null;
  return (
    <>
      {' '}
      <Tag tone="warn">{`longer than the ${limit} s they hold`}</Tag>
    </>
  );
}

interface PlaceProps {
  slot: Slot;
  id: string;
  checked: boolean;
  wrong: boolean;
  limit: number;
}

function Place({ slot, id, checked, wrong, limit }: PlaceProps) {
  return (
    <div class="choice">
      <input
        id={id}
        type="radio"
        name={FIELD}
        value={startOf(slot)}
        checked={checked}
        aria-describedby={`${id}-hint`}
        aria-invalid={wrong ? 'true' : undefined}
      />
      <label for={id}>
        {timeInWords(slot.wallStart)} to {timeInWords(slot.wallEnd)}
      </label>
      <p class="hint" id={`${id}-hint`}>
        The room is free{slot.heldBack === true && ', kept off the public page'};{' '}
        {slot.holdStill ? holdStillInShort(slot.holdStill) : 'the light is not known'}
        <TooLong slot={slot} limit={limit} />
      </p>
    </div>
  );
}

interface Month {
  name: string;
  days: DayChoice[];
  open: number;
  inSight: boolean;
}

/** In order of time; but the months with a place that everybody holds still for come before the others. */
function byMonth(choices: DayChoice[], chosen: string, limit: number): Month[] {
  const months = new Map<string, DayChoice[]>();
  for (const day of choices) {
    const name = monthInWords(day.date);
    months.set(name, [...(months.get(name) ?? []), day]);
  }
  let seen = 0;
  const bright = ([, days]: [string, DayChoice[]]) =>
    openPlaces(days).some(({ slot }) => slot.holdStill && !tooLong(slot.holdStill.clear, limit)) ? 0 : 1;
  return [...months]
    .sort((a, b) => bright(a) - bright(b))
    .map(([name, days]) => {
      const open = openPlaces(days).length;
      const inSight = seen < PLACES_IN_SIGHT || days.some((day) => chosen.startsWith(day.date.toString()));
      seen += open;
      return { name, days, open, inSight };
    });
}

/** "2027-05-14T11:15". */
const startOf = (slot: Slot) => slot.wallStart.toString({ smallestUnit: 'minute' });
const timesOf = (slot: Slot) => ({ from: slot.wallStart, until: slot.wallEnd });

function whyNot({ wallStart, closed }: Slot, { reasons }: Outlook): string {
  const lacking = reasons.filter(({ state }) => state === 'cannot be had').map(({ item }) => item);
  const shelf =
    lacking.length === 0 ? 'the shelf cannot provide' : `the shelf cannot provide ${lacking.join(', ')}`;
  return `${timeInWords(wallStart)}, ${closed === null ? shelf : CLOSED_WORDS[closed]}`;
}

function lightOf({ light }: DayChoice, zone: string) {
  return light ? [{ from: instantToWall(zone, light.start), until: instantToWall(zone, light.end) }] : [];
}

function markOf(slot: Slot): PlaceInLight[] {
  if (slot.closed === null) return [{ ...timesOf(slot), state: 'open' }];
  return slot.closed === 'room taken' ? [{ ...timesOf(slot), state: 'taken' }] : [];
}
