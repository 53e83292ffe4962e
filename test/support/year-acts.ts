// What people and the owner do in a simulated year, through the services, as it really happened.
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { StopsService } from '../../src/reminders/stops.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import type { TestHouse } from './house.js';
import { instead } from './instead.js';
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
  /** Sees every studio's rows, in one statement. */
  superuser: pg.Client;
  studio: TestStudio;
  /** Open starts, earliest first; a move takes one out. */
  free: Temporal.PlainDateTime[];
}

/** Does it, or begins it and fails at its last statement. What is refused, since their hour has come, did not happen. */
export async function happen(
  { house, studio, free }: Scene,
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
  const studios = get(house, StudiosService);
  const cutOff = () => Promise.reject(new Error(CUT_OFF));
  const heal = fails ? instead(studios, 'raiseCalendarCounter', () => cutOff) : () => {};
  const error = await acts[kind]().then(
    () => null,
    (reason: Error & { code?: string }) => reason,
  );
  heal();
  if (error?.code === 'wrong_state' || error?.code === 'link_expired') return; // moved to an earlier day, it is over by then
  if (error && error.message !== CUT_OFF) throw error;
  if (kind === 'move' && !error) free.splice(to, 1);
  happened.push({ at, kind, failed: error !== null, wall, order: order() });
}

/** The owner works off the list to telephone and to write to. */
export async function tellByHand({ house, superuser, studio }: Scene): Promise<void> {
  if (!(await isAnybodyUntold(superuser, studio))) return;
  const telephone = get(house, TelephoneService);
  const entries = await house.db.inStudio(studio.id, async (tx) =>
    telephone.toTell(tx, await get(house, StudiosService).load(tx)),
  );
  for (const { view, mail, before } of entries) {
    const ids = [mail, ...before].map((one) => one.mail_id);
    await telephone.tell(studio.id, studio.owner, view.sitting.id, ids);
  }
}

/** One statement, where the list takes a dozen. */
async function isAnybodyUntold(superuser: pg.Client, { id }: TestStudio): Promise<boolean> {
  const { rowCount } = await superuser.query({
    name: 'untold',
    text: `select from mail where studio_id = $1 and told_at is null and state <> 'dropped' and kind not like 'owner:%'
      and (by_hand <> '' or telephone_now or state = 'parked') limit 1`,
    values: [id],
  });
  return rowCount === 1;
}
