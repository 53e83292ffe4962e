// The pages of moving days in the states that look different.
import type { Page } from 'playwright-core';
import type { PageState } from './every-page.js';

const MOVE = '/s/:slug/desk/move';

export const MOVE_PAGES: PageState[] = [
  {
    route: MOVE,
    is: 'with a day filled in',
    as: 'owner',
    path: ({ home }) => `${home}/desk/move?from=2027-02-05`,
  },
  {
    route: MOVE,
    is: 'without a reason',
    as: 'owner',
    path: ({ home }) => `${home}/desk/move?from=2027-02-05`,
    act: (page) => show(page),
    wrong: true,
  },
  {
    route: MOVE,
    is: 'with who is there and what is proposed',
    as: 'owner',
    path: ({ home }) => `${home}/desk/move?from=2027-02-01`,
    act: preview,
  },
  {
    route: MOVE,
    is: 'with another start that is not typed in full',
    as: 'owner',
    path: ({ home }) => `${home}/desk/move?from=2027-02-01`,
    act: async (page) => {
      await preview(page);
      await page.getByLabel('Move to another start, typed below').first().check();
      await page.getByRole('button', { name: 'Do this, and tell them', exact: true }).click();
    },
    wrong: true,
  },
  {
    route: MOVE,
    is: 'with nobody there',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/move?from=2027-02-01`,
    act: preview,
  },
];

const show = (page: Page) => page.getByRole('button', { name: 'Show who is there', exact: true }).click();

async function preview(page: Page): Promise<void> {
  const last = page.getByRole('group', { name: 'Last day' });
  await last.getByLabel('Day', { exact: true }).fill('20');
  await last.getByLabel('Month').fill('March');
  await last.getByLabel('Year').fill('2027');
  await page.getByLabel('A storm').check();
  await show(page);
}
