// What letters tell of a sitting and its studio, taken out of what is known at the moment. Pure.
import { readInstant, readWall } from '../lib/stored-times.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { daysInWords } from '../sittings/words.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import type { LetterPlace, SittingLetter } from './letters.schemas.js';

/** What a letter about a sitting tells, fixed at this moment. */
export function sittingSnapshot(
  studio: Studio,
  view: SittingView,
  linkId: string,
  passOnWords: string,
): Omit<SittingLetter, 'openUntil' | 'was' | 'leaveBy' | 'homeZone'> {
  const { place, sitting } = view;
  const { language } = view.contact;
  const { facts } = wordsFor(language).place;
  return {
    studio: studioFacts(studio),
    contactName: view.contact.name,
    sitters: view.sitters.map((one) => one.name),
    plates: view.plates.map((plate) => facts.plate(plate.sizeName, plate.names.join(', '))),
    language,
    days: daysInWords(sitting.suits),
    suits:
      sitting.suits.kind === 'any'
        ? { kind: 'any', from: sitting.suits.from.toString(), until: sitting.suits.until.toString() }
        : { kind: 'these', days: sitting.suits.days.map(String) },
    message: view.sitting.message,
    owedSince:
      view.sitting.returnOf === null
        ? null
        : instantToWall(studio.zone, view.sitting.askedAt).toPlainDate().toString(),
    passOn: passOnWords,
    linkId,
    place: place && {
      uid: place.uid,
      sequence: place.sequence,
      zone: place.zone,
      wallStart: place.wallStart.toString(),
      wallEnd: place.wallEnd.toString(),
      startsAt: place.startsAt.toString(),
      endsAt: place.endsAt.toString(),
      revisedAt: place.revisedAt.toString(),
      createdAt: place.createdAt.toString(),
    },
  };
}

export const studioFacts = ({
  slug,
  name,
  address,
  email,
  telephone,
  lat,
  lon,
}: Studio): SittingLetter['studio'] => ({
  slug,
  name,
  address,
  email,
  telephone,
  lat,
  lon,
});

/** How the studio is to pass a letter on to somebody without e-mail. */
export function passOn({ contact }: Pick<SittingView, 'contact'>): string {
  return contact.reachBy === 'telephone'
    ? `${contact.name} has no e-mail. Please telephone ${contact.telephone} and tell them this:`
    : `${contact.name} has no e-mail. Please send this by letter to: ${contact.postalAddress.replace(/\n/g, ', ')}`;
}

/** The entry that an invitation or cancellation carries, in the language of its letter. */
export function invitationEntry(about: SittingLetter, place: LetterPlace, method: 'REQUEST' | 'CANCEL') {
  const language = about.language ?? LANGUAGE_OF_DESK;
  return {
    language,
    uid: place.uid,
    sequence: place.sequence,
    revisedAt: readInstant(place.revisedAt),
    createdAt: readInstant(place.createdAt),
    status: method === 'CANCEL' ? ('CANCELLED' as const) : ('CONFIRMED' as const),
    zone: place.zone,
    start: readWall(place.wallStart),
    end: readWall(place.wallEnd),
    startInstant: readInstant(place.startsAt),
    endInstant: readInstant(place.endsAt),
    summary: wordsFor(language).calendar.sitting(about.studio.name),
    description: `${about.sitters.join(', ')}\n${about.plates.join('\n')}`,
    location: about.studio.address,
    geo: { lat: about.studio.lat, lon: about.studio.lon },
  };
}
