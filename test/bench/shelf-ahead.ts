// The look ahead of a full shelf beside the mere setting aside of its needs: 200 items, 18 months, 1,000 sessions.
import { Temporal } from 'temporal-polyfill';
import { lookAhead, type ShelfFacts } from '../../src/stock/horizon.calc.js';
import { type PlanNeed, planItem } from '../../src/stock/plan.calc.js';
import { projectionOf } from '../../src/stock/projection.calc.js';
import { lotsToPlan } from '../../src/stock/replan.calc.js';
import { fullShelf } from './full-shelf.js';

const today = Temporal.PlainDate.from('2027-01-01');
const until = today.add({ months: 18 });
const facts = fullShelf({ items: 200, months: 18, sessions: 1_000, each: 8 }, today);

/** The needs that places have, from the bottles there are; nothing mixed, ordered or drawn. */
export const settingAside = () =>
  facts.items.map((item) => {
    const needs = facts.needs.filter((need) => need.itemId === item.id).map(toPlan);
    const lots = facts.lots.filter((lot) => lot.itemId === item.id);
    return planItem(needs, lotsToPlan({ item, lots, past: facts.past }));
  });

/** Every item with all that goes into it, day by day. */
export const lookingAhead = () =>
  [...lookAhead(facts, today).items.values()].map((ahead) => projectionOf(ahead, today, until));

/** What the ratio of the two must not pass; three to four were measured. */
export const MOST = 12;

const toPlan = ({
  heldFor,
  neededOn: day,
  class: asked,
  chosenLotId,
  quantity,
}: ShelfFacts['needs'][number]): PlanNeed => ({
  key: `${heldFor} ${day}`,
  day,
  class: asked,
  chosenLotId,
  quantity,
});
