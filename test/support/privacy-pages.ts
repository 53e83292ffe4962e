// The pages of a person's data and of how long it is kept, in the states that look different.
import type { PageState } from './every-page.js';

const YOURS = '/s/:slug/your-data/:token';
const PERSON = '/s/:slug/desk/people/:id';
const KEEPING = '/s/:slug/desk/settings/keeping';

export const PRIVACY_PAGES: PageState[] = [
  {
    route: YOURS,
    is: 'as it opens',
    as: 'visitor',
    path: ({ confirmed }) => confirmed.own.replace('/place/', '/your-data/'),
  },
  {
    route: YOURS,
    is: 'after asking to be erased',
    as: 'visitor',
    path: ({ declined }) => declined.own.replace('/place/', '/your-data/'),
    act: (page) => page.getByRole('button', { name: 'Ask the studio to erase my data' }).click(),
  },
  {
    route: PERSON,
    is: 'with a place ahead',
    as: 'owner',
    path: ({ confirmed }) => confirmed.request,
    act: (page) => page.getByRole('link', { name: /^Data of/ }).click(),
  },
  {
    route: PERSON,
    is: 'who can be erased',
    as: 'owner',
    path: ({ declined }) => declined.request,
    act: (page) => page.getByRole('link', { name: /^Data of/ }).click(),
  },
  { route: KEEPING, is: 'not set yet', as: 'owner', path: ({ empty }) => `${empty}/desk/settings/keeping` },
  {
    route: KEEPING,
    is: 'with figures that cannot be',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/keeping`,
    act: async (page) => {
      await page.getByLabel('Requests that nobody answered go after').fill('soon');
      await page.getByRole('button', { name: 'Keep these rules' }).click();
    },
    wrong: true,
  },
];
