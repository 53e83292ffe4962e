// Pouring one bottle into another, and mixing a batch: what went into what is kept. With a key the same act sent
// twice is done once.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { counted, dayInWords } from '../lib/words.js';
import { Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import {
  type Acted,
  type ActProblem,
  blended,
  type LotChange,
  mixed,
  type Part,
  thinned,
} from './acts.calc.js';
import {
  ActsService,
  changesOf,
  endOfLife,
  failed,
  type Key,
  type Made,
  made,
  type PartField,
  problem,
  readAmount,
  unknownBottle,
  type Who,
} from './acts.service.js';
import { type Amount, blendForm, decantForm, mixForm, thinForm } from './shelf-forms.schemas.js';
import type { Item, Lot } from './stock.schemas.js';
import type { Recipe } from './explosion.calc.js';
import { PlanningStore } from './planning.store.js';
import { StockService } from './stock.service.js';
import { yieldInWords } from './words.calc.js';
import { yieldProblem } from './yield.calc.js';

/** What is known where bottles are poured into a new one. */
interface Pouring {
  today: Temporal.PlainDate;
  /** Of what the new one is a batch. */
  target: Item | null;
  /** Those that the act touches. */
  items: Item[];
  /** By which formula it is mixed now. */
  recipe: Recipe | null;
}

@Injectable()
export class PouringService {
  private readonly planning = new PlanningStore();

  constructor(
    private readonly random: Random,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  /** Bottles of one kind poured together into a new one. @throws AppError bad_input, not_found */
  blend(studioId: string, who: Who, input: unknown, key?: Key): Promise<Made> {
    const form = readInput(blendForm, input);
    const into = { label: form.label, class: form.class, note: form.note };
    const doing = { name: 'blend', key, request: input, fieldOf: among('parts') };
    return this.pour(studioId, who, doing, form.parts, [], (parts, id) => blended(parts, { id, ...into }, 2));
  }

  /** Some of a bottle poured off its dregs into a new one. @throws AppError bad_input, not_found */
  decant(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<Made> {
    const { quantity, label, note } = readInput(decantForm, input);
    const parts = [{ lotId, quantity }];
    const fieldOf: PartField = (_, said) => (said === 'quantity' ? said : '');
    const doing = { name: 'decant', key, request: input, fieldOf };
    return this.pour(studioId, who, doing, parts, [], (found, id) =>
      blended(found, { id, label, note, class: found[0]?.lot.class ?? 'ordinary' }, 1),
    );
  }

  /** Solvent poured into a bottle, from another on the shelf or from elsewhere. @throws AppError bad_input */
  thin(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { solventLotId, quantity, reason } = readInput(thinForm, input);
    const request = { lotId, input };
    return this.acts.perform(studioId, { name: 'thin', key, request }, z.null(), async (tx) => {
      const [lot, solvent] = await this.acts.lotsOf(tx, solventLotId ? [lotId, solventLotId] : [lotId]);
      if (!lot || (solventLotId && !solvent)) throw unknownBottle();
      const items = [lot, ...(solvent ? [solvent] : [])].map((one) => one.itemId);
      const today = await this.acts.today(tx);
      const change = (lots: Lot[], all: Item[]): LotChange[] => {
        const gone = problem('solventLotId', 'There is nothing in it any more; please choose another.');
        const now = (id: string, refusal?: Error) => lots.find((one) => one.id === id) ?? failed(refusal);
        const unit = all.find((one) => one.id === (solvent ?? lot).itemId);
        const much = readAmount(quantity, unit ?? failed());
        if (solvent && unit?.unit !== all.find((one) => one.id === lot.itemId)?.unit)
          throw problem('solventLotId', 'This is not measured in the same way.');
        const parts = solvent ? [{ lot: now(solvent.id, gone), quantity: much }] : [];
        const acted = thinned(now(lotId), parts, solvent ? 0n : much, { reason, day: today });
        const unfit = acted.ok ? undefined : SOLVENT_PROBLEMS[acted.reason];
        if (unfit !== undefined) throw problem('solventLotId', unfit);
        return changesOf(acted);
      };
      const named = solvent ? [lotId, solvent.id] : [lotId];
      await this.acts.act(tx, { items, named, change, who: who.name }, today);
      await this.acts.record(tx, who, lotId, 'thin', reason);
      return null;
    });
  }

  /**
   * A batch is mixed: its ingredients are taken from their bottles, and it is usable once it has ripened.
   * It is of the item named, or of the one item mixed by the formula.
   * @throws AppError bad_input, not_found, wrong_state where it would run out before it is ripe
   */
  mixBatch(studioId: string, who: Who, input: unknown, key?: Key): Promise<Made> {
    const form = readInput(mixForm, input);
    const doing = { name: 'mix', key, request: input, fieldOf: among('from') };
    return this.pour(
      studioId,
      who,
      doing,
      form.from,
      [form],
      (parts, id, { today, target, items, recipe }) => {
        const item = target ?? failed();
        const usableFrom = today.add({ days: item.ripenDays ?? 0 });
        const usableUntil = endOfLife(item, today);
        if (usableUntil && usableFrom.until(usableUntil).days < 0)
          throw new AppError('wrong_state', neverRipe(item));
        const label = form.label || `${item.name}, mixed ${dayInWords(today)}`;
        const lot = { itemId: item.id, label, usableFrom, usableUntil, note: form.note };
        const quantity = readAmount(form.quantity, item);
        const acted = mixed({ id, lot, quantity, day: today }, parts);
        if (acted.ok && item.unit === 'uL') checkYield(quantity, parts, items, recipe);
        return acted;
      },
    );
  }

  /** Bottles poured into a new one. */
  private pour(
    studioId: string,
    who: Who,
    { fieldOf, ...doing }: { name: string; key: Key; request: unknown; fieldOf: PartField },
    from: readonly { lotId: string; quantity: Amount }[],
    targets: readonly { itemId: string | null; formulaId: string | null }[],
    act: (parts: Part[], id: string, on: Pouring) => Acted,
  ): Promise<Made> {
    return this.acts.perform(studioId, doing, made, async (tx) => {
      const ids = from.map((one) => one.lotId);
      const lots = await this.acts.lotsOf(tx, ids);
      if (lots.some((lot) => !lot)) throw unknownBottle();
      const target = targets[0] ? await this.target(tx, targets[0]) : null;
      const recipes = target?.formulaId ? await this.planning.recipes(tx) : [];
      const recipe = recipes.find(({ formulaId }) => formulaId === target?.formulaId) ?? null;
      const today = await this.acts.today(tx);
      const id = this.random.id();
      const items = [...lots.flatMap((lot) => (lot ? [lot.itemId] : [])), ...(target ? [target.id] : [])];
      const change = (now: Lot[], all: Item[]): LotChange[] => {
        const parts = from.flatMap(({ lotId, quantity }, at) => {
          const lot = now.find((one) => one.id === lotId) ?? failed();
          const item = all.find((one) => one.id === lot.itemId) ?? failed();
          return [{ lot, quantity: readAmount(quantity, item, { field: fieldOf(at, 'quantity') }) }];
        });
        return changesOf(act(parts, id, { today, target, items: all, recipe }), fieldOf);
      };
      await this.acts.act(tx, { items, named: ids, change, who: who.name }, today);
      await this.acts.record(tx, who, id, doing.name, '');
      return { lotId: id };
    });
  }

  private async target(tx: Tx, asked: { itemId: string | null; formulaId: string | null }): Promise<Item> {
    const all = (await this.stock.items(tx)).filter((item) =>
      asked.itemId ? item.id === asked.itemId : item.formulaId !== null && item.formulaId === asked.formulaId,
    );
    if (all.length > 1) throw problem('itemId', 'Several things are mixed so; please choose which.');
    return all[0] ?? failed(problem('itemId', 'Please choose what was mixed.'));
  }
}

const among =
  (name: string): PartField =>
  (part, said) =>
    `${name}/${part}/${said}`;

/** @throws AppError bad_input where so much, or so little, cannot have come of it */
function checkYield(quantity: bigint, parts: Part[], items: Item[], recipe: Recipe | null): void {
  const taken = parts.flatMap((part) => {
    const item = items.find(({ id }) => id === part.lot.itemId);
    return item ? [{ itemId: item.id, unit: item.unit, quantity: part.quantity }] : [];
  });
  const wrong = yieldProblem(quantity, taken, recipe);
  if (wrong) throw problem('quantity', yieldInWords(wrong));
}

/** What of a solvent is told at its own field. */
const SOLVENT_PROBLEMS: Partial<Record<ActProblem, string>> = {
  'not usable': 'This bottle is suspect; please choose another.',
  'out of its days': 'This has run out or is not ripe yet; please choose another.',
};

const neverRipe = ({ name, ripenDays, lifeDays }: Item) =>
  `${name} would run out before it is ripe: it ripens for ${counted(ripenDays ?? 0, 'day')} and keeps for ` +
  `${counted(lifeDays ?? 0, 'day')} from mixing. Please correct that among what is kept, then note the batch.`;
