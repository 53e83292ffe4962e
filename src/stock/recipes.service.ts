// How the studio mixes what it pours on plates: by the formula of the usual item of each kind; and what bottles bring to
// a bench.
import { Injectable } from '@nestjs/common';
import type { Recipe } from '../chemistry/raw-chemicals.calc.js';
import type { Kept } from '../chemistry/incompatible.calc.js';
import { SOLUTION_KINDS, type SolutionKind } from '../chemistry/use-per-area.calc.js';
import type { Tx } from '../platform/db/tx.js';
import type { Temporal } from 'temporal-polyfill';
import { keptOf } from './cautions.calc.js';
import type { Mixed } from './formulas.schemas.js';
import { FormulasStore } from './formulas.store.js';
import { PlanningStore } from './planning.store.js';
import type { Item } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { usualOf } from './usual.calc.js';

@Injectable()
export class RecipesService {
  private readonly planning = new PlanningStore();
  private readonly formulas = new FormulasStore();

  constructor(private readonly stock: StockService) {}

  /** With the name of the item each is for, the usual ones where nothing else is said; kinds that are bought, or told by no formula, are left out. */
  async ofSolutions(
    tx: Tx,
    poured: (kind: SolutionKind, items: Item[]) => Item | null = (kind, items) =>
      usualOf(items, kind) ?? null,
  ): Promise<(Recipe & { itemName: string })[]> {
    const items = await this.stock.items(tx);
    const known = await this.planning.recipes(tx);
    return SOLUTION_KINDS.flatMap((solution) => {
      const item = poured(solution, items);
      const recipe = known.find(({ formulaId }) => formulaId === item?.formulaId);
      if (!item || !recipe || recipe.batchQuantity <= 0n) return [];
      const lines = recipe.lines.map(({ ingredient, substance, unit, quantity }) => ({
        ingredient,
        unit,
        quantity,
        ...(substance ? { substance } : {}),
      }));
      return [{ solution, itemName: item.name, batchUl: recipe.batchQuantity, lines }];
    });
  }

  /** How some items were mixed at an instant: by the latest version there was; what is bought is left out. */
  async asMixed(tx: Tx, items: readonly Item[], at: Temporal.Instant): Promise<Mixed[]> {
    const formulas = await this.formulas.all(tx);
    const mixed: Mixed[] = [];
    for (const item of items) {
      const formula = formulas.find(({ id }) => id === item.formulaId);
      const versions = formula ? await this.formulas.versions(tx, formula.id) : [];
      const known = versions.find((one) => one.createdAt.epochMilliseconds <= at.epochMilliseconds);
      const text = known ?? versions.at(-1); // entered after the day: the first there ever was
      if (formula && text) mixed.push({ item, formulaName: formula.name, text });
    }
    return mixed;
  }

  /** All that some items bring to a bench, in their order. */
  async brought(tx: Tx, items: readonly Item[]): Promise<Kept[]> {
    const substances = await this.formulas.substances(tx);
    return items.map((item) => keptOf(item, substances));
  }
}
