// The pages of outside calendars in the states that look different.
import type { PageState } from './every-page.js';

const ALL = '/s/:slug/desk/settings/outside';
const ONE = `${ALL}/:id`;

export const OUTSIDE_PAGES: PageState[] = [
  {
    route: ALL,
    is: 'with none',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/settings/outside`,
  },
  {
    route: ALL,
    is: 'with one that cannot be read, and a new one sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/outside`,
    act: (page) => page.getByRole('button', { name: 'Read it', exact: true }).click(),
    wrong: true,
  },
  {
    route: ONE,
    is: 'that cannot be read, with what whole days would close and whom they meet',
    as: 'owner',
    path: ({ outside }) => `${outside}?blocks=days&marginMinutes=`,
  },
  {
    route: ONE,
    is: 'with a margin that is none',
    as: 'owner',
    path: ({ outside }) => `${outside}?blocks=hours&marginMinutes=soon`,
    wrong: true,
  },
];
