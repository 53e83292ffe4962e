// The pages of a studio day, and of what is owed after it, in the states that look different.
import { Temporal } from 'temporal-polyfill';
import { EndingsService } from '../../src/sittings/endings.service.js';
import { ACCOUNT_PAGES } from './account-pages.js';
import type { PageState, Places } from './every-page.js';
import { JOURNEY_PAGES } from './journey-pages.js';
import type { TestHouse } from './house.js';
import { BOOK_PAGES } from './book-pages.js';
import { BRING_IN_PAGES } from './bring-in-pages.js';
import { OUTSIDE_PAGES } from './outside-pages.js';
import { PLATE_PAGES } from './plate-pages.js';
import { REMINDER_PAGES } from './reminder-pages.js';
import { rowsOf } from './rows.js';
import { approve, askForSitting, openStarts, type TestStudio } from './studio.js';

/**
 * Two sat on a Friday before: one came for no plate, of the other nobody told. The shelf knows no past, so they are
 * given a day to come, which is then laid back by weeks. @returns the other, on the day's sheet
 */
export async function sitLastFriday(house: TestHouse, studio: TestStudio): Promise<string> {
  const range = { from: '2026-12-01', until: '2027-03-20' };
  const starts = (await openStarts(house, studio, range)).slice(0, 2);
  const ids: string[] = [];
  for (const [at, start] of starts.entries()) {
    const name = ['Petra Lindqvist', 'Osric Vane'][at] ?? '';
    const { sittingId } = await askForSitting(house, studio, { name, suits: { kind: 'any', ...range } });
    await approve(house, studio, sittingId, start);
    ids.push(sittingId);
  }
  const [came = '', untold = ''] = ids;
  const before = Temporal.PlainDate.from('2026-11-20');
  const days = before.until(Temporal.PlainDateTime.from(starts[1] ?? '').toPlainDate()).days;
  await rowsOf(
    house,
    studio.id,
    `with back as (select make_interval(days => $2) as by)
     update occupancy set wall_start = wall_start - by, wall_end = wall_end - by, starts_at = starts_at - by,
       ends_at = ends_at - by, during = tstzrange(lower(during) - by, upper(during) - by) from back where held_for = any($1::uuid[])`,
    [ids, days],
  );
  await rowsOf(
    house,
    studio.id,
    'update reservation set needed_on = needed_on - $2::int where held_for = any($1::uuid[])',
    [ids, days],
  );
  const ending = { how: 'no plate', reason: 'chemistry' };
  await house.app.get(EndingsService).end(studio.id, studio.owner, came, ending);
  const day = Temporal.PlainDateTime.from(starts[1] ?? '')
    .toPlainDate()
    .subtract({ days });
  return `/s/${studio.slug}/desk/days/${day}/${untold}`;
}

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
  ...ACCOUNT_PAGES,
  ...JOURNEY_PAGES,
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
  {
    route: '/s/:slug/desk/days/:date',
    is: 'a Friday that is past, with an ending and without',
    as: 'owner',
    path: ({ untold }) => untold.slice(0, untold.lastIndexOf('/')),
  },
  {
    route: '/s/:slug/desk/days/:date/:id/later',
    is: 'with what is open',
    as: 'owner',
    path: ({ untold }) => `${untold}/later`,
  },
  ...PLATE_PAGES,
  ...BOOK_PAGES,
  ...REMINDER_PAGES,
  ...OUTSIDE_PAGES,
  ...BRING_IN_PAGES,
];
