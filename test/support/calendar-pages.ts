// The pages of calendar links in the states that look different.
import type { Page } from 'playwright-core';
import type { PageState } from './every-page.js';

export const CALENDAR_PAGES: PageState[] = [
  {
    route: '/s/:slug/desk/calendar',
    is: 'with a further link that has no name',
    as: 'owner',
    path: ({ home }) => `${home}/desk/calendar`,
    act: (page: Page) => page.getByRole('button', { name: 'Make this link', exact: true }).click(),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/calendar/phone',
    is: 'for the desk',
    as: 'owner',
    path: ({ home }) => `${home}/desk/calendar/phone`,
  },
  {
    route: '/s/:slug/place/:token/calendar',
    is: 'of a sitter',
    as: 'visitor',
    path: ({ confirmed }) => `${confirmed.own}/calendar`,
  },
  {
    route: '/s/:slug/student/:token/calendar',
    is: 'of a student',
    as: 'visitor',
    path: ({ student }) => `${student}/calendar`,
  },
];
