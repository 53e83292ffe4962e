// The pages of a studio day, and of what is owed after it, in the states that look different.
import type { PageState, Places } from './every-page.js';
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
  ...['choose what', 'choose what was seen'].map((is, at) => ({
    route: '/s/:slug/desk/days/:date/red/off',
    is,
    as: 'assistant' as const,
    path: ({ home }: Places) => `${home}/desk/days/2027-04-02/red/off${at === 0 ? '' : '?what=test+plate'}`,
  })),
  {
    route: '/s/:slug/desk/days/:date/red/off/:id',
    is: 'of a bath',
    as: 'owner',
    path: ({ home, fault }) =>
      `${home}/desk/days/2026-11-25/red/off/${fault.slice(fault.lastIndexOf('/') + 1)}`,
  },
  ...PLATE_PAGES,
  ...REMINDER_PAGES,
];
