// How the studio mixes what it pours on plates: by the formula of the usual item of each kind.
import { Injectable } from '@nestjs/common';
import type { Recipe } from '../chemistry/raw-chemicals.calc.js';
import { SOLUTION_KINDS, type SolutionKind } from '../chemistry/use-per-area.calc.js';
import type { Tx } from '../platform/db/tx.js';
import { PlanningStore } from './planning.store.js';
import type { Item } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { usualOf } from './usual.calc.js';

@Injectable()
export class RecipesService {
  private readonly planning = new PlanningStore();

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
}
