// What the demo tells after the day: how past sittings ended, what was done for their plates since, and a gift voucher.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { dayBounds } from '../src/lib/zoned-time.js';
import { Random } from '../src/platform/clock.js';
import type { SaidPlate } from '../src/plates/made.schemas.js';
import { MadeService } from '../src/plates/made.service.js';
import { USUAL_STEPS } from '../src/plates/owed-steps.calc.js';
import { OwedService } from '../src/plates/owed.service.js';
import { EndingsService } from '../src/sittings/endings.service.js';
import type { SittingView } from '../src/sittings/sittings.schemas.js';
import { SittingViews } from '../src/sittings/views.service.js';
import { VouchersService } from '../src/vouchers/vouchers.service.js';
import { STUDIO } from './kittiwake-yard.js';

interface Setting {
  studioId: string;
  owner: Account;
  today: Temporal.PlainDate;
  seriesId: string;
}

type Try = Pick<SaidPlate, 'keeper' | 'seconds' | 'sky' | 'result'>;
const tried = (keeper: boolean, seconds: number, sky: Try['sky'], result: string): Try => ({
  ...{ keeper, seconds, sky, result },
});

/**
 * Whose sitting was made, the tries at each of their plates as they were typed in that evening, and how many of the usual
 * steps were done, one every third day.
 */
const AFTER = [
  {
    name: 'Marit Solheim',
    tries: [tried(false, 5, 'broken', 'Moved'), tried(true, 5, 'broken', 'Fine')],
    steps: USUAL_STEPS.length,
  },
  {
    name: 'Gideon Thackray',
    tries: [
      tried(false, 7, 'dull', 'Fog'),
      tried(false, 8, 'dull', 'Fog, less'),
      tried(true, 8, 'dull', 'Thin, good'),
    ],
    steps: 4,
  },
  { name: 'Oona Kerrigan', tries: [tried(true, 6, 'clear', 'Sharp')], steps: 2 },
];
/** Where the studio's own book ended before. */
const FIRST_NUMBER = 212;

/** Nobody who sits is told of theirs before the owner says so. */
const SURPRISE = {
  number: '1',
  buyer: 'Senara Quill',
  buyerReach: '01632 960147',
  forWhom: 'her brother',
  worth: 'One half plate',
  surprise: 'yes',
};

/** @param tell turns the clock */
export async function platesAfter(
  app: INestApplicationContext,
  tell: (at: Temporal.Instant) => void,
  { studioId, owner, today, seriesId }: Setting,
): Promise<void> {
  const { views } = await app.get(SittingViews).list(studioId, ['confirmed']);
  const made = app.get(MadeService);
  for (const { name, tries, steps } of AFTER) {
    const view = views.find(({ contact }) => contact.name === name);
    if (!view?.place) throw new Error(`The demo has no sitting of ${name}.`);
    const { endsAt } = view.place;
    tell(endsAt.add({ hours: 1 }));
    await app.get(EndingsService).end(studioId, owner, view.sitting.id, { how: 'made' });
    tell(endsAt.add({ hours: 5 }));
    const day = view.place.wallStart.toPlainDate();
    const plates = platesOf(view, tries, seriesId, () => app.get(Random).id());
    await made.save(studioId, owner, day, { first: FIRST_NUMBER, plates });
    for (const [at, { id: step }] of USUAL_STEPS.slice(0, steps).entries()) {
      tell(endsAt.add({ hours: 24 * (1 + at * 3) }));
      await app.get(OwedService).tick(studioId, owner, view.sitting.id, { step, done: 'yes' });
    }
  }
  tell(dayBounds(STUDIO.zone, today).start.subtract({ hours: 60 }));
  const validUntil = today.add({ years: 1 }).toString();
  await app.get(VouchersService).save(studioId, owner, null, { ...SURPRISE, validUntil });
}

/** Every plate they asked for, tried alike; what is kept of a series sitting goes to the series. */
function platesOf(
  { sitting, plates, kind }: SittingView,
  tries: readonly Try[],
  seriesId: string,
  newId: () => string,
) {
  const ofSeries = kind?.keepsPlate === 'series';
  return plates.flatMap(({ id: plateId, plateSizeId, names }) =>
    tries.map((one) => ({
      ...one,
      ...{ id: newId(), sittingId: sitting.id, plateId, plateSizeId, names: names.join(', ') },
      seriesId: ofSeries && one.keeper ? seriesId : null,
    })),
  );
}
