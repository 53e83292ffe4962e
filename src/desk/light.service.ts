// The light of many days with what is open and given in it, gathered for the owner's light pages in one
// transaction. Nothing is decided here.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { type LightWindow, lightWindow } from '../daylight/window.calc.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Db } from '../platform/db/db.js';
import type { Slot } from '../room/openings.calc.js';
import { RoomService } from '../room/room.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';

/** A place of the day, or time that something else takes; in wall time. */
export interface LitPlace {
  from: Temporal.PlainDateTime;
  until: Temporal.PlainDateTime;
  /** Held: offered to somebody, or kept back from the public. */
  state: 'open' | 'held' | 'taken';
  /** The slot of an open or held-back place. */
  slot: Slot | null;
  /** The sitting that has it. */
  view: SittingView | null;
  /** What else takes it. */
  title: string;
}

export interface LitDay {
  date: Temporal.PlainDate;
  light: LightWindow | null;
  /** In order of time. */
  places: LitPlace[];
  /** Starts of the rhythm that are neither open nor anybody's, with their reasons. */
  closedSlots: Slot[];
  /** A closure covers the whole day. */
  closed: boolean;
}

export interface Light {
  studio: Studio;
  today: Temporal.PlainDate;
  /** Every date of the range. */
  days: LitDay[];
}

@Injectable()
export class LightService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
  ) {}

  /** The days from one date to another, both included. */
  days(studioId: string, from: Temporal.PlainDate, until: Temporal.PlainDate): Promise<Light> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const range = { from, until };
      const open = await this.room.days(tx, studio, range, 1);
      const start = dayBounds(studio.zone, from).start;
      const end = dayBounds(studio.zone, until).end;
      const taking = (await this.room.between(tx, start, end, end)).filter(
        (one) => one.holds && one.resource === 'room' && one.kind !== 'closure',
      );
      const views = await this.views.byOccupancies(
        tx,
        studio,
        taking.map((one) => one.id),
      );
      const { closures } = await this.room.rules(tx);
      const taken: LitPlace[] = taking.map((one) => {
        const view = views.get(one.id) ?? null;
        const state = view && view.sitting.state !== 'confirmed' ? 'held' : 'taken';
        return { from: one.wallStart, until: one.wallEnd, state, slot: null, view, title: one.title };
      });
      const facts = { open, taken, closures, horizon: this.room.bookable(studio).until };
      return { studio, today: this.room.today(studio), days: litDays(studio, range, facts) };
    });
  }
}

interface Facts {
  /** The days of the rhythm. */
  open: { date: Temporal.PlainDate; openings: Slot[] }[];
  taken: LitPlace[];
  closures: { wallFrom: Temporal.PlainDateTime; wallUntil: Temporal.PlainDateTime }[];
  /** The last date that can be booked. */
  horizon: Temporal.PlainDate;
}

function litDays(
  studio: Studio,
  range: { from: Temporal.PlainDate; until: Temporal.PlainDate },
  facts: Facts,
): LitDay[] {
  const slots = new Map(facts.open.map((day) => [day.date.toString(), day.openings]));
  const takenOn = (key: string) => facts.taken.filter((one) => one.from.toPlainDate().toString() === key);
  const horizon = facts.horizon.toString();
  const last = range.until.toString();
  const days: LitDay[] = [];
  for (let date = range.from; date.toString() <= last; date = date.add({ days: 1 })) {
    const key = date.toString();
    const openings = key <= horizon ? (slots.get(key) ?? []) : [];
    const places = [...takenOn(key), ...openings.flatMap(openPlace)];
    const [midnight, next] = [
      date.toPlainDateTime().toString(),
      date.add({ days: 1 }).toPlainDateTime().toString(),
    ];
    days.push({
      date,
      light: lightWindow(studio, date, studio.lightFloorDegrees),
      places: places.sort((a, b) => (a.from.toString() < b.from.toString() ? -1 : 1)),
      closedSlots: openings.filter((slot) => slot.closed !== null && !isSomebodys(slot, places)),
      closed: facts.closures.some(
        (one) => one.wallFrom.toString() <= midnight && one.wallUntil.toString() >= next,
      ),
    });
  }
  return days;
}

/** Whether a start is where a taken place begins; another that is taken has no room beside it. */
const isSomebodys = (slot: Slot, places: LitPlace[]) =>
  slot.closed === 'room taken' && places.some((place) => place.from.equals(slot.wallStart));

function openPlace(slot: Slot): LitPlace[] {
  if (slot.closed !== null) return [];
  const state = slot.heldBack ? 'held' : 'open';
  return [{ from: slot.wallStart, until: slot.wallEnd, state, slot, view: null, title: '' }];
}
