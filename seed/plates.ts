// What the demo tells after the day: how past sittings ended, what was done for their plates since, and a gift voucher.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { dayBounds } from '../src/lib/zoned-time.js';
import { USUAL_STEPS } from '../src/plates/owed-steps.calc.js';
import { OwedService } from '../src/plates/owed.service.js';
import { EndingsService } from '../src/sittings/endings.service.js';
import { SittingViews } from '../src/sittings/views.service.js';
import { VouchersService } from '../src/vouchers/vouchers.service.js';
import { STUDIO } from './kittiwake-yard.js';

interface Setting {
  studioId: string;
  owner: Account;
  today: Temporal.PlainDate;
}

/** Whose sitting was made, and how many of the usual steps were done, one every third day. */
const AFTER = [
  { name: 'Marit Solheim', steps: USUAL_STEPS.length },
  { name: 'Gideon Thackray', steps: 4 },
  { name: 'Oona Kerrigan', steps: 2 },
];

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
  { studioId, owner, today }: Setting,
): Promise<void> {
  const { views } = await app.get(SittingViews).list(studioId, ['confirmed']);
  for (const { name, steps } of AFTER) {
    const view = views.find(({ contact }) => contact.name === name);
    if (!view?.place) throw new Error(`The demo has no sitting of ${name}.`);
    const { endsAt } = view.place;
    tell(endsAt.add({ hours: 1 }));
    await app.get(EndingsService).end(studioId, owner, view.sitting.id, { how: 'made' });
    for (const [at, { id: step }] of USUAL_STEPS.slice(0, steps).entries()) {
      tell(endsAt.add({ hours: 24 * (1 + at * 3) }));
      await app.get(OwedService).tick(studioId, owner, view.sitting.id, { step, done: 'yes' });
    }
  }
  tell(dayBounds(STUDIO.zone, today).start.subtract({ hours: 60 }));
  const validUntil = today.add({ years: 1 }).toString();
  await app.get(VouchersService).save(studioId, owner, null, { ...SURPRISE, validUntil });
}
