// The pages of a studio day, and of what is owed after it, in the states that look different.
import type { PageState, Places } from './every-page.js';
import { BOOK_PAGES } from './book-pages.js';
import { PLATE_PAGES } from './plate-pages.js';
import { REMINDER_PAGES } from './reminder-pages.js';

export const DAY_PAGES: PageState[] = [
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: '/s/:slug/desk/days/:date',
    is: `a Friday of spring, for the ${as}`,
    as,
    path: ({ home }: Places) => `${home}/desk/days/2027-04-02`,
  })),
  {
    route: '/s/:slug/desk/days/:date/red',
    is: 'a Friday of spring, for the darkroom',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/days/2027-04-02/red`,
  },
  ...PLATE_PAGES,
  ...BOOK_PAGES,
  ...REMINDER_PAGES,
];
