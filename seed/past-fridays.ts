// What the demo tells of Fridays that are past: every way in which a sitting ends, one that was put off to a later
// hour, and a test plate that failed. Pascal Verhoeven's ending is left for the owner to tell.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { dayBounds } from '../src/lib/zoned-time.js';
import type { Random } from '../src/platform/clock.js';
import { DelaysService } from '../src/sittings/delays.service.js';
import { EndingsService } from '../src/sittings/endings.service.js';
import { SittingViews } from '../src/sittings/views.service.js';
import { FaultsService } from '../src/stock/faults.service.js';
import { type Story, STUDIO } from './kittiwake-yard.js';

/** Beside those of the other stories, whose plates were made. */
export const PAST_STORIES: Story[] = [
  {
    name: 'Rowan Pickersgill',
    home: 'Leeds, United Kingdom',
    hopes: 'My hands, with the caulking iron.',
    askedWeeksAgo: 27,
    suits: [-8, 20],
    outcome: { kind: 'confirmed', week: -7, start: 0 },
  },
  {
    name: 'Maud Ellerker',
    home: 'Hull, United Kingdom',
    hopes: 'A portrait in my mother’s shawl.',
    askedWeeksAgo: 26,
    suits: [-8, -5],
    outcome: { kind: 'confirmed', week: -7, start: 1 },
  },
  {
    name: 'Signe Aarhus',
    home: 'Aarhus, Denmark',
    hopes: 'One plate, before the winter.',
    askedWeeksAgo: 25,
    suits: [-6, 20],
    outcome: { kind: 'confirmed', week: -5, start: 2 },
  },
  {
    name: 'Jory Tremayne',
    home: 'Lincoln, United Kingdom',
    hopes: 'Something to hang in the workshop.',
    askedWeeksAgo: 24,
    suits: [-6, -4],
    outcome: { kind: 'confirmed', week: -5, start: 0 },
  },
];

const ENDINGS: Record<string, Record<string, string>> = {
  'Rowan Pickersgill': { how: 'no plate', reason: 'chemistry', note: 'Three plates, all black.' },
  'Maud Ellerker': { how: 'made' },
  'Signe Aarhus': { how: 'missed', reason: 'stranded', note: 'The ferry stayed in port.' },
  'Jory Tremayne': { how: 'missed', reason: 'not heard of', note: '' },
};

const LATE = { name: 'Maud Ellerker', week: -7 };

/** Somebody comes late and is given a later hour; where the season's light gave them another day, they were in time. */
export function putOff(
  app: INestApplicationContext,
  { studioId, owner, friday }: { studioId: string; owner: Account; friday: Temporal.PlainDate },
): { at: Temporal.Instant; act: () => Promise<void> } {
  const day = friday.add({ weeks: LATE.week });
  return {
    at: dayBounds(STUDIO.zone, day).start.add({ hours: 11, minutes: 30 }),
    act: async () => {
      const { views } = await app.get(SittingViews).list(studioId, ['confirmed']);
      const view = views.find(({ contact }) => contact.name === LATE.name);
      if (!view?.place?.wallStart.toPlainDate().equals(day)) return;
      const { id } = view.sitting;
      const [later] = (await app.get(DelaysService).placesFor(studioId, id)).open;
      if (later) await app.get(EndingsService).delay(studioId, owner, id, later.wallStart);
    },
  };
}

/** @param tell turns the clock */
export async function pastFridays(
  app: INestApplicationContext,
  random: Random,
  tell: (at: Temporal.Instant) => void,
  { studioId, owner }: { studioId: string; owner: Account },
): Promise<void> {
  const endings = app.get(EndingsService);
  const { views } = await app.get(SittingViews).list(studioId, ['confirmed']);
  for (const { name } of PAST_STORIES) {
    const view = views.find(({ contact }) => contact.name === name);
    if (!view?.place) throw new Error(`The demo has no sitting of ${name}.`);
    const { endsAt } = view.place;
    const { id } = view.sitting;
    tell(endsAt);
    const ending = ENDINGS[name];
    if (ending?.reason === 'chemistry')
      await app.get(FaultsService).off(studioId, owner, random.id(), {
        what: 'test plate',
        seen: 'fog',
        note: 'A new developer, mixed too warm. A fresh one cured it the next morning.',
      });
    await endings.end(studioId, owner, id, ending);
  }
}
