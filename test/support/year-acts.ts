// What people and the owner do in a simulated year, through the services, as it really happened.
import { jest } from '@jest/globals';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { StopsService } from '../../src/reminders/stops.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import type { TestHouse } from './house.js';
import { WHY } from './letter-acts.js';
import type { TestStudio } from './studio.js';
import type { ActKind, YearPerson } from './year-people.js';

/** What happened to somebody's place, in truth. */
export interface Happened {
  at: Temporal.Instant;
  kind: 'confirmed' | ActKind;
  failed: boolean;
  wall: Temporal.PlainDateTime;
  /** Which of all that happened it was, together with what the mail server was handed. */
  order: number;
}
export interface Life {
  person: YearPerson;
  happened: Happened[];
}

let happenings = 0;
export const order = (): number => ++happenings;

const CUT_OFF = 'cut off at the last moment';
const get = <T>(house: TestHouse, service: new (...args: never[]) => T): T =>
  house.app.get<T>(service as never);

/** Where it happens. */
export interface Scene {
  house: TestHouse;
  studio: TestStudio;
  /** Open starts, earliest first; a move takes one out. */
  free: Temporal.PlainDateTime[];
  /** The studios whose acts fail just now; see failingActs. */
  failing: Set<string>;
}

/** The studios, by id, whose acts fail at their last statement; empty at first. */
export function failingActs(house: TestHouse): Set<string> {
  const failing = new Set<string>();
  const studios = get(house, StudiosService);
  const raise = studios.raiseCalendarCounter.bind(studios);
  jest
    .spyOn(studios, 'raiseCalendarCounter')
    .mockImplementation((tx, ...args) =>
      failing.has(tx.studioId) ? Promise.reject(new Error(CUT_OFF)) : raise(tx, ...args),
    );
  return failing;
}

/** Does it, or begins it and fails at its last statement. What is refused, since their hour has come, did not happen. */
export async function happen(
  { house, studio, free, failing }: Scene,
  { person, happened }: Life,
  kind: ActKind,
  fails: boolean,
): Promise<void> {
  const last = happened.filter((one) => !one.failed && one.kind !== 'stop reminders').at(-1);
  if (!last || last.kind === 'call off' || last.kind === 'give up') return;
  const at = house.clock.now();
  const earliest = Temporal.PlainDate.from(at.toString().slice(0, 10)).add({ days: 5 });
  const to = free.findIndex((one) => Temporal.PlainDate.compare(one.toPlainDate(), earliest) > 0);
  const wall = kind === 'move' ? free[to] : last.wall;
  if (!wall) return;
  const { sittingId } = person;
  const moving = get(house, MovingService);
  const acts: Record<ActKind, () => Promise<unknown>> = {
    move: () => moving.move(studio.id, studio.owner, sittingId, last.wall, { why: WHY, to: wall }),
    'call off': () =>
      moving.callOff(studio.id, studio.owner, sittingId, last.wall, { why: WHY, again: false }),
    'give up': () => get(house, RequestsService).giveUp(studio.id, person.token),
    'stop reminders': () => get(house, StopsService).setAtDesk(studio.id, studio.owner, { sittingId }, false),
  };
  if (fails) failing.add(studio.id);
  const error = await acts[kind]().then(
    () => null,
    (reason: Error & { code?: string }) => reason,
  );
  failing.delete(studio.id);
  if (error?.code === 'wrong_state' || error?.code === 'link_expired') return; // moved to an earlier day, it is over by then
  if (error && error.message !== CUT_OFF) throw error;
  if (kind === 'move' && !error) free.splice(to, 1);
  happened.push({ at, kind, failed: error !== null, wall, order: order() });
}

/** The owner works off the list to telephone and to write to. */
export async function tellByHand({ house, studio }: Scene): Promise<void> {
  const telephone = get(house, TelephoneService);
  const studios = get(house, StudiosService);
  const entries = await house.db.inStudio(studio.id, async (tx) =>
    telephone.toTell(tx, await studios.load(tx)),
  );
  for (const { view, mail, before } of entries) {
    const ids = [mail, ...before].map((one) => one.mail_id);
    await telephone.tell(studio.id, studio.owner, view.sitting.id, ids);
  }
}

/** The studios with anybody on that list: one statement, where the list takes a dozen. */
export async function studiosToTell(superuser: pg.Pool): Promise<Set<string>> {
  const { rows } = await superuser.query<{ studio_id: string }>({
    name: 'untold',
    text: `select distinct studio_id from mail where told_at is null and state <> 'dropped' and kind not like 'owner:%'
      and (by_hand <> '' or telephone_now or state = 'parked')`,
  });
  return new Set(rows.map((row) => row.studio_id));
}
