// The open places of a studio as visitors see them.
import { Injectable } from '@nestjs/common';
import { Db } from '../platform/db/db.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
import type { Kind } from '../room/rules.schemas.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';

@Injectable()
export class OpeningsService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
  ) {}

  /** All days up to the booking horizon, open or not, for a sitting of so many plates; the usual kind, if none is said. */
  all(
    studioId: string,
    plates: number,
    more: { sitters?: number | undefined; kindId?: string | undefined } = {},
  ): Promise<{ studio: Studio; days: DayOfPlaces[]; sizes: PlateSize[]; kinds: Kind[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const kinds = (await this.room.rules(tx)).kinds.filter((one) => one.offered === 'public');
      const kind = kinds.find((one) => one.id === more.kindId) ?? kinds[0];
      const asked = { plates, sitters: more.sitters ?? 1, kindId: kind?.id ?? null };
      const days = await this.room.days(tx, studio, this.room.bookable(studio), asked);
      const sizes = (await this.stock.plateSizes(tx)).filter((size) => size.offered);
      return { studio, days, sizes, kinds };
    });
  }

  /** The plate sizes and kinds of sitting that are offered. */
  offered(studioId: string): Promise<{ sizes: PlateSize[]; kinds: Kind[] }> {
    return this.db.inStudio(studioId, async (tx) => ({
      sizes: (await this.stock.plateSizes(tx)).filter((size) => size.offered),
      kinds: (await this.room.rules(tx)).kinds.filter((one) => one.offered === 'public'),
    }));
  }
}
