// Open places, and taking and giving back the room. Methods with `tx` work in the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayInWords } from '../lib/words.js';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { isThere } from './attendance.calc.js';
import { ClosuresService } from './closures.service.js';
import { bookableFrom, type DateRange, type DayOfPlaces, daysOf, type RoomFacts } from './days.calc.js';
import type { Occupancy } from './occupancy.schemas.js';
import { type ClosedReason, mostSittings, rhythmOn, type Wanted } from './openings.calc.js';
import { heldWithout } from './preview.calc.js';
import { RoomStore } from './room.store.js';
import { type Kind, RHYTHM_DEFAULTS, type Rhythm, type RoomRules } from './rules.schemas.js';
import { RulesStore } from './rules.store.js';

export type { DayOfPlaces } from './days.calc.js';

/** What is asked for, by the kind's id; a bare number is so many plates of one sitter. */
export type Asked = number | { plates: number; sitters?: number; kindId?: string | null };

/** A start of the rhythm to be taken for a sitting. */
export interface Taking {
  wallStart: Temporal.PlainDateTime;
  plates: number;
  sitters?: number;
  kindId?: string | null;
  heldFor: string;
  /** For an offer: firm only once it is accepted. */
  tentative?: boolean;
}

/** A rhythm to enter; what is left out: one helper's worth of sittings, no breaks, nothing held back. */
export type NewRhythm = Pick<
  Rhythm,
  'weekday' | 'starts' | 'effectiveFrom' | 'effectiveUntil' | 'mostSittings'
> &
  Partial<Omit<Rhythm, 'id'>>;

/** Why a place cannot be given, in words. */
export const CLOSED_WORDS: Record<ClosedReason, string> = {
  'clock gap': 'the clocks change at that hour',
  'too soon': 'it is too soon',
  'owner away': 'the studio’s owner is away',
  'other days': 'this kind of sitting has other days',
  break: 'it would run into a break',
  'no light that day': 'there is no good light that day',
  'starts before good light': 'the light is not yet good',
  'light ends first': 'the light goes before the sitting ends',
  'exposure above cap': 'one would have to hold still too long',
  'room closed': 'the room is closed',
  'room taken': 'the room is taken in that time',
  'day full': 'the day is full',
  'no more plates': 'the day has no room for so many plates',
  'year full': 'all sittings of this kind are given that year',
};

