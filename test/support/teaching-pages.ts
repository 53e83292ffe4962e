// The pages of teaching in the states that look different, and what fills them.
import type { Page } from 'playwright-core';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import type { PageState } from './every-page.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';
import { agreeToAll, keepTurns, signUp, signUpOf, teachingDay, writtenDown } from './teaching.js';

/** Where things of teaching are: paths. */
export interface TeachingPlaces {
  /** Open, with people; the owner's page and the public one. */
  teachingDay: string;
  teachingPublic: string;
  /** Of two people, and too short for their plates. */
  shortDay: string;
  oneToOne: string;
  template: string;
  /** The page of two students with a place, and of one with an offer. */
  student: string;
  offeredStudent: string;
  /** A day whose one student has agreed to everything: its sheet can be printed. */
  sheetDay: string;
  /** The page of somebody who was at a day that is written down. */
  studentAfter: string;
  /** All messages to somebody with a place, and to somebody with an offer. */
  signedMessages: string;
  /** Where the same person stops reminders. */
  stopReminders: string;
  offeredMessages: string;
}

const DESK = '/s/:slug/desk/teaching';
const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();

const MESSAGES = `${DESK}/sign-ups/:id/messages`;
const STOP = '/s/:slug/reminders/:token';

export const TEACHING_PAGES: PageState[] = [
  {
    route: STOP,
    is: 'while they are reminded',
    as: 'visitor',
    path: ({ stopReminders }) => stopReminders,
  },
  {
    route: MESSAGES,
    is: 'to somebody with a place',
    as: 'owner',
    path: ({ signedMessages }) => signedMessages,
  },
  {
    route: MESSAGES,
    is: 'to somebody with an offer, with what they would be sent',
    as: 'owner',
    path: ({ offeredMessages }) => offeredMessages,
  },
  { route: '/s/:slug/teaching', is: 'with a day', as: 'visitor', path: ({ home }) => `${home}/teaching` },
  { route: '/s/:slug/teaching', is: 'with none', as: 'visitor', path: ({ empty }) => `${empty}/teaching` },
  {
    route: '/s/:slug/teaching/:id',
    is: 'sent empty',
    as: 'visitor',
    path: ({ teachingPublic }) => teachingPublic,
    act: press('Send'),
    wrong: true,
  },
  {
    route: '/s/:slug/teaching/one-to-one/:id',
    is: 'not filled yet',
    as: 'visitor',
    path: ({ oneToOne }) => oneToOne,
  },
  { route: '/s/:slug/student/:token', is: 'of two', as: 'visitor', path: ({ student }) => student },
  {
    route: '/s/:slug/student/:token',
    is: 'with an offer',
    as: 'visitor',
    path: ({ offeredStudent }) => offeredStudent,
  },
  {
    route: '/s/:slug/student/:token',
    is: 'after the day',
    as: 'visitor',
    path: ({ studentAfter }) => studentAfter,
  },
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: DESK,
    is: `with days, for the ${as}`,
    as,
    path: ({ home }: { home: string }) => `${home}/desk/teaching`,
  })),
  {
    route: DESK,
    is: 'with a day that the calendar has not',
    as: 'owner',
    path: ({ home }) => `${home}/desk/teaching`,
    act: press('Make a draft'),
    wrong: true,
  },
  {
    route: `${DESK}/:id`,
    is: 'with people',
    as: 'owner',
    path: ({ teachingDay: day }) => day,
    act: (page) => page.getByText('For each student').click(),
  },
  {
    route: `${DESK}/:id`,
    is: 'with what a change touches',
    as: 'owner',
    path: ({ teachingDay: day }) => day,
    act: async (page) => {
      await page.getByLabel('From what time').first().fill('11:00');
      await press('Show what this changes')(page);
    },
  },
  {
    route: `${DESK}/:id/sheet`,
    is: 'refused',
    as: 'owner',
    path: ({ teachingDay: day }) => `${day}/sheet`,
  },
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: `${DESK}/:id/sheet`,
    is: `printed, for the ${as}`,
    as,
    path: ({ sheetDay }: { sheetDay: string }) => `${sheetDay}/sheet`,
  })),
  {
    route: `${DESK}/:id/briefing`,
    is: 'with an age that is none',
    as: 'owner',
    path: ({ sheetDay }) => `${sheetDay}/briefing`,
    act: async (page) => {
      await page.getByLabel('Age of the youngest').fill('old');
      await press('Save')(page);
    },
    wrong: true,
  },
  {
    route: `${DESK}/:id/sign-up`,
    is: 'for who telephones, empty',
    as: 'owner',
    path: ({ teachingDay: day }) => `${day}/sign-up`,
  },
  {
    route: `${DESK}/:id/sign-up`,
    is: 'for who telephones, without a number',
    as: 'owner',
    path: ({ teachingDay: day }) => `${day}/sign-up`,
    act: async (page) => {
      await page.getByLabel('Name', { exact: true }).fill('Isolde Kerr');
      await press('Sign them up')(page);
    },
    wrong: true,
  },
  {
    route: `${DESK}/:id/after`,
    is: 'with plates kept that were not made',
    as: 'assistant',
    path: ({ teachingDay: day }) => `${day}/after`,
    act: async (page) => {
      await page.getByLabel('Of these kept').first().fill('3');
      await press('Write it down')(page);
    },
    wrong: true,
  },
  {
    route: '/s/:slug/desk/move',
    is: 'with a teaching day on it',
    as: 'owner',
    path: ({ home }) => `${home}/desk/move?from=2027-02-03`,
    act: async (page) => {
      await page.getByLabel('A storm').check();
      await press('Show who is there')(page);
    },
  },
  {
    route: '/s/:slug/desk/days/:date',
    is: 'of a teaching day',
    as: 'owner',
    path: ({ home }) => `${home}/desk/days/2027-02-03`,
  },
  {
    route: '/s/:slug/desk/days/:date/red',
    is: 'of a teaching day',
    as: 'owner',
    path: ({ home }) => `${home}/desk/days/2027-02-03/red`,
  },
  {
    route: `${DESK}/templates/new`,
    is: 'not filled yet',
    as: 'owner',
    path: ({ home }) => `${home}/desk/teaching/templates/new`,
  },
  {
    route: `${DESK}/templates/:id`,
    is: 'without a name',
    as: 'owner',
    path: ({ template }) => template,
    act: async (page) => {
      await page.getByLabel('Name', { exact: true }).fill('');
      await press('Save')(page);
    },
    wrong: true,
  },
];

