// The first glass and solutions of a studio. What is on the shelf already is not entered again here: more of it is received
// on the shelf's own pages.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../../accounts/accounts.schemas.js';
import { STARTER_PLATE_SIZES, type StarterPlateSize } from '../../chemistry/plate-sizes.calc.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { Clock } from '../../platform/clock.js';
import { editAlone } from '../../platform/db/alone.js';
import { Db } from '../../platform/db/db.js';
import { recordHistory } from '../../platform/db/history.js';
import type { Tx } from '../../platform/db/tx.js';
import { readInput } from '../../platform/input.js';
import { AppError, type FieldProblem } from '../../platform/problems.js';
import { StockService } from '../../stock/stock.service.js';
import { StudiosService } from '../../studios/studios.service.js';
import { FIRST_SOLUTIONS } from './set-up.calc.js';
import { type FirstShelf, shelfForm } from './set-up.schemas.js';

/** The keys of what is on the shelf: sizes that are made, and solutions of which there is a bottle. */
export interface ThereAlready {
  sizes: ReadonlySet<string>;
  solutions: ReadonlySet<string>;
  /** There is a size, be it of the studio's own measures. */
  anySize: boolean;
}

@Injectable()
export class FirstShelfService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly stock: StockService,
  ) {}

  there(studioId: string): Promise<ThereAlready> {
    return this.db.inStudio(studioId, (tx) => this.thereIn(tx));
  }

  /**
   * Enters the sizes that are used, their glass, and the solutions there are, all as of today.
   * @throws AppError bad_input: without any size, or for what is on the shelf already
   */
  async fill(studioId: string, who: Account, input: unknown): Promise<void> {
    const shelf = readInput(shelfForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'first shelf');
      const problems = problemsOf(shelf, await this.thereIn(tx));
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      const studio = await this.studios.load(tx);
      const today = instantToWall(studio.zone, this.clock.now()).toPlainDate();
      await this.enterSizes(tx, shelf, today);
      await this.enterSolutions(tx, shelf, today);
      await recordHistory(tx, this.clock, {
        who: who.name,
        aboutKind: 'settings',
        aboutId: tx.studioId,
        event: 'filled the shelf',
      });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  private async thereIn(tx: Tx): Promise<ThereAlready> {
    const names = new Set((await this.stock.plateSizes(tx)).map(({ name }) => name));
    const bottled = new Set((await this.stock.lots(tx)).map(({ itemId }) => itemId));
    const kinds = new Set(
      (await this.stock.items(tx)).filter(({ id }) => bottled.has(id)).map(({ kind }) => kind),
    );
    return {
      anySize: names.size > 0,
      sizes: new Set(STARTER_PLATE_SIZES.filter(({ name }) => names.has(name)).map(({ key }) => key)),
      solutions: new Set(FIRST_SOLUTIONS.filter(({ kind }) => kinds.has(kind)).map(({ key }) => key)),
    };
  }

  private async enterSizes(tx: Tx, { sheets }: FirstShelf, today: Temporal.PlainDate): Promise<void> {
    let position = (await this.stock.plateSizes(tx)).length;
    for (const { key, ...measures } of STARTER_PLATE_SIZES) {
      const count = sheets[key] ?? null;
      if (count === null) continue;
      position += 1;
      const size = await this.stock.enterPlateSize(tx, { ...measures, offered: true, position });
      const glass = await this.stock.enterItem(tx, {
        name: `Clear glass, ${size.name}`,
        kind: 'glass',
        unit: 'sheet',
        plateSizeId: size.id,
        leadDays: null,
        ripenDays: null,
        lifeDays: null,
      });
      const lot = { itemId: glass.id, label: 'Box of glass', usableFrom: today, usableUntil: null };
      if (count > 0) await this.stock.receive(tx, lot, BigInt(count));
    }
  }

  /** Each solution is an item from then on, also while there is none of it. */
  private async enterSolutions(
    tx: Tx,
    { millilitres }: FirstShelf,
    today: Temporal.PlainDate,
  ): Promise<void> {
    const items = await this.stock.items(tx);
    for (const { key, lifeDays, ...solution } of FIRST_SOLUTIONS) {
      const item =
        items.find(({ kind }) => kind === solution.kind) ??
        (await this.stock.enterItem(tx, {
          ...solution,
          unit: 'uL',
          plateSizeId: null,
          leadDays: null,
          lifeDays,
        }));
      const lot = { itemId: item.id, usableFrom: today, usableUntil: today.add({ days: lifeDays }) };
      const label = `${solution.name}, there on the first day`;
      const amount = BigInt(millilitres[key] ?? 0) * 1000n;
      if (amount > 0n) await this.stock.receive(tx, { ...lot, label }, amount, 'mixed');
    }
  }
}

/** The first size that is asked for is where it is told that there is none. */
const FIRST_ASKED: StarterPlateSize['key'] = 'quarter';

function problemsOf({ sheets, millilitres }: FirstShelf, there: ThereAlready): FieldProblem[] {
  const told = (list: readonly { key: string; name: string }[], field: string) =>
    list.map(({ key, name }) => ({
      field: `${field}/${key}`,
      message: `${name} is on the shelf already. More of it is entered under Shelf.`,
    }));
  const again = [
    ...told(
      STARTER_PLATE_SIZES.filter(({ key }) => there.sizes.has(key) && (sheets[key] ?? null) !== null),
      'sheets',
    ),
    ...told(
      FIRST_SOLUTIONS.filter(({ key }) => there.solutions.has(key) && (millilitres[key] ?? 0) > 0),
      'millilitres',
    ),
  ];
  const none = !there.anySize && Object.values(sheets).every((count) => count === null);
  if (!none) return again;
  const message = 'Please give a number for one size at least: 0 where you have no glass of it today.';
  return [{ field: `sheets/${FIRST_ASKED}`, message }, ...again];
}
