// The pages of a request in full: what is asked and agreed to, in the states that look different.
import type { PageState } from './every-page.js';

export const REQUEST_PAGES: PageState[] = [
  {
    route: '/s/:slug/desk/settings/words',
    is: 'with words that are too long',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/words`,
    act: async (page) => {
      await page.getByLabel('Words for: House rules').fill('x'.repeat(5000));
      await page.getByRole('button', { name: 'Keep these words for: House rules' }).click();
    },
    wrong: true,
  },
  {
    route: '/s/:slug/place/:token/details',
    is: 'with what was told, and a wish that is not answered',
    as: 'visitor',
    path: ({ waiting }) => `${waiting.own}/details`,
  },
  {
    route: '/s/:slug/place/:token/details',
    is: 'with mistakes',
    as: 'visitor',
    path: ({ confirmed }) => `${confirmed.own}/details`,
    act: async (page) => {
      await page.getByLabel('Your name').fill('');
      await page.getByLabel('Where do you travel from?').fill('Newport');
      await page.getByRole('button', { name: 'Keep these details' }).click();
    },
    wrong: true,
  },
  {
    route: '/s/:slug/place/:token/prepare',
    is: 'for a place, in French',
    as: 'visitor',
    path: ({ confirmed }) => `${confirmed.own}/prepare?lang=fr`,
    // The choice is kept in a cookie, which the pages after this one must not find.
    act: async (page) => void (await page.context().clearCookies({ name: 'plateday-language' })),
  },
  {
    route: '/s/:slug/desk/requests/new',
    is: 'not filled yet',
    as: 'owner',
    path: ({ home }) => `${home}/desk/requests/new`,
  },
  {
    route: '/s/:slug/desk/requests/new',
    is: 'with mistakes',
    as: 'owner',
    path: ({ home }) => `${home}/desk/requests/new`,
    act: async (page) => {
      await page.getByLabel('Where do they travel from?').fill('Newport');
      await page.getByText('Under 18, access, a voucher').click();
      await page.getByLabel('Somebody who sits is under 18').check();
      await page.getByLabel('Number of a gift voucher').fill('none');
      await page.getByRole('button', { name: 'Enter the request' }).click();
    },
    wrong: true,
  },
];
