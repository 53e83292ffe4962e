// The pages of accounts in the states that look different.
import type { PageState, Places } from './every-page.js';

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
  {
    route: '/s/:slug/desk/settings/studio',
    is: 'sent without a name',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/studio`,
    act: async (page) => {
      await page.getByLabel('What it is called').fill('');
      await page.getByRole('button', { name: 'Keep this' }).click();
    },
    wrong: true,
  },
  {
    route: '/s/:slug/desk/set-up',
    is: 'of an empty studio',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/set-up`,
  },
  ...(['rhythm', 'shelf', 'mail'] as const).map((step) => ({
    route: `/s/:slug/desk/set-up/${step}`,
    is: 'of an empty studio',
    as: 'owner' as const,
    path: ({ empty }: Places) => `${empty}/desk/set-up/${step}`,
  })),
];
