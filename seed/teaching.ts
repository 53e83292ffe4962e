// What the demo studio teaches: a one-day class for six with some who have signed up, a second day for who came before,
// and somebody who would learn one to one. All names are invented.
import type { INestApplicationContext } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import type { Random } from '../src/platform/clock.js';
import { OwnSignUpService } from '../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../src/teaching/requests.service.js';
import { SessionsService } from '../src/teaching/sessions.service.js';
import { SignUpsService } from '../src/teaching/sign-ups.service.js';
import { TeachingViews } from '../src/teaching/views.service.js';
import { journeyOfStudent } from './journeys.js';
import type { Sizes } from './shelf.js';
import { keepTurns } from './turns.js';

/** Who has a place whose page the demo shows. */
export const STUDENT = 'Oriel Stainsby';

const STUDENTS = [
  { name: STUDENT, email: 'oriel@post.example', students: [{ name: STUDENT }] },
  {
    name: 'Bertil Ravn',
    email: 'bertil@post.example',
    students: [
      { name: 'Bertil Ravn', experience: 'some' },
      { name: 'Maud Ravn', experience: 'none' },
    ],
  },
  {
    name: 'Hesper Runswick',
    email: 'hesper@post.example',
    students: [{ name: 'Hesper Runswick' }, { name: 'Joss Runswick' }],
  },
];

export const FIRST = 'First Plates';

export const course = (sizes: Sizes) => ({
  name: FIRST,
  about:
    'A whole day for people who have never poured a plate. You clean, pour, sit for each other and develop.',
  parts: [
    { title: 'Welcome, and how we work safely', minutes: 30, where: 'table' },
    {
      title: 'One plate from glass to image, shown',
      minutes: 45,
      where: 'darkroom',
      work: ['ether'],
      together: true,
    },
    { title: 'Cleaning glass, posing and focusing', minutes: 45, where: 'studio' },
    { title: 'Rounds of plates in pairs', minutes: 90, where: 'darkroom', work: ['ether'] },
    { title: 'Noon', minutes: 45, where: 'break' },
    { title: 'Rounds of plates, roles changed', minutes: 120, where: 'darkroom', work: ['ether'] },
    { title: 'Washing, drying, looking', minutes: 45, where: 'studio' },
  ],
  plates: [{ plateSizeId: sizes.half, count: 3 }],
  demonstration: [{ plateSizeId: sizes.half, count: 1 }],
  uses: { varnish: 'none' }, // plates dry for hours; they are taken home unvarnished
  gear: [
    { name: 'Goggles', each: 1 },
    { name: 'Gloves', each: 2, sized: true },
    { name: 'Apron', each: 1 },
  ],
  stations: { tanks: 2, holders: 3, cameras: 2, sinks: 1, darkroomPlaces: 3 },
  bench: { helpers: 1 },
  leastAge: 16,
  most: 6,
  least: 3,
  decideDays: 21,
  bring: 'Something to eat at noon. Patience.',
  wear: 'Old clothes with long sleeves, closed shoes, no contact lenses.',
  fee: '190 pounds, glass and chemistry included',
  deposit: '60 pounds',
  release: 'Tell us three weeks before and the deposit comes back; later if somebody takes the place.',
});

/** Everybody of a sign-up agrees to work safely, and tells what the day asks. */
export async function agree(
  app: INestApplicationContext,
  studioId: string,
  { token }: { token: string },
): Promise<void> {
  const { students, safety } = await app.get(TeachingViews).behindLink(studioId, token);
  for (const [at, { id, name }] of students.entries())
    await app.get(OwnSignUpService).tellDetails(studioId, token, {
      studentId: id,
      gear: { Gloves: at % 2 === 0 ? 'medium' : 'small' },
      access: name === 'Maud Ravn' ? 'A stool beside the sink, please.' : '',
      emergencyName: `Family of ${name}`,
      emergencyTelephone: `01632 96${String(1000 + at)}`,
      agreesTo: safety.version,
    });
}

/** Teaching days on Wednesdays of the coming weeks. */
export async function teach(
  app: INestApplicationContext,
  random: Random,
  o: { studioId: string; owner: Account; sizes: Sizes; friday: Temporal.PlainDate },
): Promise<void> {
  const { studioId, owner, friday } = o;
  const sessions = app.get(SessionsService);
  const signUps = app.get(SignUpsService);
  const { templates } = await app.get(TeachingViews).all(studioId);
  const first = templates.find((one) => one.course.name === FIRST);
  if (!first) throw new Error('The demo has taught no class yet.');
  const second = await sessions.saveTemplate(studioId, owner, null, {
    ...course(o.sizes),
    name: 'A Second Day',
    about: 'For who came before: your own camera, larger glass, plates to keep.',
    plates: [{ plateSizeId: o.sizes.whole, count: 2 }],
    most: 2,
    least: 1,
    oneToOne: true,
    secondDay: true,
  });
  const wednesday = (week: number) =>
    friday.add({ weeks: week, days: 5 }).toPlainDateTime(Temporal.PlainTime.from('09:30'));
  const soon = await sessions.make(studioId, owner, first.id, wednesday(8));
  await sessions.open(studioId, owner, soon.id);
  const later = await sessions.copy(studioId, owner, soon.id, wednesday(16));
  await sessions.open(studioId, owner, later.id);
  await sessions.copy(studioId, owner, soon.id, wednesday(24));
  for (const one of STUDENTS) {
    const body = { ...one, reachBy: 'email', oldEnough: true };
    const signedUp = await signUps.signUp(studioId, soon.id, body, random.id());
    await agree(app, studioId, signedUp);
    if (one.name === STUDENT) await journeyOfStudent(app, studioId, signedUp.token);
  }
  const wish = {
    name: 'Isolde Kerr',
    reachBy: 'telephone',
    telephone: '01632 960714',
    students: [{ name: 'Isolde Kerr', experience: 'some', brings: 'A half-plate camera of her own' }],
    oldEnough: true,
    cameBefore: true,
    day: wednesday(11).toPlainDate().toString(),
  };
  await signUps.askOneToOne(studioId, second.id, wish, random.id());
  const calder = {
    name: 'Calder Wren',
    reachBy: 'email',
    email: 'calder@post.example',
    students: [{ name: 'Calder Wren', experience: 'practised' }],
    oldEnough: true,
  };
  const calderMade = await signUps.signUp(studioId, soon.id, calder, random.id());
  await agree(app, studioId, calderMade);
  const { signUpId } = calderMade;
  await app.get(TeachingRequestsService).noteDeposit(studioId, owner, signUpId, 'received');
  await keepTurns(app, { studioId, owner, sessionId: soon.id });
}
