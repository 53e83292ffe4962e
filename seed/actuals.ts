// Invented days that the demo's assistant wrote down: mostly good ones, and one on which the bath fogged.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { ActualsService } from '../src/chemistry/actuals.service.js';
import type { Maker, Used } from '../src/chemistry/learning.calc.js';
import { plateAreaUm2 } from '../src/chemistry/plate-sizes.calc.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import type { Db } from '../src/platform/db/db.js';
import { StockService } from '../src/stock/stock.service.js';
import { STUDIO } from './kittiwake-yard.js';
import type { Sizes } from './shelf.js';

interface Day {
  weeksAgo: number;
  madeBy?: Maker;
  /** Made and kept. */
  whole?: [number, number];
  half?: [number, number];
  /** Millilitres; of silver nitrate grams. */
  used: Partial<Record<Used, number>>;
  note?: string;
}

const DAYS: Day[] = [
  { weeksAgo: 16, whole: [8, 6], used: { collodion: 105, developer: 560 } },
  { weeksAgo: 14, whole: [10, 8], used: { collodion: 130, developer: 690, fixer: 1500 } },
  { weeksAgo: 13, whole: [6, 5], used: { developer: 430, silver: 3.9 } },
  {
    weeksAgo: 10,
    madeBy: 'beginners',
    half: [22, 11],
    used: { collodion: 160, developer: 900, fixer: 2000 },
  },
  {
    weeksAgo: 9,
    whole: [9, 2],
    used: { collodion: 115 },
    note: 'Fog from the third plate on; the bath went into the sun.',
  },
  { weeksAgo: 6, whole: [7, 6], half: [2, 2], used: { collodion: 104, developer: 560, varnish: 50 } },
  { weeksAgo: 5, whole: [8, 7], used: { collodion: 98, developer: 540, silver: 5 } },
  { weeksAgo: 3, whole: [3, 3], used: { collodion: 41 }, note: 'Short day, dull.' },
  {
    weeksAgo: 1,
    whole: [6, 5],
    half: [1, 1],
    used: { collodion: 88, developer: 470, fixer: 1000, varnish: 45 },
  },
];

/** Each at the evening of its day. @param friday the Friday of this week */
export function daysWrittenDown(
  app: INestApplicationContext,
  db: Db,
  {
    studioId,
    owner,
    sizes,
    friday,
  }: { studioId: string; owner: Account; sizes: Sizes; friday: Temporal.PlainDate },
): { at: Temporal.Instant; act: () => Promise<void> }[] {
  return DAYS.map(({ weeksAgo, madeBy = 'sittings', whole, half, used, note = '' }) => {
    const day = friday.subtract({ weeks: weeksAgo, days: madeBy === 'beginners' ? 2 : 0 });
    const evening = wallToInstant(STUDIO.zone, day.toPlainDateTime({ hour: 19 }));
    if (!evening.ok) throw new Error(`The evening of ${day} is in a gap of the clocks.`);
    const act = () =>
      db.inStudio(studioId, async (tx) => {
        const known = await app.get(StockService).plateSizes(tx);
        const made = [
          { id: sizes.whole, counts: whole },
          { id: sizes.half, counts: half },
        ];
        const plates = made.flatMap(({ id, counts }) => {
          const size = known.find((one) => one.id === id);
          if (!size || !counts) return [];
          const [tries, keepers] = counts;
          return [{ plateSizeId: id, areaUm2: plateAreaUm2(size.widthMm, size.heightMm), tries, keepers }];
        });
        const amounts = Object.entries(used).map(([what, amount]) => [
          what,
          BigInt(Math.round(amount * 1000)),
        ]);
        await app
          .get(ActualsService)
          .record(tx, owner, { day, madeBy, plates, used: Object.fromEntries(amounts), note });
      });
    return { at: evening.instant, act };
  });
}
