// Two silver baths of the demo studio with half a year behind them, what a day takes besides, and some ticks.
import type { INestApplicationContext } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import type { Random } from '../src/platform/clock.js';
import { BathLedgerService } from '../src/stock/bath-ledger.service.js';
import { BathsService } from '../src/stock/baths.service.js';
import { DaysService } from '../src/stock/days.service.js';
import { FaultsService } from '../src/stock/faults.service.js';
import { PreparationService } from '../src/stock/preparation.service.js';
import { STUDIO } from './kittiwake-yard.js';
import type { Sizes } from './shelf.js';

interface Line {
  weeksAgo: number;
  /** Days after the Friday of that week. */
  later?: number;
  bath: 'north' | 'south';
  said: Record<string, string>;
}

const measured = (density: string, volume: string, temperature = '18') =>
  ({ do: 'measured', method: 'hydrometer', density, temperature, volume }) as const;
const plates = (whole: number) => ({ do: 'poured', plates: String(whole) });
const toppedUp = (crystals: string, volume: string) => ({ do: 'topped up', crystals, volume });

/** Readings of a hydrometer in kilograms a litre: 1.073 is about nine per cent. */
const LINES: Line[] = [
  { weeksAgo: 24, bath: 'north', said: plates(7) },
  { weeksAgo: 22, bath: 'north', said: plates(9) },
  { weeksAgo: 20, bath: 'north', said: measured('1.0736', '2450') },
  { weeksAgo: 20, bath: 'south', said: plates(5) },
  { weeksAgo: 18, bath: 'south', said: plates(8) },
  { weeksAgo: 17, bath: 'south', said: { do: 'acidity', ph: '4.5' } },
  { weeksAgo: 16, bath: 'north', said: plates(8) },
  { weeksAgo: 14, bath: 'north', said: plates(10) },
  { weeksAgo: 14, later: 1, bath: 'north', said: { do: 'state', state: 'sunning', until: '3' } },
  { weeksAgo: 14, later: 3, bath: 'north', said: { do: 'cared', care: 'sunned' } },
  { weeksAgo: 14, later: 3, bath: 'north', said: { do: 'cared', care: 'filtered' } },
  { weeksAgo: 14, later: 4, bath: 'north', said: { do: 'state', state: 'working' } },
  { weeksAgo: 13, bath: 'north', said: measured('1.0720', '2350', '19') },
  { weeksAgo: 12, bath: 'south', said: plates(6) },
  { weeksAgo: 11, bath: 'south', said: measured('1.0718', '2300') },
  { weeksAgo: 10, bath: 'north', said: toppedUp('10', '150') },
  { weeksAgo: 9, bath: 'north', said: plates(9) },
  { weeksAgo: 7, bath: 'north', said: plates(7) },
  { weeksAgo: 6, bath: 'south', said: plates(4) },
  { weeksAgo: 5, bath: 'north', said: plates(8) },
  { weeksAgo: 4, bath: 'north', said: { do: 'acidity', ph: '4' } },
  { weeksAgo: 3, bath: 'north', said: measured('1.0693', '2180', '17') },
  { weeksAgo: 3, bath: 'south', said: plates(3) },
  { weeksAgo: 2, later: 2, bath: 'south', said: { do: 'state', state: 'sunning', until: '12' } },
  { weeksAgo: 1, bath: 'north', said: plates(6) },
];

const BATHS = {
  north: { name: 'North tank', volume: '2500', leastVolume: '1900', strength: '92', inIt: '2500' },
  south: { name: 'South tank', volume: '2400', leastVolume: '1900', strength: '90', inIt: '2400' },
} as const;

interface Setting {
  studioId: string;
  owner: Account;
  sizes: Sizes;
  /** The Friday of this week. */
  friday: Temporal.PlainDate;
}

/** Each line at the evening of its day. */
export function bathHistory(
  app: INestApplicationContext,
  random: Random,
  { studioId, owner, sizes, friday }: Setting,
): { at: Temporal.Instant; act: () => Promise<void> }[] {
  const ids = { north: random.id(), south: random.id() };
  const evening = (date: Temporal.PlainDate, minute = 0) => {
    const answer = wallToInstant(STUDIO.zone, date.toPlainDateTime({ hour: 18, minute }));
    if (!answer.ok) throw new Error('Clocks do not change in the evening there.');
    return answer.instant;
  };
  const founded = (['north', 'south'] as const).map((bath) => ({
    at: evening(friday.subtract({ weeks: 25 })),
    act: () => {
      const usual = { tank: 'upright tank', plateSizeId: sizes.whole, lotId: '', note: '' };
      const figures = { targetStrength: '90', leastStrength: '84', careAfterPlates: '40' };
      const said = { ...usual, ...figures, ...BATHS[bath] };
      return app.get(BathsService).add(studioId, owner, ids[bath], said);
    },
  }));
  const lines = LINES.map(({ weeksAgo, later = 0, bath, said }, at) => {
    const day = friday.subtract({ weeks: weeksAgo }).add({ days: later });
    const until = said.until && day.add({ days: Number(said.until) }).toString();
    const whole = { ...said, day: day.toString(), plateSizeId: sizes.whole, ...(until ? { until } : {}) };
    return {
      at: evening(day, at % 60),
      act: () => app.get(BathLedgerService).enter(studioId, owner, ids[bath], random.id(), whole),
    };
  });
  return [
    ...founded,
    ...lines,
    fault(app, random, { studioId, owner }, evening(friday.subtract({ weeks: 8 })), ids.south),
  ];
}

/** Fog that came from the bath, two months ago: found, mended, and in use again. */
function fault(
  app: INestApplicationContext,
  random: Random,
  { studioId, owner }: Pick<Setting, 'studioId' | 'owner'>,
  at: Temporal.Instant,
  bathId: string,
) {
  const faultId = random.id();
  return {
    at,
    act: async () => {
      const seen = { what: `bath:${bathId}`, seen: 'fog', note: 'All over, from the third plate on.' };
      await app.get(FaultsService).off(studioId, owner, faultId, seen);
      const changed = 'Filtered, two days in the sun, a drop of nitric acid.';
      await app.get(FaultsService).settle(studioId, faultId, { changed, helped: 'yes' });
      const day = Temporal.PlainDate.from(at.toString().slice(0, 10)).toString();
      const ledger = app.get(BathLedgerService);
      const again = { do: 'state', state: 'working', day, note: 'Clear again.' };
      await ledger.enter(studioId, owner, bathId, random.id(), again);
    },
  };
}

/** What a day takes besides is written down last, for days far enough to order for; two of the next tasks are done. */
export async function prepareDays(
  app: INestApplicationContext,
  { studioId, owner, sizes }: Omit<Setting, 'friday'>,
): Promise<void> {
  const days = app.get(DaysService);
  const { items } = await days.takes(studioId);
  const developer = items.find((one) => one.kind === 'developer');
  const besides = developer ? { [`item-${developer.id}`]: '150 mL' } : {};
  await days.saveTakes(studioId, owner, { testPlates: '2', testSizeId: sizes.half, ...besides });
  const preparation = app.get(PreparationService);
  const { tasks, today } = await preparation.list(studioId);
  const next = tasks.filter((task) => today.until(task.ahead.date).days >= 0).slice(0, 2);
  for (const { ahead, rule } of next)
    await preparation.tick(studioId, owner, { day: ahead.date.toString(), rule: rule.id, done: 'yes' });
}
