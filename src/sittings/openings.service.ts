// The open places of a studio as visitors see them.
import { Injectable } from '@nestjs/common';
import { Db } from '../platform/db/db.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
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

  /** All days up to the booking horizon, open or not, for a sitting of so many plates. */
  all(
    studioId: string,
    plates: number,
  ): Promise<{ studio: Studio; days: DayOfPlaces[]; sizes: PlateSize[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const days = await this.room.days(tx, studio, this.room.bookable(studio), plates);
      const sizes = (await this.stock.plateSizes(tx)).filter((size) => size.offered);
      return { studio, days, sizes };
    });
  }
}
