// The pages of accounts in the states that look different.
import { Secret } from 'otpauth';
import type { Account } from '../../src/accounts/accounts.schemas.js';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { InvitationsService } from '../../src/accounts/invitations.service.js';
import { codeAt } from '../../src/accounts/one-time-code.calc.js';
import { OwnAccountService } from '../../src/accounts/own-account.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import type { PageState, Places } from './every-page.js';
import type { TestHouse } from './house.js';
import { PASSWORD, type TestStudio } from './studio.js';

/** Somebody who is asked for a code when signing in. */
const CAREFUL = { name: 'Anouk Teal', email: 'anouk@curlew.example', password: PASSWORD };

/** Somebody who is invited to work there, and somebody who is asked for a code when signing in. */
export async function makeColleagues(house: TestHouse, studio: TestStudio): Promise<{ joinLink: string }> {
  const invitations = house.app.get(InvitationsService);
  await invitations.invite(studio.id, studio.owner, { name: 'Ines Marlow', email: 'ines@curlew.example' });
  const invited = (await invitations.colleagues(studio.id)).find(({ invitation }) => invitation !== null);
  const account = await house.db.inStudio(studio.id, (tx) =>
    house.app.get(AccountsService).create(tx, { role: 'assistant', ...CAREFUL }),
  );
  await turnSecondStepOn(house, studio, account);
  return { joinLink: `/s/${studio.slug}/join/${invited?.invitation ?? ''}` };
}

/** As with an authenticator on their phone. */
export async function turnSecondStepOn(
  house: TestHouse,
  studio: Pick<TestStudio, 'id'>,
  account: Account,
): Promise<void> {
  const own = house.app.get(OwnAccountService);
  const whole = await house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).load(tx));
  const { uri = '' } = (await own.proposed(whole, account)) ?? {};
  const secret = Secret.fromBase32(new URL(uri).searchParams.get('secret') ?? '').bytes;
  const code = codeAt(secret, house.clock.now().epochMilliseconds);
  await own.turnOn(studio.id, account, { code, password: PASSWORD });
}

const ACCOUNT = '/s/:slug/desk/account';
const ACCOUNTS = '/s/:slug/desk/settings/accounts';

export const ACCOUNT_PAGES: PageState[] = [
  {
    route: '/s/:slug/join/:token',
    is: 'with a password that everybody tries',
    as: 'visitor',
    path: ({ joinLink }) => joinLink,
    act: async (page) => {
      await page.getByLabel('A password').fill('12345678');
      await page.getByRole('button', { name: 'Begin' }).click();
    },
    wrong: true,
  },
  {
    route: '/s/:slug/sign-in/code',
    is: 'after a right password',
    as: 'visitor',
    path: ({ home }) => `${home}/sign-in`,
    act: async (page) => {
      await page.getByLabel('E-mail address').fill(CAREFUL.email);
      await page.getByLabel('Password').fill(CAREFUL.password);
      await page.getByRole('button', { name: 'Sign in', exact: true }).click();
      await page.getByLabel('Code').waitFor();
    },
  },
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
