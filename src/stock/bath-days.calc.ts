// Which bath takes which day's plates, what of them that leaves in it, when it must be topped up, and when it wants
// sun and filter while another works. Reckoned ahead from today by what is booked.
import { Temporal } from 'temporal-polyfill';
import { plateAreaUm2 } from '../chemistry/plate-sizes.calc.js';
import { topUpFor } from '../chemistry/bath-strength.calc.js';
import { type Band, type BathNow, poured, toppedUp } from './baths.calc.js';
import type { Bath, DaySheets } from './baths.schemas.js';
import type { PlateSize } from './stock.schemas.js';

/**
 * How long a bath is away for sun and filter. "A day or two" in the sun: E. L. Wilson, Wilson's Photographics (1881);
 * one more to filter it is an assumption.
 */
export const CARE_DAYS = 3;

/** A day's plates: every sheet set aside for it, spare tries included. */
export interface PlatesOfDay {
  date: Temporal.PlainDate;
  plates: number;
  /** Square micrometres. */
  area: bigint;
  /** Every size of the day. */
  sizes: PlateSize[];
}

/** 'no bath' where none was ever entered: silver baths may be kept elsewhere then. */
export type NoBath = 'no bath' | 'all retired' | 'none large enough' | 'none working';

export interface BathDay extends PlatesOfDay {
  /** The bath that takes it. */
  bath: Bath | null;
  /** Why none does. */
  reason: NoBath | null;
  /** Before and after the day's plates, topped up first where it must be. */
  before: Band | null;
  after: Band | null;
  topUp: TopUp | null;
}

export interface TopUp {
  bath: Bath;
  /** The day before the first day it would be too weak or too low for; never before today. */
  by: Temporal.PlainDate;
  forDay: Temporal.PlainDate;
  crystals: bigint;
  volume: bigint;
}

export interface Care {
  bath: Bath;
  /** From this day on it should stand in the sun and be filtered. */
  from: Temporal.PlainDate;
  /** Working again. */
  until: Temporal.PlainDate;
}

export interface BathPlan {
  days: BathDay[];
  topUps: TopUp[];
  cares: Care[];
}

/** A bath's area of care: so many plates of its largest size. Square micrometres; null when the size is not known. */
export function careArea(bath: Bath, sizes: readonly PlateSize[]): bigint | null {
  const size = sizes.find((one) => one.id === bath.plateSizeId);
  return size ? plateAreaUm2(size.widthMm, size.heightMm) * BigInt(bath.careAfterPlates) : null;
}

/** The plates of each day, in order; what was poured today already is taken off today's. */
export function platesByDay(
  sheets: readonly DaySheets[],
  sizes: readonly PlateSize[],
  today: { date: Temporal.PlainDate; poured: bigint; plates: number },
): PlatesOfDay[] {
  const days = new Map<string, PlatesOfDay>();
  for (const one of sheets) {
    const size = sizes.find(({ id }) => id === one.plateSizeId);
    if (!size) continue;
    const known = days.get(one.day.toString()) ?? { date: one.day, plates: 0, area: 0n, sizes: [] };
    days.set(one.day.toString(), {
      date: one.day,
      plates: known.plates + Number(one.sheets),
      area: known.area + one.sheets * plateAreaUm2(size.widthMm, size.heightMm),
      sizes: [...known.sizes, size],
    });
  }
  const now = days.get(today.date.toString());
  if (now) {
    const area = now.area > today.poured ? now.area - today.poured : 0n;
    days.set(today.date.toString(), { ...now, area, plates: Math.max(0, now.plates - today.plates) });
  }
  return [...days.values()].sort((a, b) => Temporal.PlainDate.compare(a.date, b.date));
}

/**
 * Gives each day one bath: large enough for its largest plate and working that day; of several one that needs no
 * topping up, then the one with the least poured since its last care, so that they take turns. A bath that has had its
 * area of care is away for CARE_DAYS from the next day on, or from today where it has had it already; where no other
 * can take a day in them, its care waits.
 */