/** A day of three places: two taken by one sign-up, one offered; and somebody who asks to learn one to one. */
export async function makeTeaching(house: TestHouse, studio: TestStudio): Promise<TeachingPlaces> {
  const { sessionId, templateId } = await teachingDay(house, studio, { start: '2027-02-03T10:00', most: 3 });
  const service = house.app.get(SignUpsService);
  const two = { students: [{ name: 'Ada Fell' }, { name: 'Bo Fell', experience: 'practised' }] };
  const { token, signUpId } = await signUp(house, studio, sessionId, two);
  const other = await signUp(house, studio, sessionId, { name: 'Cy Marsh' });
  const waiting = await signUp(house, studio, sessionId, { name: 'Dee Marsh', orWait: true });
  await house.app.get(OwnSignUpService).leave(studio.id, other.token);
  await house.app.get(TeachingRequestsService).offer(studio.id, studio.owner, waiting.signUpId);
  for (const day of ['2027-02-10', '2027-02-17'])
    await service.askOneToOne(studio.id, templateId, { ...signUpOf(), day }, new SystemRandom().id());
  const sheet = await teachingDay(house, studio, { start: '2027-02-24T10:00' });
  const agreed = await signUp(house, studio, sheet.sessionId, { students: [{ name: 'Eve Marsh' }] });
  await agreeToAll(house, studio, agreed.token);
  const past = await teachingDay(house, studio, { start: '2027-03-03T10:00' });
  const came = await signUp(house, studio, past.sessionId, { name: 'Fay Marsh' });
  const day = Temporal.PlainDate.from('2027-03-03');
  await writtenDown(house, studio, { ...past, signUpId: came.signUpId, day });
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update sign_up set state = 'attended' where studio_id = $1 and sign_up_id = $2`, [
      tx.studioId,
      came.signUpId,
    ]),
  );
  await keepTurns(house, studio, sessionId);
  const rounds = [{ title: 'Rounds', minutes: 60, where: 'darkroom' }];
  const short = await teachingDay(house, studio, { start: '2027-03-10T10:00', parts: rounds });
  await signUp(house, studio, short.sessionId, two);
  await house.work();
  const home = `/s/${studio.slug}`;
  const stop = await house.db.inStudio(studio.id, async (tx) => {
    const links = house.app.get(LinksService);
    const { contact } = await house.app.get(TeachingViews).known(tx, signUpId);
    return links.token(await links.ensure(tx, 'reminders', contact.id));
  });
  return {
    teachingDay: `${home}/desk/teaching/${sessionId}`,
    shortDay: `${home}/desk/teaching/${short.sessionId}`,
    teachingPublic: `${home}/teaching/${sessionId}`,
    oneToOne: `${home}/teaching/one-to-one/${templateId}`,
    template: `${home}/desk/teaching/templates/${templateId}`,
    student: `${home}/student/${token}`,
    offeredStudent: `${home}/student/${waiting.token}`,
    studentAfter: `${home}/student/${came.token}`,
    stopReminders: `${home}/reminders/${stop}`,
    signedMessages: `${home}/desk/teaching/sign-ups/${signUpId}/messages`,
    offeredMessages: `${home}/desk/teaching/sign-ups/${waiting.signUpId}/messages`,
    sheetDay: `${home}/desk/teaching/${sheet.sessionId}`,
  };
}
