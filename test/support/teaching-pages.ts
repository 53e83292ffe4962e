// The pages of teaching in the states that look different, and what fills them.
import type { Page } from 'playwright-core';
import { SystemRandom } from '../../src/platform/clock.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import type { PageState } from './every-page.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';
import { signUp, signUpOf, teachingDay } from './teaching.js';

/** Where things of teaching are: paths. */
export interface TeachingPlaces {
  /** Open, with people; the owner's page and the public one. */
  teachingDay: string;
  teachingPublic: string;
  oneToOne: string;
  template: string;
  /** The page of two students with a place, and of one with an offer. */
  student: string;
  offeredStudent: string;
}

const DESK = '/s/:slug/desk/teaching';
const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();

export const TEACHING_PAGES: PageState[] = [
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
  const { token } = await signUp(house, studio, sessionId, two);
  const other = await signUp(house, studio, sessionId, { name: 'Cy Marsh' });
  const waiting = await signUp(house, studio, sessionId, { name: 'Dee Marsh', orWait: true });
  await house.app.get(OwnSignUpService).leave(studio.id, other.token);
  await house.app.get(TeachingRequestsService).offer(studio.id, studio.owner, waiting.signUpId);
  for (const day of ['2027-02-10', '2027-02-17'])
    await service.askOneToOne(studio.id, templateId, { ...signUpOf(), day }, new SystemRandom().id());
  await house.work();
  const home = `/s/${studio.slug}`;
  return {
    teachingDay: `${home}/desk/teaching/${sessionId}`,
    teachingPublic: `${home}/teaching/${sessionId}`,
    oneToOne: `${home}/teaching/one-to-one/${templateId}`,
    template: `${home}/desk/teaching/templates/${templateId}`,
    student: `${home}/student/${token}`,
    offeredStudent: `${home}/student/${waiting.token}`,
  };
}
