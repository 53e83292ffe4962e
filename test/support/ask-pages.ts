// The steps in which a sitting is asked for, in the states that look different.
import type { Page } from 'playwright-core';
import type { PageState, Places } from './every-page.js';

const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();
const first = { route: '/s/:slug/ask', as: 'visitor', path: ({ home }: Places) => `${home}/ask` } as const;
const later = { ...first, route: '/s/:slug/ask/:draft/:step' } as const;

export const ASK_PAGES: PageState[] = [
  { ...first, is: 'not filled yet' },
  {
    ...later,
    is: 'of the first, sent empty, after a tap on a place',
    path: ({ home }) => `${home}/ask?day=2027-03-12`,
    act: press('Go on'),
    wrong: true,
  },
  {
    ...first,
    is: 'sent when it had been open for too long',
    act: async (page) => {
      await page.context().clearCookies({ name: 'plateday-form' });
      await press('Go on')(page);
    },
  },
  { ...later, is: 'of two people on two plates, with mistakes', act: peopleWithMistakes, wrong: true },
  { ...later, is: 'of days, with mistakes', act: daysWithMistakes, wrong: true },
  { ...later, is: 'of what else there is to say', act: toMore },
  { ...later, is: 'where something is missing at the look over everything', act: toUnwhole },
  {
    ...later,
    is: 'where all is looked over',
    act: async (page) => {
      await toMore(page);
      await press('Go on')(page);
    },
  },
];

async function toPeople(page: Page): Promise<void> {
  await page.getByLabel('Your name').fill('Linnea Harrow');
  await page.getByLabel('By e-mail').check();
  await page.getByLabel('E-mail address').fill('linnea@post.example');
  await press('Go on')(page);
}

async function peopleWithMistakes(page: Page): Promise<void> {
  await toPeople(page);
  await page.getByLabel('Name of the sitter').fill('n'.repeat(300));
  await page.getByLabel('Somebody who sits is under 18').check();
  await press('Add a sitter')(page);
  await page.getByLabel('Name of sitter 2').fill('Tobias Harrow');
  await press('Add a plate')(page);
  await press('Go on')(page);
}

async function toDays(page: Page): Promise<void> {
  await toPeople(page);
  await page.getByLabel('Size of the plate').selectOption('Whole plate');
  await press('Go on')(page);
}

async function daysWithMistakes(page: Page): Promise<void> {
  await toDays(page);
  await page.getByLabel('Where do you travel from?').fill('Newport');
  await page.getByLabel('Year').last().fill('2020');
  await press('Go on')(page);
}

async function toMore(page: Page): Promise<void> {
  await toDays(page);
  await page.getByLabel('Where do you travel from?').fill('Whitby, United Kingdom');
  await press('Go on')(page);
}

async function toUnwhole(page: Page): Promise<void> {
  await toPeople(page);
  await page.goto(page.url().replace(/people$/, 'check'));
}
