// The pages of journeys in the states that look different.
import type { Page } from 'playwright-core';
import type { PageState } from './every-page.js';

const PUBLIC = '/s/:slug/journey';
const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();
const DAY = 'date-day=14&date-month=May&date-year=2027&time=10:00';

export const JOURNEY_PAGES: PageState[] = [
  { route: PUBLIC, is: 'not filled yet', as: 'visitor', path: ({ home }) => `${home}/journey` },
  {
    route: PUBLIC,
    is: 'with a journey over the sea for a day',
    as: 'visitor',
    path: ({ home }) => `${home}/journey?place=Bergen, Norway&${DAY}`,
  },
  {
    route: PUBLIC,
    is: 'with a plan of one’s own and no day',
    as: 'visitor',
    path: ({ home }) => `${home}/journey?place=York, United Kingdom&mode=train&hours=3:20&zone=Europe/Paris`,
  },
  {
    route: PUBLIC,
    is: 'where several towns are called so',
    as: 'visitor',
    path: ({ home }) => `${home}/journey?place=Springfield`,
    wrong: true,
  },
  {
    route: PUBLIC,
    is: 'sent empty',
    as: 'visitor',
    path: ({ home }) => `${home}/journey`,
    act: press('Show the journey'),
    wrong: true,
  },
  {
    route: '/s/:slug/place/:token/journey',
    is: 'as it stands',
    as: 'visitor',
    path: ({ confirmed }) => `${confirmed.own}/journey`,
  },
  {
    route: '/s/:slug/place/:token/journey',
    is: 'with a postcode in the place of a town',
    as: 'visitor',
    path: ({ confirmed }) => `${confirmed.own}/journey`,
    act: async (page) => {
      await page.getByRole('combobox', { name: 'Where do you travel from?' }).fill('YO22 4DE');
      await press('Keep this')(page);
    },
    wrong: true,
  },
  {
    route: '/s/:slug/student/:token/journey',
    is: 'where several towns are called so',
    as: 'visitor',
    path: ({ student }) => `${student}/journey`,
    act: async (page) => {
      await page.getByRole('combobox', { name: 'Where do you travel from?' }).fill('Springfield');
      await press('Keep this')(page);
    },
    wrong: true,
  },
];