@Injectable()
export class RoomService {
  private readonly store = new RoomStore();
  private readonly rulesStore = new RulesStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly closures: ClosuresService,
  ) {}

  /** Today's date on the studio's wall. */
  today(studio: Studio): Temporal.PlainDate {
    return instantToWall(studio.zone, this.clock.now()).toPlainDate();
  }

  /** The dates for which places can be asked: from the least notice to the booking horizon, both included. */
  bookable(studio: Studio): DateRange {
    return bookableFrom(this.today(studio), studio);
  }

  /** What the room opens by. One statement. */
  rules(tx: Tx): Promise<RoomRules> {
    return this.rulesStore.load(tx);
  }

  /**
   * The days of the rhythm in a range, each with its places for what is asked.
   * Two statements whatever the range, three where a kind has a yearly quota; days without a rhythm are left out.
   */
  async days(tx: Tx, studio: Studio, range: DateRange, asked: Asked): Promise<DayOfPlaces[]> {
    const rules = await this.rules(tx);
    const wanted = wantedOf(rules, asked);
    return daysOf(await this.facts(tx, studio, rules, range, wanted.kind), range, wanted);
  }

  /** The same for several askings at once, in their order; no statement more. Places of `leaving` count as free. */
  async daysForEach(
    tx: Tx,
    studio: Studio,
    range: DateRange,
    all: Asked[],
    leaving: string[] = [],
  ): Promise<DayOfPlaces[][]> {
    const rules = await this.rules(tx);
    const wanted = all.map((asked) => wantedOf(rules, asked));
    const quota = wanted.find((one) => one.kind?.yearlyQuota != null)?.kind ?? null;
    const facts = await this.facts(tx, studio, rules, range, quota, leaving);
    return wanted.map((one) => daysOf(facts, range, one));
  }

  /** What is wrong with the days somebody asks for; empty when nothing is. */
  dayProblems(
    studio: Studio,
    suits:
      | { kind: 'any'; from: Temporal.PlainDate; until: Temporal.PlainDate }
      | { kind: 'these'; days: Temporal.PlainDate[] },
  ): FieldProblem[] {
    const { from, until } = this.bookable(studio);
    const outside = (day: Temporal.PlainDate) => day.until(from).days > 0 || until.until(day).days > 0;
    const [first, last] = [dayInWords(from), dayInWords(until)];
    const wrong = (field: string, message: string) => [{ field: `suits/${field}`, message }];
    if (suits.kind === 'these')
      return suits.days.some(outside) ? wrong('days', `Please choose days from ${first} to ${last}.`) : [];
    if (suits.until.until(from).days > 0)
      return wrong('until', `This is past or too soon; the first day to ask for is ${first}.`);
    if (until.until(suits.from).days > 0) return wrong('from', `Places are given until ${last}.`);
    return [];
  }

  /**
   * Takes the room for a sitting at a start of the rhythm.
   * @throws AppError not_an_opening with the reason, place_taken
   */
  async take(tx: Tx, studio: Studio, asked: Taking): Promise<Occupancy> {
    const { slot, rules, kind } = await this.openSlot(tx, studio, asked);
    const now = this.clock.now();
    const place: Occupancy = {
      id: this.random.id(),
      resource: 'room',
      kind: 'sitting',
      heldFor: asked.heldFor,
      holds: true,
      tentative: asked.tentative ?? false,
      zone: studio.zone,
      ...slot,
      title: '',
      plates: asked.plates,
      kindId: kind?.id ?? null,
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    };
    await this.store.insert(tx, place);
    await this.countAgain(tx, rules, asked.wallStart.toPlainDate(), kind);
    return place;
  }

  /**
   * Takes the room at another start for a place that was given back a moment ago: it stays the same entry in every
   * calendar, and moves there.
   * @throws AppError not_an_opening with the reason, place_taken
   */
  async takeInstead(tx: Tx, studio: Studio, given: Occupancy, asked: Taking): Promise<Occupancy> {
    const { slot, rules, kind } = await this.openSlot(tx, studio, asked);
    const moved = await this.store.move(tx, { ...given, ...slot, zone: studio.zone }, this.clock.now());
    await this.countAgain(tx, rules, asked.wallStart.toPlainDate(), kind);
    return moved;
  }

  /** Makes an offered place firm. @throws AppError place_taken where it lost the room to another */
  async confirm(tx: Tx, occupancyId: string): Promise<Occupancy> {
    const place = await this.store.confirm(tx, occupancyId, this.clock.now());
    if (!place) throw new AppError('place_taken');
    return place;
  }

  /** Whether a place's time has come: nobody can give it back any more. */
  begun(place: Pick<Occupancy, 'startsAt'>): boolean {
    return Temporal.Instant.compare(place.startsAt, this.clock.now()) <= 0;
  }

  /** Gives a place's room back, `byThem` or called off; a closure over it takes it. Calendars learn it by its sequence. */
  async giveBack(tx: Tx, occupancyId: string, byThem: boolean): Promise<Occupancy> {
    await this.rulesStore.lockShared(tx);
    const given = await this.store.giveBack(tx, occupancyId, byThem, this.clock.now());
    await this.closures.fill(tx, given.zone, { from: given.startsAt, until: given.busyUntil });
    return given;
  }

  /** What calendars show of the places that some have reads otherwise now. */
  async revise(tx: Tx, heldFor: string[]): Promise<void> {
    await this.store.revise(tx, heldFor, this.clock.now());
  }

  byIds(tx: Tx, ids: string[]): Promise<Occupancy[]> {
    return this.store.byIds(tx, ids);
  }

  /** What takes or took the room, as the store tells it. */
  between(...asked: Parameters<RoomStore['between']>): Promise<Occupancy[]> {
    return this.store.between(...asked);
  }

  async enterRhythm(tx: Tx, rhythm: NewRhythm): Promise<void> {
    const plain = { ...RHYTHM_DEFAULTS, furtherSitterMinutes: 0, heldBack: 0 };
    const withHelper = { mostSittingsWithHelper: rhythm.mostSittings };
    await this.rulesStore.insertRhythm(tx, { ...plain, ...withHelper, ...rhythm, id: this.random.id() });
  }

  /** @returns the kind's id */
  async enterKind(tx: Tx, kind: Omit<Kind, 'id'>): Promise<string> {
    const id = this.random.id();
    await this.rulesStore.saveKind(tx, { id, ...kind });
    return id;
  }

  async enterAttendance(tx: Tx, part: Partial<Pick<RoomRules, 'owner' | 'helper'>>): Promise<void> {
    const before = await this.rules(tx);
    await this.rulesStore.saveChanged(tx, before, { ...before, ...part });
  }

  /** Closes the room from one date to another, both included, around the places that stand. */
  async close(tx: Tx, studio: Studio, range: DateRange, title: string): Promise<void> {
    await this.closures.close(tx, studio.zone, {
      id: this.random.id(),
      title,
      wallFrom: range.from.toPlainDateTime(),
      wallUntil: range.until.add({ days: 1 }).toPlainDateTime(),
    });
  }

  /** The start asked for with its times, when it is open. */
  private async openSlot(tx: Tx, studio: Studio, asked: Taking) {
    await this.rulesStore.lockShared(tx);
    const [date, { until }] = [asked.wallStart.toPlainDate(), this.bookable(studio)];
    if (Temporal.PlainDate.compare(date, until) > 0)
      throw new AppError('not_an_opening', `Places are given until ${dayInWords(until)}.`);
    const rules = await this.rules(tx);
    const wanted = wantedOf(rules, asked);
    const range = { from: date, until: date };
    const [day] = daysOf(await this.facts(tx, studio, rules, range, wanted.kind), range, wanted);
    const found = day?.openings.find(({ wallStart }) => wallStart.equals(asked.wallStart));
    if (!found?.startsAt || !found.endsAt || !found.busyUntil) throw new AppError('not_an_opening');
    if (found.closed === 'room taken') throw new AppError('place_taken');
    if (found.closed) throw notAnOpening(found.closed);
    const { wallStart, wallEnd, startsAt, endsAt, busyUntil } = found;
    return { slot: { wallStart, wallEnd, startsAt, endsAt, busyUntil }, rules, kind: wanted.kind };
  }

  private async facts(
    tx: Tx,
    studio: Studio,
    rules: RoomRules,
    range: DateRange,
    kind: Kind | null,
    leaving: string[] = [],
  ): Promise<RoomFacts> {
    const { zone } = studio;
    const [from, until] = [dayBounds(zone, range.from).start, dayBounds(zone, range.until).end];
    const holding = heldWithout(leaving, await this.store.holding(tx, from, until), zone, rules.closures);
    const years = [range.from.year, range.until.year] as const;
    const kindYears = kind?.yearlyQuota == null ? [] : await this.store.kindYears(tx, ...years, leaving);
    return { rules, booking: studio, holding, kindYears, today: this.today(studio) };
  }

  /**
   * Two people may take two places of one day at once, each seeing room for one more: so the limits are
   * counted again with the own place in, one after the other. The room itself is the constraint's matter.
   */
  private async countAgain(
    tx: Tx,
    rules: RoomRules,
    date: Temporal.PlainDate,
    kind: Kind | null,
  ): Promise<void> {
    const rhythm = rhythmOn(rules.rhythms, date);
    if (!rhythm) return;
    await this.store.lockCount(tx, date.toString());
    const day = await this.store.standingOn(tx, date);
    if (day.sittings > mostSittings(rhythm, isThere(rules.helper, date))) throw notAnOpening('day full');
    if (day.plates > rhythm.mostPlates) throw notAnOpening('no more plates');
    if (kind?.yearlyQuota == null) return;
    await this.store.lockCount(tx, `${kind.id} ${date.year}`);
    const years = await this.store.kindYears(tx, date.year, date.year);
    const inYear = years.find((one) => one.kindId === kind.id && one.year === date.year);
    if ((inYear?.sittings ?? 0) > kind.yearlyQuota) throw notAnOpening('year full');
  }
}

function wantedOf(rules: RoomRules, asked: Asked): Wanted {
  if (typeof asked === 'number') return { plates: asked, sitters: 1, kind: null };
  const kind = rules.kinds.find((one) => one.id === asked.kindId) ?? null;
  return { plates: asked.plates, sitters: asked.sitters ?? 1, kind };
}

const notAnOpening = (reason: ClosedReason) =>
  new AppError('not_an_opening', `That place is not open: ${CLOSED_WORDS[reason]}.`);
