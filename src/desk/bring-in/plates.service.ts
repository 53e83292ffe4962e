// Plates made before, with the numbers they have in the studio's old book.
import { Injectable } from '@nestjs/common';
import type { Tx } from '../../platform/db/tx.js';
import type { BroughtPlate } from '../../plates/brought.schemas.js';
import { BroughtPlates } from '../../plates/brought.service.js';
import { RoomService } from '../../room/room.service.js';
import { StockService } from '../../stock/stock.service.js';
import type { Studio } from '../../studios/studios.schemas.js';
import type { Entered, Kind } from './kinds.schemas.js';
import { plateLines, plateNumber } from './plates.calc.js';
import type { Choices, NamedLine, ReadLine } from './reading.calc.js';

@Injectable()
export class BringInPlates implements Kind<BroughtPlate> {
  constructor(
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly plates: BroughtPlates,
  ) {}

  async read(
    tx: Tx,
    studio: Studio,
    lines: NamedLine[],
    { order }: Choices,
  ): Promise<ReadLine<BroughtPlate>[]> {
    const asked = lines.flatMap(({ cells }) => plateNumber(cells.number ?? '') ?? []);
    const { next, taken } = await this.plates.numbers(tx, asked);
    const sizes = await this.stock.plateSizes(tx);
    return plateLines(lines, { today: this.room.today(studio), order, sizes, next, taken });
  }

  /** What could be refused was told by reading. */
  async enter(
    tx: Tx,
    _studio: Studio,
    who: { name: string },
    lines: { line: number; value: BroughtPlate }[],
    trial: boolean,
  ): Promise<Entered> {
    const plates = lines.map(({ value }) => value);
    const ids = trial ? [] : await this.plates.enter(tx, who, plates);
    const came = ids.map((id, at) => ({ line: lines[at]?.line ?? 0, became_id: id }));
    return { came, tells: new Map(), refused: new Map() };
  }

  async touched(tx: Tx, _studio: Studio, ids: string[], upTo: bigint): Promise<Map<string, string>> {
    const touched = await this.plates.touched(tx, ids, upTo);
    return new Map([...touched].map(([id, number]) => [id, String(number)]));
  }

  async remove(tx: Tx, _studio: Studio, _who: { name: string }, ids: string[]): Promise<void> {
    await this.plates.remove(tx, ids);
  }
}
