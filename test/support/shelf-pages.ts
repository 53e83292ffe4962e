// The pages of the shelf and its baths in the states that look different; those of formulas stand beside.
import type { Page } from 'playwright-core';
import type { PageState } from './every-page.js';

const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();

export const SHELF_PAGES: PageState[] = [
  {
    route: '/s/:slug/desk/shelf',
    is: 'with all items',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf`,
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
    path: ({ bath }) => `${bath}?do=measured`,
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
