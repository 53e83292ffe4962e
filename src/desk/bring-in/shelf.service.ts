// What is on the shelf: bottles, batches and boxes of the items that are kept. They count from today.
import { Injectable } from '@nestjs/common';
import type { Tx } from '../../platform/db/tx.js';
import { RoomService } from '../../room/room.service.js';
import type { BroughtBottle } from '../../stock/brought.schemas.js';
import { BroughtBottles } from '../../stock/brought.service.js';
import { StockService } from '../../stock/stock.service.js';
import type { Studio } from '../../studios/studios.schemas.js';
import type { Entered, Kind } from './kinds.schemas.js';
import type { Choices, NamedLine, ReadLine } from './reading.calc.js';
import { bottleKey, shelfLines } from './shelf.calc.js';

@Injectable()
export class BringInShelf implements Kind<BroughtBottle> {
  constructor(
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly bottles: BroughtBottles,
  ) {}

  async read(
    tx: Tx,
    studio: Studio,
    lines: NamedLine[],
    { order }: Choices,
  ): Promise<ReadLine<BroughtBottle>[]> {
    const items = (await this.stock.items(tx)).filter(({ archived }) => !archived);
    const known = new Set((await this.stock.lots(tx)).map((lot) => bottleKey(lot.itemId, lot.label)));
    return shelfLines(lines, { today: this.room.today(studio), order, items, known });
  }

  /** Nothing of it can be refused. */
  async enter(
    tx: Tx,
    _studio: Studio,
    who: { name: string },
    lines: { line: number; value: BroughtBottle }[],
    trial: boolean,
  ): Promise<Entered> {
    const ids = trial
      ? []
      : await this.bottles.enter(
          tx,
          who,
          lines.map(({ value }) => value),
        );
    const came = ids.map((id, at) => ({ line: lines[at]?.line ?? 0, became_id: id }));
    return { came, tells: new Map(), refused: new Map() };
  }

  async touched(tx: Tx, _studio: Studio, ids: string[], upTo: bigint): Promise<Map<string, string>> {
    return new Map((await this.bottles.touched(tx, ids, upTo)).map((lot) => [lot.id, lot.label]));
  }

  async remove(tx: Tx, _studio: Studio, who: { name: string }, ids: string[]): Promise<void> {
    await this.bottles.takeBack(tx, who, ids);
  }
}
