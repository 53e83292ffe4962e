// Looking at formulas: the list, one with all its versions, and one on the bench. It changes nothing.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Pair } from '../chemistry/incompatible.calc.js';
import { scaleLines } from '../chemistry/scaling.calc.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { ActsService } from './acts.service.js';
import { type BottleShare, shareAll } from './bench.calc.js';
import { benchCautions, notChecked } from './cautions.calc.js';
import type { Formula, FormulaLine, FormulaVersion } from './formulas.schemas.js';
import { canBeMixed } from './formulas.service.js';
import { FormulasStore } from './formulas.store.js';
import type { Item } from './stock.schemas.js';
import { StockService } from './stock.service.js';

export interface FormulaList {
  formulas: (Formula & { items: Item[] })[];
  items: Item[];
}

export interface FormulaView {
  formula: Formula;
  /** The latest, which is current, first. */
  versions: FormulaVersion[];
  current: FormulaVersion;
  /** What it can be set for, those it is set for among them. */
  able: Item[];
  items: Item[];
}

export interface BenchView extends Omit<FormulaView, 'versions' | 'able'> {
  today: Temporal.PlainDate;
  /** Microlitres. */
  batch: bigint;
  lines: BenchLine[];
  cautions: Pair[];
  /** Ingredients of which nothing is known that a caution could rest on. */
  unknown: string[];
}

export interface BenchLine extends FormulaLine {
  item: Item | null;
  /** Good bottles of it that can be used today, and how much to take of each. */
  from: BottleShare[];
  /** What they have too little. */
  missing: bigint;
}

@Injectable()
export class FormulaViews {
  private readonly store = new FormulasStore();

  constructor(
    private readonly db: Db,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  list(studioId: string): Promise<FormulaList> {
    return this.db.inStudio(studioId, async (tx) => {
      const items = await this.stock.items(tx);
      const formulas = await this.store.all(tx);
      const by = (id: string) => items.filter((item) => item.formulaId === id);
      return { items, formulas: formulas.map((one) => ({ ...one, items: by(one.id) })) };
    });
  }

  /** @throws AppError not_found */
  one(studioId: string, formulaId: string): Promise<FormulaView> {
    return this.db.inStudio(studioId, (tx) => this.load(tx, formulaId));
  }

  /** A batch of so many microlitres, or as the formula has it. @throws AppError not_found */
  bench(studioId: string, formulaId: string, batch: bigint | null): Promise<BenchView> {
    return this.db.inStudio(studioId, async (tx) => {
      const { formula, current, items } = await this.load(tx, formulaId);
      const lots = await this.stock.lots(tx);
      const today = await this.acts.today(tx);
      const wanted = batch ?? current.batch;
      const scaled = scaleLines(current.lines, current.batch, wanted).map((line) => {
        const item = items.find(({ id, unit }) => id === line.itemId && unit === line.unit) ?? null;
        return { ...line, item };
      });
      const lines = shareAll(scaled, lots, today);
      const there = items.filter((item) => lots.some((lot) => lot.itemId === item.id && lot.onHand > 0n));
      const substances = await this.store.substances(tx);
      const made = { name: formula.name, kind: formula.kind, lines };
      const cautions = benchCautions(made, there, substances, items);
      const unknown = notChecked(lines, items, substances);
      const mixed = items.filter((item) => item.formulaId === formulaId);
      return { formula, current, items: mixed, today, batch: wanted, lines, cautions, unknown };
    });
  }

  private async load(tx: Tx, formulaId: string): Promise<FormulaView> {
    const formula = (await this.store.all(tx)).find((one) => one.id === formulaId);
    const versions = formula ? await this.store.versions(tx, formulaId) : [];
    const current = versions.find((one) => one.version === formula?.currentVersion);
    if (!formula || !current) throw new AppError('not_found', 'This formula is not known here.');
    const items = await this.stock.items(tx);
    return {
      formula,
      versions,
      current,
      items,
      able: items.filter((item) => canBeMixed(item, formula.kind)),
    };
  }
}
