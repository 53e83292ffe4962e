// The pages of planning in the states that look different, and what fills them.
import type { Page } from 'playwright-core';
import { ListService } from '../../src/sittings/list.service.js';
import { PlansService } from '../../src/sittings/plans.service.js';
import { DEFAULT_WEIGHTS } from '../../src/waiting/planner-points.calc.js';
import type { PageState } from './every-page.js';
import type { TestHouse } from './house.js';
import { askForSitting, type TestStudio } from './studio.js';

const PLAN = '/s/:slug/desk/plan';

export const PLAN_PAGES: PageState[] = [
  { route: PLAN, is: 'with plans', as: 'owner', path: ({ home }) => `${home}/desk/plan` },
  { route: PLAN, is: 'before the first plan', as: 'owner', path: ({ empty }) => `${empty}/desk/plan` },
  {
    route: `${PLAN}/:id`,
    is: 'proposed, with its reckoning open',
    as: 'owner',
    path: ({ plan }) => plan,
    act: (page) => page.getByText('How was this reckoned?').click(),
  },
  {
    route: `${PLAN}/:id`,
    is: 'confirmed with nobody left in it',
    as: 'owner',
    path: ({ plan }) => plan,
    act: confirmNobody,
    wrong: true,
  },
  { route: `${PLAN}/:id`, is: 'confirmed', as: 'owner', path: ({ planDone }) => planDone },
];

/** A plan that gave a place, and one that is to be decided, with somebody left out. */
export async function makePlans(house: TestHouse, studio: TestStudio) {
  const { id, owner, slug } = studio;
  const plans = house.app.get(PlansService);
  const suits = { kind: 'any', from: '2026-12-01', until: '2027-03-20' } as const;
  const placed = await askForSitting(house, studio, { name: 'Maren Tollefsen', suits });
  const never = { kind: 'these' as const, days: ['2027-03-06'] };
  const left = await askForSitting(house, studio, { name: 'Odile Prendergast', suits: never });
  for (const { sittingId } of [placed, left]) await house.app.get(ListService).wait(id, owner, sittingId);
  const first = await plans.propose(id, owner, DEFAULT_WEIGHTS);
  await plans.confirm(id, owner, first, { gives: 'place', people: [placed.sittingId] });
  const second = await plans.propose(id, owner, DEFAULT_WEIGHTS);
  await house.work();
  const path = `/s/${slug}/desk/plan`;
  return { planDone: `${path}/${first}`, plan: `${path}/${second}` };
}

/** Takes every tick away and confirms. */
async function confirmNobody(page: Page): Promise<void> {
  for (const box of await page.getByRole('checkbox').all()) await box.uncheck();
  await page.getByRole('button', { name: 'Confirm this plan', exact: true }).click();
}
