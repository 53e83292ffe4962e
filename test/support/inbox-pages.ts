// The pages around the front page of the desk: all requests, whom to telephone, the letters on paper, an undo.
import type { PageState } from './every-page.js';

export const INBOX_PAGES: PageState[] = [
  {
    route: '/s/:slug/desk/requests',
    is: 'with somebody waiting',
    as: 'owner',
    path: ({ home }) => `${home}/desk/requests`,
  },
  {
    route: '/s/:slug/desk/requests',
    is: 'with nobody waiting',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/requests`,
  },
  {
    route: '/s/:slug/desk/telephone',
    is: 'with people to telephone and to write to',
    as: 'owner',
    path: ({ home }) => `${home}/desk/telephone`,
  },
  {
    route: '/s/:slug/desk/telephone',
    is: 'with one told, opened to be taken back',
    as: 'owner',
    path: ({ home }) => `${home}/desk/telephone`,
    act: async (page) => {
      if ((await page.getByText('Told in the last seven days').count()) === 0)
        await page.getByRole('button', { name: 'Told', exact: true }).first().click();
      await page.getByText('Told in the last seven days').click();
    },
  },
  {
    route: '/s/:slug/desk/telephone',
    is: 'with everybody told',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/telephone`,
  },
  {
    route: '/s/:slug/desk/telephone/letters',
    is: 'with a letter to print',
    as: 'owner',
    path: ({ home }) => `${home}/desk/telephone/letters`,
  },
];
