// The acts that end with each kind of message to who signed up: for tests that walk every kind.
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import { teachingLetter } from '../../src/reminders/letters.schemas.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import type { TestHouse } from './house.js';
import { remindedAt } from './letter-acts.js';
import type { TestStudio } from './studio.js';
import { signUp, signUpOf, teachingDay } from './teaching.js';

export const TEACHING_CHANGES = teachingLetter.shape.change.options;
export type TeachingChange = (typeof TEACHING_CHANGES)[number];

/**
 * By kind: what is done for somebody reached in a way, until that message is the newest about their sign-up. `start`
 * gives a further free day each time; jobs run in between after `beforeWork`, and the clock is set back to `now`.
 * Reminders are those of REMIND_ALL. @returns the sign-up
 */
export function teachingLetterActs(
  house: TestHouse,
  studio: TestStudio,
  { start, now, beforeWork }: { start: () => string; now: string; beforeWork: () => void },
): Record<TeachingChange, (reach: Record<string, string>) => Promise<string>> {
  const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
  const { id, owner } = studio;
  const own = get(OwnSignUpService);
  const requests = get(TeachingRequestsService);
  const signed = async (reach: Record<string, string>, on = start()) => {
    const { sessionId } = await teachingDay(house, studio, { start: on });
    return { sessionId, ...(await signUp(house, studio, sessionId, reach)) };
  };
  const remind = (days: number) => async (reach: Record<string, string>) => {
    const on = start();
    const { signUpId } = await signed(reach, on);
    beforeWork();
    await house.work();
    house.clock.set(remindedAt(Temporal.PlainDateTime.from(on), days));
    beforeWork();
    await house.work(); // the reminder's own job
    house.clock.set(now);
    return signUpId;
  };
  /** On the list of a day with two places, of which one is free. */
  const listed = async (reach: Record<string, string>) => {
    const { sessionId } = await teachingDay(house, studio, { start: start(), most: 2, least: 1 });
    const first = await signUp(house, studio, sessionId, {
      email: 'first@post.example',
      students: [{ name: 'A' }, { name: 'B' }],
    });
    const waiting = await signUp(house, studio, sessionId, { ...reach, orWait: true });
    await own.leave(id, first.token);
    return { sessionId, ...waiting };
  };
  const offered = async (reach: Record<string, string>) => {
    const waiting = await listed(reach);
    await requests.offer(id, owner, waiting.signUpId);
    return waiting;
  };
  const lapse = async (signUpId: string) => {
    house.clock.forward({ hours: 24 * 16 });
    await requests.lapse(id, new SystemRandom().id());
    beforeWork();
    await house.work();
    house.clock.set(now);
    return signUpId;
  };
  const asked = async (reach: Record<string, string>) => {
    const { templateId } = await teachingDay(house, studio, { start: start(), open: false });
    const wish = { ...signUpOf(reach), day: '2027-09-08' };
    return get(SignUpsService).askOneToOne(id, templateId, wish, new SystemRandom().id());
  };
  const idOf = async (made: Promise<{ signUpId: string }>) => (await made).signUpId;
  return {
    'reminder: travel': remind(21),
    'reminder: week': remind(7),
    'reminder: near': remind(3),
    'reminder: eve': remind(1),
    'reminder: day': remind(0),
    asked: (reach) => idOf(asked(reach)),
    waiting: (reach) => idOf(listed(reach)),
    offered: (reach) => idOf(offered(reach)),
    refused: async (reach) => {
      const { signUpId, token } = await offered(reach);
      await own.refuse(id, token);
      return signUpId;
    },
    lapsed: async (reach) => lapse((await offered(reach)).signUpId),
    'run out': async (reach) => {
      const { signUpId } = await offered(reach);
      await lapse(signUpId);
      await requests.offer(id, owner, signUpId);
      return lapse(signUpId);
    },
    signed: (reach) => idOf(signed(reach)),
    changed: async (reach) => {
      const { sessionId, signUpId } = await signed(reach);
      const day = Temporal.PlainDateTime.from(start());
      const form = {
        day: day.toPlainDate().toString(),
        time: '11:00',
        places: 6,
        least: 2,
        decideOn: '2027-02-01',
      };
      const { hash } = await get(TeachingChanges).preview(id, sessionId, form);
      await get(TeachingChanges).confirm(id, owner, sessionId, form, hash);
      return signUpId;
    },
    declined: async (reach) => {
      const { signUpId } = await asked(reach);
      await requests.decline(id, owner, signUpId, 'Not this year.');
      return signUpId;
    },
    withdrawn: async (reach) => {
      const { signUpId, token } = await asked(reach);
      await own.leave(id, token);
      return signUpId;
    },
    released: async (reach) => {
      const { signUpId, token } = await signed(reach);
      await own.leave(id, token);
      return signUpId;
    },
    'called off': async (reach) => {
      const { sessionId, signUpId } = await signed(reach);
      await get(SessionsService).callOff(id, owner, sessionId, 'The roof leaks.');
      return signUpId;
    },
  };
}
