// A studio that teaches, for tests: a course of six, days of it, and people who sign up.
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { AfterStore } from '../../src/teaching/after.store.js';
import { BriefingStore } from '../../src/teaching/briefing.store.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import { SignUpsStore } from '../../src/teaching/sign-ups.store.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { TurnsService } from '../../src/teaching/turns.service.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

/** A Wednesday over eight weeks ahead. */
export const TEACHING_START = '2027-04-07T10:00';

export const courseOf = (studio: Pick<TestStudio, 'sizes'>, change: Record<string, unknown> = {}) => ({
  name: 'First Plates',
  about: 'A whole day, hands in the chemistry.',
  parts: [
    { title: 'Safety and a demonstration', minutes: 90, where: 'studio' },
    { title: 'Rounds of plates', minutes: 270, where: 'darkroom' },
  ],
  plates: [{ plateSizeId: studio.sizes.half.id, count: 3 }],
  demonstration: [{ plateSizeId: studio.sizes.whole.id, count: 1 }],
  gear: [{ name: 'Gloves', each: 1, sized: true }],
  leastAge: 16,
  most: 6,
  least: 2,
  bring: 'Something to eat at noon.',
  wear: 'Old clothes.',
  fee: '180 pounds',
  deposit: '60 pounds',
  oneToOne: true,
  ...change,
});

/** A course and a day of it that people can sign up for. */
export async function teachingDay(
  house: TestHouse,
  studio: TestStudio,
  {
    start = TEACHING_START,
    open = true,
    ...change
  }: { start?: string; open?: boolean } & Record<string, unknown> = {},
) {
  const sessions = house.app.get(SessionsService);
  const { id, owner: who } = studio;
  const template = await sessions.saveTemplate(id, who, null, courseOf(studio, change));
  const { id: sessionId } = await sessions.make(id, who, template.id, Temporal.PlainDateTime.from(start));
  if (open) await sessions.open(id, who, sessionId);
  return { templateId: template.id, sessionId };
}

export const signUpOf = (change: Record<string, unknown> = {}) => ({
  name: 'Linnea Harrow',
  reachBy: 'email',
  email: 'linnea@post.example',
  students: [{ name: 'Linnea Harrow' }],
  oldEnough: true,
  ...change,
});

export const signUp = (
  house: TestHouse,
  studio: TestStudio,
  sessionId: string,
  change: Record<string, unknown> = {},
) => house.app.get(SignUpsService).signUp(studio.id, sessionId, signUpOf(change), new SystemRandom().id());

/** Everybody of a sign-up agrees to the first wording of safety, and tells what the day asks. */
export async function agreeToAll(house: TestHouse, studio: TestStudio, token: string): Promise<void> {
  const { students, safety } = await house.app.get(TeachingViews).behindLink(studio.id, token);
  for (const { id, name } of students)
    await house.app.get(OwnSignUpService).tellDetails(studio.id, token, {
      studentId: id,
      gear: { Gloves: 'small' },
      access: 'A stool, please.',
      emergencyName: `Una, of ${name}`,
      emergencyTelephone: '01632 960001',
      agreesTo: safety.version,
    });
}

/** Lays the turns of a day and keeps them. */
export async function keepTurns(house: TestHouse, studio: TestStudio, sessionId: string): Promise<void> {
  const turns = house.app.get(TurnsService);
  const { basis } = await turns.view(studio.id, sessionId);
  if (!(await turns.keep(studio.id, studio.owner, sessionId, undefined, basis ?? '')))
    throw new Error('No turns were kept.');
}

/** A day with one student, kept turns and an open offer, one asked for one to one, and a wording of the studio's own. */
export async function fillTeaching(house: TestHouse, studio: TestStudio) {
  const { sessionId, templateId } = await teachingDay(house, studio, { most: 2 });
  const { signUpId } = await signUp(house, studio, sessionId);
  const { signUpId: waiting } = await signUp(house, studio, sessionId, {
    students: [{ name: 'A' }, { name: 'B' }],
    orWait: true,
  });
  const asked = { ...signUpOf(), day: '2027-04-14' };
  await house.app.get(SignUpsService).askOneToOne(studio.id, templateId, asked, new SystemRandom().id());
  await house.app.get(SessionsService).saveSafety(studio.id, studio.owner, 'Goggles on.');
  await house.app.get(TeachingRequestsService).noteDeposit(studio.id, studio.owner, signUpId, 'received');
  await keepTurns(house, studio, sessionId);
  const day = Temporal.PlainDate.from(TEACHING_START.slice(0, 10));
  await writtenDown(house, studio, { sessionId, signUpId, day });
  return { sessionId, signUpId, waiting, day };
}

/** Rows of all that is kept of a day afterwards and for its sheet, as if it had been held. */
export async function writtenDown(
  house: TestHouse,
  studio: TestStudio,
  { sessionId, signUpId, day }: { sessionId: string; signUpId: string; day: Temporal.PlainDate },
): Promise<void> {
  const [store, briefings] = [new AfterStore(), new BriefingStore()];
  const at = house.clock.now();
  await house.db.inStudio(studio.id, async (tx) => {
    const [one] = await new SignUpsStore().students(tx, [signUpId]);
    const maker = one?.id ?? '';
    const bottle = { lotId: studio.lots.collodion, quantity: 1n };
    const plates = [{ maker, plateSizeId: studio.sizes.half.id, tries: 2, keepers: 1 }];
    const attendance = new Map([[maker, 'present' as const]]);
    const told = { plates, attendance, used: { collodion: 1n }, note: '' };
    await store.save(tx, { ...told, sessionId, day, movesStock: true, writtenAt: at });
    await store.insertHeld(tx, sessionId, [{ ...bottle, holder: maker }]);
    await store.setUsed(tx, sessionId, [bottle]);
    const said = { emergencyNumber: '999', hospital: 'Whitby', eyewash: 'By the sink', teacher: 'Wren' };
    await briefings.save(tx, sessionId, { ...said, youngest: 18 }, at);
  });
}
