// The pages of accounts in the states that look different.
import type { PageState } from './every-page.js';

const ACCOUNT = '/s/:slug/desk/account';
const ACCOUNTS = '/s/:slug/desk/settings/accounts';

export const ACCOUNT_PAGES: PageState[] = [
  { route: ACCOUNT, is: 'of the owner', as: 'owner', path: ({ home }) => `${home}/desk/account` },
  {
    route: ACCOUNT,
    is: 'of the assistant, a wrong code sent',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/account`,
    act: async (page) => {
      await page.getByLabel('Code').fill('12');
      await page.getByRole('button', { name: 'Turn the second step on' }).click();
    },
    wrong: true,
  },
  {
    route: ACCOUNTS,
    is: 'with an invitation sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/accounts`,
    act: (page) => page.getByRole('button', { name: 'Invite', exact: true }).click(),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/settings/log',
    is: 'of a studio at work',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/log`,
  },
];
