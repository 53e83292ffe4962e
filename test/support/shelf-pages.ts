// The pages of the shelf and its baths in the states that look different; those of formulas stand beside.
import type { Page } from 'playwright-core';
import type { PageState } from './every-page.js';

const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();

/** Opens all that is folded. */
async function unfold(page: Page): Promise<void> {
  for (const summary of await page.locator('main summary').all()) await summary.click();
}

async function estimatePlates(page: Page): Promise<void> {
  for (const box of await page.getByLabel('To be kept').all()) await box.fill('2');
  await press('Reckon')(page);
}

export const SHELF_PAGES: PageState[] = [
  {
    route: '/s/:slug/desk/shelf',
    is: 'with all items',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf`,
  },
  {
    route: '/s/:slug/desk/shelf',
    is: 'of one kind, for the assistant',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf?kind=collodion`,
  },
  {
    route: '/s/:slug/desk/shelf/receive',
    is: 'sent empty',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/receive`,
    act: press('Put it on the shelf'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/suppliers',
    is: 'with the form for a new one open',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/suppliers`,
    act: unfold,
  },
  {
    route: '/s/:slug/desk/shelf/items/new',
    is: 'sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/items/new`,
    act: press('Keep it'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/items/:id',
    is: 'with all that may be changed',
    as: 'owner',
    path: ({ item }) => item,
    act: unfold,
  },
  {
    route: '/s/:slug/desk/shelf/bottles/:id',
    is: 'with all that may be done with it',
    as: 'assistant',
    path: ({ bottle }) => bottle,
    act: unfold,
  },
  {
    route: '/s/:slug/desk/shelf/bottles/:id',
    is: 'with nothing taken from it',
    as: 'owner',
    path: ({ bottle }) => bottle,
    act: press('Take it'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/mixing',
    is: 'with what is missing for given places',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/mixing`,
  },
  {
    route: '/s/:slug/desk/shelf/orders',
    is: 'with an order sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/orders`,
    act: press('It is ordered'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/estimate',
    is: 'sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/estimate`,
    act: press('Reckon'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/estimate',
    is: 'with what two plates of each size take',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/estimate`,
    act: estimatePlates,
  },
  {
    route: '/s/:slug/desk/shelf/used',
    is: 'with days written down, one to be corrected',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/used?correct=2026-11-20-sittings`,
  },
  {
    route: '/s/:slug/desk/shelf/used',
    is: 'with nothing written down, and a slip',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/shelf/used`,
    act: press('Write it down'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/baths',
    is: 'with two of them',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/baths`,
  },
  {
    route: '/s/:slug/desk/shelf/baths',
    is: 'with a new one sent empty',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/shelf/baths`,
    act: press('Enter this bath'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/baths/:id',
    is: 'with its chart and ledger',
    as: 'assistant',
    path: ({ bath }) => bath,
  },
  {
    route: '/s/:slug/desk/shelf/baths/:id',
    is: 'with a measurement sent empty',
    as: 'owner',
    path: ({ bath }) => `${bath}?do=hydrometer`,
    act: press('Write it down'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/baths/off',
    is: 'sent empty',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/baths/off`,
    act: press('Put it aside'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/shelf/baths/off/:id',
    is: 'of a bath that others depend on',
    as: 'owner',
    path: ({ fault }) => fault,
  },
];
