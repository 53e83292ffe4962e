// The pages of reminders and of copies in the states that look different.
import { DEFAULT_REMINDER_RULES } from '../../src/reminders/reminder-rules.schemas.js';
import type { PageState } from './every-page.js';
import { PRIVACY_PAGES } from './privacy-pages.js';

const REMINDERS = '/s/:slug/desk/mail/reminders';
const MESSAGES = '/s/:slug/desk/requests/:id/messages';

const COPIES = '/s/:slug/desk/settings/copies';

const WORDS = '/s/:slug/desk/mail/words';

const DAY_LETTER = '/s/:slug/desk/mail/day-letter';

export const REMINDER_PAGES: PageState[] = [
  ...PRIVACY_PAGES,
  { route: WORDS, is: 'with all letters', as: 'owner', path: ({ home }) => `${home}/desk/mail/words` },
  {
    route: `${WORDS}/:kind/:language`,
    is: 'a letter with a real preview, what is wrong beside its fields',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail/words/confirmed/en`,
    act: async (page) => {
      await page.getByLabel('Subject').fill('A place for {nobody}');
      await page.getByRole('button', { name: 'Keep these words' }).click();
    },
    wrong: true,
  },
  {
    route: DAY_LETTER,
    is: 'as it would read',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail/day-letter?done=saved`,
  },
  {
    route: DAY_LETTER,
    is: 'with an hour that is none',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail/day-letter`,
    act: async (page) => {
      await page.getByLabel('At this hour').fill('3');
      await page.getByRole('button', { name: 'Save', exact: true }).click();
    },
    wrong: true,
  },
  { route: COPIES, is: 'with none', as: 'owner', path: ({ empty }) => `${empty}/desk/settings/copies` },
  {
    route: COPIES,
    is: 'with one made just now',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/copies`,
    act: (page) => page.getByRole('button', { name: 'Make a copy now' }).click(),
  },
  {
    route: REMINDERS,
    is: 'with one rule open, saved just now',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail/reminders?done=2&form=${DEFAULT_REMINDER_RULES[0]?.id}`,
  },
  {
    route: REMINDERS,
    is: 'with a new one sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail/reminders?form=new-teaching`,
    act: (page) => page.getByRole('button', { name: 'Add this', exact: true }).click(),
    wrong: true,
  },
  {
    route: MESSAGES,
    is: 'of somebody with a place',
    as: 'owner',
    path: ({ confirmed }) => `${confirmed.request}/messages`,
  },
  {
    route: MESSAGES,
    is: 'of somebody who waits, with what they would be sent',
    as: 'owner',
    path: ({ waiting }) => `${waiting.request}/messages?day-day=4&day-month=6&day-year=2027`,
  },
  {
    route: MESSAGES,
    is: 'with a day that is none',
    as: 'owner',
    path: ({ waiting }) => `${waiting.request}/messages?day-day=31&day-month=2&day-year=2027`,
    wrong: true,
  },
];