export function planBaths(
  days: readonly PlatesOfDay[],
  baths: readonly BathNow[],
  sizes: readonly PlateSize[],
  today: Temporal.PlainDate,
): BathPlan {
  const vessels = baths
    .filter(({ bath }) => bath.state !== 'retired')
    .map((now): Vessel => ({ now, backOn: backOn(now.bath, today), care: null }));
  const without: NoBath = baths.length === 0 ? 'no bath' : 'all retired';
  const plan: BathPlan = { days: [], topUps: [], cares: [] };
  for (const one of vessels)
    if (AT_HAND.includes(one.now.bath.state)) careIfDue(one, today, sizes, plan.cares);
  for (const day of days) {
    const { chosen, reason } =
      vessels.length === 0 ? { chosen: null, reason: without } : choose(vessels, day, sizes);
    if (!chosen) {
      plan.days.push({ ...day, bath: null, reason, before: null, after: null, topUp: null });
      continue;
    }
    const { bath } = chosen.now;
    if (chosen.care && !isOver(chosen.care.care, day.date)) {
      plan.cares.splice(plan.cares.indexOf(chosen.care.care), 1);
      chosen.now = { ...chosen.now, areaSinceCare: chosen.now.areaSinceCare + chosen.care.area };
      chosen.care = null;
    }
    const topUp = topUpBefore(chosen.now, day, today);
    if (topUp) {
      plan.topUps.push(topUp);
      chosen.now = toppedUp(chosen.now, topUp);
    }
    const before = chosen.now.level;
    chosen.now = poured(chosen.now, day.area);
    plan.days.push({ ...day, bath, reason: null, before, after: chosen.now.level, topUp });
    careIfDue(chosen, day.date.add({ days: 1 }), sizes, plan.cares);
  }
  return plan;
}

/**
 * The days that would be a bath's if it were in order, each with the bath that takes it as things stand: whom it
 * concerns that a bath is suspect, and what to propose instead.
 */
export function dependingOn(
  bathId: string,
  days: readonly PlatesOfDay[],
  baths: readonly BathNow[],
  sizes: readonly PlateSize[],
  today: Temporal.PlainDate,
): { day: PlatesOfDay; instead: Bath | null }[] {
  const sound = baths.map((now) =>
    now.bath.id === bathId
      ? { ...now, bath: { ...now.bath, state: 'working' as const, stateUntil: null } }
      : now,
  );
  const asItIs = planBaths(days, baths, sizes, today);
  return planBaths(days, sound, sizes, today).days.flatMap((day, at) =>
    day.bath?.id === bathId ? [{ day, instead: asItIs.days[at]?.bath ?? null }] : [],
  );
}

/** The days that no bath takes, by their date as "2027-05-14", each with the reason; none where no bath was ever entered. */
export const daysWithout = ({ days }: BathPlan): Map<string, NoBath> =>
  new Map(
    days.flatMap(({ date, reason }) =>
      reason === null || reason === 'no bath' ? [] : [[date.toString(), reason] as const],
    ),
  );

/** How one day stands in the plan; null where it has no plates, or is past. */
export const plannedFor = ({ days }: BathPlan, date: Temporal.PlainDate): BathDay | null =>
  days.find((day) => day.date.equals(date)) ?? null;

/** How a day stands for want of a bath. */
export interface Readiness {
  state: 'ready' | 'top up by' | 'not ready';
  bath: Bath | null;
  reason: NoBath | null;
  topUp: TopUp | null;
}

export const readinessOf = ({ bath, reason, topUp }: BathDay): Readiness => ({
  state: bath === null ? 'not ready' : topUp === null ? 'ready' : 'top up by',
  bath,
  reason,
  topUp,
});

interface Vessel {
  now: BathNow;
  /** The first day on which it works; null when nobody knows. */
  backOn: Temporal.PlainDate | null;
  /** Its last care in the plan, and the area it had before. */
  care: { care: Care; area: bigint } | null;
}

