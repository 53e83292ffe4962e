// Nobody who learns falls silent: every kind of message about teaching to somebody without e-mail, or whose mail is
// refused, stands on the list of whom to telephone or to write to until it is ticked.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import { ReminderRulesService } from '../../src/reminders/reminder-rules.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { teachingToSay } from '../../src/reminders/teaching-call-words.calc.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { REACH, REMIND_ALL } from '../support/letter-acts.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { agreeToAll, signUp, signUpOf, teachingDay } from '../support/teaching.js';
import { TEACHING_CHANGES, teachingLetterActs } from '../support/teaching-letter-acts.js';

const NOW = '2026-11-25T10:00:00Z';
const REFUSED = Object.assign(new Error('550 no such box'), { responseCode: 550 });

let house: TestHouse;
let studio: TestStudio;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
  const much = 90_000_000_000n;
  studio = await foundTestStudio(house, {
    shelf: {
      halfGlass: 5000n,
      wholeGlass: 900n,
      collodion: much,
      developer: much,
      fixer: much,
      varnish: much,
    },
  });
  await house.app.get(ReminderRulesService).saveRules(studio.id, studio.owner, REMIND_ALL);
  starts = Array.from({ length: 300 }, (_, day) =>
    Temporal.PlainDateTime.from('2027-03-01T10:00').add({ days: day }).toString({ smallestUnit: 'minute' }),
  );
});
afterAll(() => house.close());

let refusing = false;
const refuseAll = () => {
  house.mail.failures.push(...Array.from({ length: 200 }, () => REFUSED));
};
const telephone = () => house.app.get(TelephoneService);
const onList = async (signUpId: string) =>
  (await telephone().list(studio.id)).teaching.find(({ view }) => view.signUp.id === signUpId);

describe.each(['telephone', 'letter', 'email'] as const)('somebody who learns, reached by %s', (reach) => {
  it.each(TEACHING_CHANGES)(
    'is on the list for "%s" until it is ticked',
    async (change) => {
      refusing = reach === 'email';
      const acts = teachingLetterActs(house, studio, {
        start: () => starts.shift() ?? '',
        now: NOW,
        beforeWork: () => (refusing ? refuseAll() : undefined),
      });
      const email = reach === 'email' ? `${change.replace(/\W+/g, '.')}@post.example` : '';
      const signUpId = await acts[change]({ ...REACH[reach], email });
      if (refusing) refuseAll();
      await house.work();
      house.mail.failures.length = 0;
      const entry = await onList(signUpId);
      expect(entry).toMatchObject({
        about: { change },
        way: reach === 'letter' ? 'letter' : 'telephone',
        why: reach === 'email' ? 'mail refused' : 'no e-mail',
      });
      expect(entry && teachingToSay(entry.about)[0]).toMatch(/^[A-Z].+\.$/);
      const ids = [...(entry?.before ?? []), ...(entry ? [entry.mail] : [])].map((one) => one.mail_id);
      const printed = (await telephone().letters(studio.id)).filter(({ mail }) => mail.about_id === signUpId);
      expect(printed.map(({ letter }) => letter.paragraphs[0]?.includes('has no e-mail'))).toEqual(
        reach === 'letter' ? [false] : [],
      );
      await telephone().tell(studio.id, studio.owner, signUpId, ids);
      expect(await onList(signUpId)).toBeUndefined();
      await telephone().untell(studio.id, studio.owner, signUpId, ids);
      expect(await onList(signUpId)).toBeDefined();
      await telephone().tell(studio.id, studio.owner, signUpId, ids);
      const { told } = await telephone().list(studio.id);
      expect(told.find(({ aboutId }) => aboutId === signUpId)?.contact.reachBy).toBe(reach);
    },
    30_000,
  );
});

it('asks to telephone whoever has e-mail too when their teaching day is called off within the week', async () => {
  house.clock.set(NOW);
  const { sessionId } = await teachingDay(house, studio, { start: '2026-11-30T10:00', least: 1 });
  const { signUpId } = await signUp(house, studio, sessionId, { email: 'near@post.example' });
  await house.work();
  expect(await onList(signUpId)).toBeUndefined();
  await house.app.get(SessionsService).callOff(studio.id, studio.owner, sessionId, 'The roof leaks.');
  await house.work();
  expect(await onList(signUpId)).toMatchObject({
    why: 'too near',
    now: true,
    about: { change: 'called off' },
  });
});

it('is not asked on the telephone for what they have told meanwhile', async () => {
  house.clock.set(NOW);
  const { sessionId } = await teachingDay(house, studio, { start: '2026-12-09T10:00', least: 1 });
  const { signUpId, token } = await signUp(house, studio, sessionId, { ...REACH.telephone, email: '' });
  await house.work();
  house.clock.set('2026-12-02T10:05:00Z');
  await house.work();
  const open = async () => (await onList(signUpId))?.about.open.map(({ tells }) => tells);
  expect(await open()).toEqual(['safety', 'emergency', 'gear', 'deposit']);
  await agreeToAll(house, studio, token);
  expect(await open()).toEqual(['deposit']);
});

describe('the owner is told of a sign-up, and how each is told of it', () => {
  const toOwner = async (reach: Record<string, string>, typedBy?: string) => {
    house.clock.set(NOW);
    await house.work();
    house.mail.sent.length = 0;
    const { sessionId } = await teachingDay(house, studio, { start: starts.shift() ?? '' });
    const bert = signUpOf({ email: '', ...reach, name: 'Bert' });
    const key = new SystemRandom().id();
    await house.app.get(SignUpsService).signUp(studio.id, sessionId, bert, key, typedBy);
    house.clock.forward({ minutes: 2 });
    await house.work();
    const letters = house.mail.sent.filter(({ subject }) => subject === 'Teaching: Bert, signed');
    return letters.map(({ text }) => /^(.*?): You have a place/m.exec(text)?.[1]);
  };

  it.each([
    ['by mail', REACH.email, undefined, 'To Bert we have written'],
    ['by telephone, still to be rung', REACH.telephone, undefined, 'Please tell Bert on the telephone'],
    ['by telephone, as it was typed in', REACH.telephone, 'Isaura', 'Bert was told on the telephone'],
    ['by letter', REACH.letter, 'Isaura', 'Please write to Bert'],
  ])('%s', async (_how, reach, typedBy, says) => {
    expect(await toOwner(reach, typedBy)).toEqual([says]);
  });
});
