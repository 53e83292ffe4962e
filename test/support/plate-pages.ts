// The pages about plates after the day in the states that look different.
import type { Page } from 'playwright-core';
import { Temporal } from 'temporal-polyfill';
import { MadeService } from '../../src/plates/made.service.js';
import { OwedService } from '../../src/plates/owed.service.js';
import { USUAL_STEPS } from '../../src/plates/owed-steps.calc.js';
import { EndingsService } from '../../src/sittings/endings.service.js';
import type { PageState, Places } from './every-page.js';
import type { TestHouse } from './house.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { surprise, VOUCHER } from './vouchers.js';
import { approve, askForSitting, type TestStudio } from './studio.js';

const OWED = '/s/:slug/desk/owed';
const TYPE_IN = '/s/:slug/desk/days/:date/plates';

export const PLATE_PAGES: PageState[] = [
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: OWED,
    is: `with something done, late and left, for the ${as}`,
    as,
    path: ({ home }: Places) => `${home}/desk/owed?done=ticked`,
    act: async (page: Page) => {
      for (const one of await page.locator('main summary').all()) await one.click();
    },
  })),
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: TYPE_IN,
    is: `with a plate typed in, for the ${as}`,
    as,
    path: ({ home }: Places) => `${home}/desk/days/2026-11-24/plates?done=typed`,
    act: async (page: Page) => {
      for (const one of await page.locator('main summary').all()) await one.click();
    },
  })),
  {
    route: TYPE_IN,
    is: 'with a line that does not say whether it was kept',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/days/2026-11-20/plates`,
    act: async (page) => {
      await page.getByLabel('Result', { exact: true }).fill('fog');
      await page.getByRole('button', { name: 'Save the day', exact: true }).click();
    },
    wrong: true,
  },
  {
    route: TYPE_IN,
    is: 'of a day to come',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/days/2027-04-02/plates`,
  },
  { route: OWED, is: 'with nothing owed', as: 'owner', path: ({ empty }) => `${empty}/desk/owed` },
  {
    route: `${OWED}/steps`,
    is: 'with a new one sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/owed/steps?form=new`,
    act: (page) => page.getByRole('button', { name: 'Add this', exact: true }).click(),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/vouchers',
    is: 'with a surprise that is held back, and the form for a new one',
    as: 'owner',
    path: ({ home }) => `${home}/desk/vouchers?form=new`,
  },
  {
    route: '/s/:slug/desk/vouchers',
    is: 'with a new one sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/vouchers?form=new`,
    act: async (page) => {
      await page.getByLabel('Number', { exact: true }).fill('');
      await page.getByRole('button', { name: 'Write it down', exact: true }).click();
    },
    wrong: true,
  },
  {
    route: '/s/:slug/desk/vouchers',
    is: 'with none',
    as: 'owner',
    path: ({ empty }) => `${empty}/desk/vouchers`,
  },
];

/** Two sittings of three weeks ago: one with a step done and others late, and one whose plates have left. */
export async function makePlates(
  house: TestHouse,
  studio: TestStudio,
  starts: [string, string],
): Promise<void> {
  const made = [
    { name: 'Runa Petersen', start: starts[0], step: USUAL_STEPS[0] },
    { name: 'Jory Tamblyn', start: starts[1], step: USUAL_STEPS.find((one) => one.leaves) },
  ];
  const now = house.clock.now().toString();
  const suits = { kind: 'any', from: '2026-12-01', until: '2027-03-20' } as const;
  for (const { name, start, step } of made) {
    const { sittingId } = await askForSitting(house, studio, { name, suits });
    await approve(house, studio, sittingId, start);
    house.clock.set(`${start}:00Z`);
    await house.app.get(EndingsService).end(studio.id, studio.owner, sittingId, { how: 'made' });
    house.clock.set(now);
    const back = Temporal.PlainDate.from(now.slice(0, 10)).until(start.slice(0, 10)).days + 21;
    await house.db.inStudio(studio.id, (tx) => tx.run(BACK, [studio.id, sittingId, back]));
    const tick = { step: step?.id ?? '', done: 'yes' };
    await house.app.get(OwedService).tick(studio.id, studio.assistant, sittingId, tick);
  }
}

const BACK = `update occupancy set wall_start = wall_start - $3 * interval '1 day',
  wall_end = wall_end - $3 * interval '1 day', starts_at = starts_at - $3 * interval '24 hours',
  ends_at = ends_at - $3 * interval '24 hours',
  during = tstzrange(starts_at - $3 * interval '24 hours', upper(during) - $3 * interval '24 hours')
  where studio_id = $1 and held_for = $2`;

/** A test plate of a Tuesday, typed in by the assistant, and one beside it that was a slip. */
export async function typePlatesIn(house: TestHouse, studio: TestStudio): Promise<void> {
  const [id, slip] = [1, 2].map((one) => `00000000-0000-4000-8000-00000000f10${one}`) as [string, string];
  const plate = { plateSizeId: studio.sizes.half.id, keeper: true, seconds: 6, sky: 'dull' };
  const day = Temporal.PlainDate.from('2026-11-24');
  const made = house.app.get(MadeService);
  const plates = [
    { ...plate, id },
    { ...plate, id: slip },
  ];
  await made.save(studio.id, studio.assistant, day, { first: 118, plates });
  await made.save(studio.id, studio.owner, day, { plates: [], strike: [slip] });
}

/** A voucher that is open, and a surprise that is used on a request. */
export async function giveVouchers(house: TestHouse, studio: TestStudio, sittingId: string): Promise<void> {
  const open = { ...VOUCHER, number: '8', validUntil: '2026-11-01' };
  await house.app.get(VouchersService).save(studio.id, studio.owner, null, open);
  await surprise(house, studio, sittingId, '7');
}
