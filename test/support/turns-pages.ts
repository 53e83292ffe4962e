// The pages of a teaching day's turns in the states that look different.
import type { PageState } from './every-page.js';

const DAY = '/s/:slug/desk/teaching/:id';

export const TURNS_PAGES: PageState[] = [
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: `${DAY}/turns`,
    is: `kept, for the ${as}`,
    as,
    path: ({ teachingDay }: { teachingDay: string }) => `${teachingDay}/turns`,
  })),
  {
    route: `${DAY}/turns`,
    is: 'laid in the cold',
    as: 'owner',
    path: ({ teachingDay }) => `${teachingDay}/turns?weather=cold`,
    act: (page) => page.getByText('What is used when').click(),
  },
  {
    route: `${DAY}/turns`,
    is: 'that do not fit',
    as: 'owner',
    path: ({ shortDay }) => `${shortDay}/turns`,
  },
  {
    route: `${DAY}/turns`,
    is: 'late by no number',
    as: 'owner',
    path: ({ teachingDay }) => `${teachingDay}/turns`,
    act: (page) => page.getByRole('button', { name: 'Plan the rest around it', exact: true }).click(),
    wrong: true,
  },
  {
    route: `${DAY}/turns/red`,
    is: 'before the day',
    as: 'assistant',
    path: ({ teachingDay }) => `${teachingDay}/turns/red`,
    act: (page) => page.locator('summary').first().click(),
  },
  {
    route: `${DAY}/bench`,
    is: 'with every step',
    as: 'owner',
    path: ({ teachingDay }) => `${teachingDay}/bench`,
    act: async (page) => {
      await page.getByText('Further places').click();
      await page.getByText('How long each step takes').click();
    },
  },
  {
    route: `${DAY}/bench`,
    is: 'without cameras in words',
    as: 'owner',
    path: ({ teachingDay }) => `${teachingDay}/bench`,
    act: async (page) => {
      await page.getByLabel('Cameras').fill('none');
      await page.getByRole('button', { name: 'Save', exact: true }).click();
    },
    wrong: true,
  },
];
