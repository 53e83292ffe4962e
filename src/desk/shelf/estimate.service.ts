// What plates would take in this studio: its sizes, the figures it has learned, and its own formulas.
import { Injectable } from '@nestjs/common';
import { ActualsService } from '../../chemistry/actuals.service.js';
import { maker } from '../../chemistry/actuals.schemas.js';
import { type Estimate, estimateBy } from '../../chemistry/asked.calc.js';
import { MOST_KEEPERS } from '../../chemistry/estimate.calc.js';
import type { Maker } from '../../chemistry/learning.calc.js';
import { Db } from '../../platform/db/db.js';
import type { FieldProblem } from '../../platform/problems.js';
import { RecipesService } from '../../stock/recipes.service.js';
import type { PlateSize } from '../../stock/stock.schemas.js';
import { StockService } from '../../stock/stock.service.js';

export interface EstimateNow {
  sizes: PlateSize[];
  problems: FieldProblem[];
  /** Null while nothing is asked, or what is asked is not right. */
  found: { estimate: Estimate; madeBy: Maker; mixed: string[] } | null;
}

@Injectable()
export class EstimateService {
  constructor(
    private readonly db: Db,
    private readonly stock: StockService,
    private readonly actuals: ActualsService,
    private readonly recipes: RecipesService,
  ) {}

  /** @param sent keep-SIZE and madeBy, all text; nothing sent asks nothing */
  reckon(studioId: string, sent: Record<string, unknown>): Promise<EstimateNow> {
    return this.db.inStudio(studioId, async (tx) => {
      const sizes = (await this.stock.plateSizes(tx)).filter((size) => size.offered);
      if (Object.keys(sent).length === 0) return { sizes, problems: [], found: null };
      const problems: FieldProblem[] = [];
      const plates = sizes.flatMap(({ id, widthMm, heightMm }) => {
        const typed = textOf(sent[`keep-${id}`]);
        const keepers = /^\d{1,4}$/.test(typed) ? Number(typed) : typed === '' ? 0 : Number.NaN;
        if (!(keepers <= MOST_KEEPERS))
          problems.push({
            field: `keep-${id}`,
            message: `Please give a whole number, 0 to ${MOST_KEEPERS}.`,
          });
        return keepers >= 1 ? [{ sizeId: id, widthMm, heightMm, keepers }] : [];
      });
      const madeBy = maker.safeParse(textOf(sent.madeBy));
      if (!madeBy.success) problems.push({ field: 'madeBy', message: 'Please say whose plates they are.' });
      const [first] = sizes;
      if (problems.length === 0 && plates.length === 0)
        problems.push({ field: `keep-${first?.id ?? ''}`, message: 'Please say how many plates.' });
      if (problems.length > 0 || !madeBy.success) return { sizes, problems, found: null };
      const { use, attempts } = await this.actuals.figures(tx);
      const recipes = await this.recipes.ofSolutions(tx);
      const estimate = estimateBy(plates, { use, attempts: attempts[madeBy.data] }, recipes);
      const mixed = recipes.map(({ itemName }) => itemName);
      return { sizes, problems, found: { estimate, madeBy: madeBy.data, mixed } };
    });
  }
}

const textOf = (answer: unknown): string => (typeof answer === 'string' ? answer.trim() : '');