/** What may begin its care today: one in the sun or filtered has it already, of a suspect one nobody knows. */
const AT_HAND: readonly Bath['state'][] = ['working', 'resting'];

/** Plans the care of a bath that has had its area. */
function careIfDue(vessel: Vessel, from: Temporal.PlainDate, sizes: readonly PlateSize[], cares: Care[]) {
  const { bath, areaSinceCare } = vessel.now;
  const limit = careArea(bath, sizes);
  if (limit === null || areaSinceCare < limit) return;
  const care = { bath, from, until: from.add({ days: CARE_DAYS }) };
  cares.push(care);
  vessel.care = { care, area: areaSinceCare };
  vessel.now = { ...vessel.now, areaSinceCare: 0n };
}

const isOver = (care: Care, date: Temporal.PlainDate) => Temporal.PlainDate.compare(care.until, date) <= 0;

function backOn(bath: Bath, today: Temporal.PlainDate): Temporal.PlainDate | null {
  if (bath.state === 'working') return today;
  return bath.state === 'suspect' ? null : bath.stateUntil;
}

function choose(
  vessels: readonly Vessel[],
  day: PlatesOfDay,
  sizes: readonly PlateSize[],
): { chosen: Vessel | null; reason: NoBath | null } {
  const large = vessels.filter(({ now }) => day.sizes.every((size) => takes(now.bath, size, sizes)));
  if (large.length === 0) return { chosen: null, reason: 'none large enough' };
  const working = large.filter(
    (one) => one.backOn !== null && Temporal.PlainDate.compare(one.backOn, day.date) <= 0,
  );
  if (working.length === 0) return { chosen: null, reason: 'none working' };
  const atHome = working.filter(({ care }) => care === null || isOver(care.care, day.date));
  const byTurns = [...(atHome.length > 0 ? atHome : working)].sort(
    (a, b) =>
      Number(isShort(a.now)) - Number(isShort(b.now)) ||
      compare(a.now.areaSinceCare, b.now.areaSinceCare) ||
      (a.now.bath.name < b.now.bath.name ? -1 : 1),
  );
  return { chosen: byTurns[0] ?? null, reason: null };
}

/** Whether a plate goes into a bath, turned either way. */
export function takes(bath: Bath, plate: PlateSize, sizes: readonly PlateSize[]): boolean {
  const largest = sizes.find((one) => one.id === bath.plateSizeId);
  if (!largest) return false;
  const sides = ({ widthMm, heightMm }: PlateSize) => [
    Math.min(widthMm, heightMm),
    Math.max(widthMm, heightMm),
  ];
  const [short = 0, long = 0] = sides(plate);
  const [mostShort = 0, mostLong = 0] = sides(largest);
  return short <= mostShort && long <= mostLong;
}

/** Whether a bath may be too weak, or holds too little. One of unknown strength counts as such. */
function isShort({ bath, level }: BathNow): boolean {
  if (level === null) return true;
  return level.likely.strength < bath.leastStrength || level.likely.volume < bath.leastVolume;
}

/** What a bath must be given before a day: when it would be too weak or too low at any time of it. */
function topUpBefore(now: BathNow, day: PlatesOfDay, today: Temporal.PlainDate): TopUp | null {
  if (now.level === null) return null;
  if (!isShort(now) && !isShort(poured(now, day.area))) return null;
  const { bath } = now;
  const needed = topUpFor(now.level.likely, { volume: bath.volume, strength: bath.targetStrength });
  if (needed.crystals === 0n && needed.volume === 0n) return null;
  const before = day.date.subtract({ days: 1 });
  const by = Temporal.PlainDate.compare(before, today) < 0 ? today : before;
  return { bath, by, forDay: day.date, ...needed };
}

const compare = (a: bigint, b: bigint) => (a < b ? -1 : a > b ? 1 : 0);
