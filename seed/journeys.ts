// What some people of the demo told of their journeys on their own pages; of all others it is guessed. Invented.
import type { INestApplicationContext } from '@nestjs/common';
import { LinksService } from '../src/accounts/links.service.js';
import { OwnJourneys, type ToldJourney } from '../src/people/own-journey.service.js';
import type { Db } from '../src/platform/db/db.js';
import { OwnJourneyService } from '../src/sittings/own-journey.service.js';
import { SittingViews } from '../src/sittings/views.service.js';
import { StudiosService } from '../src/studios/studios.service.js';
import { OwnSignUpService } from '../src/teaching/own-sign-up.service.js';

type Answers = Record<string, string>;

/** By the name of the contact, as they fill the form. */
const SITTERS: Record<string, Answers> = {
  'Ishbel Rennie': { mode: 'train', hours: '7:40', night: 'yes', postcode: 'AB11' },
  'Casper Lindqvist': { mode: 'ferry', hours: '31', night: 'yes', margin: '60' },
  'Yuki Hamasaki': { mode: 'flight', hours: '17:30', night: 'yes' },
  'Agnes Moorcroft': { mode: 'coach', hours: '3:15', night: 'no' },
};
const STUDENT: Answers = { place: 'Ripon, United Kingdom', mode: 'car', hours: '1:45', night: 'no' };

export async function journeysOfSitters(
  app: INestApplicationContext,
  db: Db,
  studioId: string,
): Promise<void> {
  const told = await db.inStudio(studioId, async (tx) => {
    const views = await app
      .get(SittingViews)
      .inStates(tx, await app.get(StudiosService).load(tx), ['confirmed']);
    const found: { token: string; journey: ToldJourney }[] = [];
    for (const { sitting, contact } of views) {
      const answers = SITTERS[contact.name];
      const link = answers && (await app.get(LinksService).find(tx, 'place', sitting.id));
      if (!link) continue;
      const place = contact.home?.name ?? '';
      const journey = read(app, { place, ...answers }, contact);
      found.push({ token: app.get(LinksService).token(link), journey });
    }
    return found;
  });
  for (const { token, journey } of told) await app.get(OwnJourneyService).tell(studioId, token, journey);
}

export async function journeyOfStudent(
  app: INestApplicationContext,
  studioId: string,
  token: string,
): Promise<void> {
  await app.get(OwnSignUpService).tellJourney(studioId, token, read(app, STUDENT, { home: null }));
}

function read(
  app: INestApplicationContext,
  answers: Answers,
  before: Pick<ToldJourney, 'home'>,
): ToldJourney {
  const told = app.get(OwnJourneys).read(answers, before);
  if (!told.ok) throw new Error(`The demo's journey cannot be read: ${JSON.stringify(told.errors)}`);
  return told.journey;
}
