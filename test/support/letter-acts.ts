// The acts that end with each kind of message to whoever asked: for tests that walk every kind.
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { isAboutSitting, LETTER_KINDS } from '../../src/reminders/letters.schemas.js';
import { DEFAULT_REMINDER_RULES } from '../../src/reminders/reminder-rules.schemas.js';
import { ReminderRulesService } from '../../src/reminders/reminder-rules.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import type { TestHouse } from './house.js';
import { approve, type TestStudio } from './studio.js';

/** Every kind about a sitting that is to somebody outside the studio. */
export const TO_THEM = LETTER_KINDS.filter((kind) => isAboutSitting(kind) && !kind.startsWith('owner:'));

/** The usual rules, but everybody is asked to see to the journey, whatever it is. */
export const REMIND_ALL = DEFAULT_REMINDER_RULES.filter(
  (one) => one.kind !== 'travel' || one.days === 21,
).map((one) => ({ ...one, id: crypto.randomUUID(), forWhom: 'everyone' as const }));

/** Just after somebody is reminded by the usual rules, so many days before a start. */
export function remindedAt(start: Temporal.PlainDateTime, days: number): string {
  const hour = days === 0 ? 8 : 10;
  const at = start.toPlainDate().subtract({ days }).toPlainDateTime({ hour, minute: 5 });
  const answer = wallToInstant('Europe/London', at, 'earlier');
  if (!answer.ok) throw new Error(`There is no ${at} in London.`);
  return answer.instant.toString();
}

export const WHY = { reason: 'storm', words: 'The harbour road is closed.' } as const;

/** People reached in each way, as they ask. */
export const REACH = {
  telephone: { reachBy: 'telephone', telephone: '01632 960188' },
  letter: { reachBy: 'letter', postalAddress: '4 Chandlery Row\nHull' },
  email: { reachBy: 'email', email: 'somebody@post.example' },
} as const;

export interface Person {
  sittingId: string;
  token: string;
}

/**
 * By kind: what is done with a fresh request until that message is the newest about it. `wall` gives a further open
 * start each time; `beforeWork` is called before jobs run in between, after which the clock is set back to `now`.
 */
export function letterActs(
  house: TestHouse,
  studio: TestStudio,
  { wall, now, beforeWork }: { wall: () => Temporal.PlainDateTime; now: string; beforeWork: () => void },
): Record<string, (person: Person) => Promise<unknown>> {
  const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
  const by = ({ sittingId }: Person) => ({ who: studio.owner, sittingId });
  const offer = async (person: Person): Promise<Temporal.PlainDateTime> => {
    const start = wall();
    await get(OffersService).make(studio.id, studio.owner, person.sittingId, start);
    return start;
  };
  const given = async (person: Person): Promise<Temporal.PlainDateTime> => {
    const start = wall();
    await approve(house, studio, person.sittingId, start.toString());
    return start;
  };
  /** Lets an offer run out, then sets the clock back for the next. */
  const lapse = async (person: Person): Promise<void> => {
    await offer(person);
    house.clock.forward({ hours: 24 * 16 });
    beforeWork();
    await house.work(); // the offer's own job
    house.clock.set(now);
  };
  const remind = (days: number) => async (person: Person) => {
    await get(ReminderRulesService).saveRules(studio.id, studio.owner, REMIND_ALL);
    const start = await given(person);
    beforeWork();
    await house.work();
    house.clock.set(remindedAt(start, days));
    beforeWork();
    await house.work(); // the reminder's own job
    house.clock.set(now);
  };
  return {
    'reminder: travel': remind(21),
    'reminder: week': remind(7),
    'reminder: near': remind(3),
    'reminder: eve': remind(1),
    'reminder: day': remind(0),
    asked: async () => undefined,
    waiting: ({ sittingId }) => get(ListService).wait(studio.id, studio.owner, sittingId),
    offered: offer,
    refused: async (person) => {
      await offer(person);
      await get(OffersService).refuse(studio.id, by(person));
    },
    lapsed: lapse,
    'run out': async (person) => {
      await lapse(person);
      await lapse(person);
    },
    'called back': async (person) => {
      const from = await offer(person);
      await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
        why: WHY,
        again: true,
      });
    },
    'called off': async (person) => {
      const from = await given(person);
      await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
        why: WHY,
        again: true,
      });
    },
    'called off for good': async (person) => {
      const from = await given(person);
      await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
        why: WHY,
        again: false,
      });
    },
    moved: async (person) => {
      const from = await given(person);
      beforeWork();
      await house.work(); // who was not told of their yes yet is told of the new day as of a yes
      await get(MovingService).move(studio.id, studio.owner, person.sittingId, from, {
        why: WHY,
        to: wall(),
      });
    },
    'another day': async (person) => {
      await given(person);
      await get(OffersService).askAnotherDay(studio.id, by(person));
    },
    confirmed: given,
    declined: ({ sittingId }) =>
      get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Not this year.'),
    withdrawn: ({ token }) => get(RequestsService).giveUp(studio.id, token),
    released: async ({ token, sittingId }) => {
      await approve(house, studio, sittingId, wall().toString());
      await get(RequestsService).giveUp(studio.id, token);
    },
  };
}
