// What somebody tells of their own journey, as the form on their page sends it: home, postcode, and what they know better.
import { Injectable } from '@nestjs/common';
import type { FieldProblem } from '../platform/problems.js';
import {
  type FormAnswers,
  LONGEST_POSTCODE,
  planAnswers,
  readPlan,
  textOf,
} from '../travel/journey-form.calc.js';
import type { Place } from '../travel/place.calc.js';
import { type SpotAnswer, Spots } from '../travel/spots.service.js';
import type { Contact } from './people.schemas.js';

export type ToldJourney = Pick<Contact, 'home' | 'postcode' | 'plan'>;

export type ReadJourney =
  | { ok: true; journey: ToldJourney }
  | { ok: false; errors: FieldProblem[]; places: Place[]; answers: FormAnswers };

@Injectable()
export class OwnJourneys {
  constructor(private readonly spots: Spots) {}

  /** Null in `home` never happens here: who has none yet is asked for it. */
  read(sent: FormAnswers, before: Pick<Contact, 'home'>): ReadJourney {
    const place = textOf(sent.place);
    const found = this.home(sent, before.home);
    const { plan, problems } = readPlan(sent);
    const typed = textOf(sent.postcode);
    const postcode = typed === '' && !found.ok && found.postcode !== null ? found.postcode : typed;
    const long = typed.length > LONGEST_POSTCODE;
    const errors = [
      ...(found.ok ? [] : found.problems),
      ...(long
        ? [{ field: 'postcode', message: `A postcode has at most ${LONGEST_POSTCODE} characters.` }]
        : []),
      ...problems,
    ];
    if (found.ok && errors.length === 0) return { ok: true, journey: { home: found.spot, postcode, plan } };
    // a postcode goes to its own box, where it is kept
    const moved = !found.ok && found.postcode === place && typed === '' ? { place: '', postcode } : {};
    return { ok: false, errors, places: found.ok ? [] : found.places, answers: { ...sent, ...moved } };
  }

  /** The home as it was stays, with coordinates and all, while nobody changes its name; a zone goes with its town. */
  private home(sent: FormAnswers, before: Contact['home']): SpotAnswer {
    const [place, placeId, zone] = ['place', 'placeId', 'zone'].map((name) => textOf(sent[name])) as [
      string,
      string,
      string,
    ];
    if (before === null) return this.spots.find({ place, placeId, zone });
    if (place === before.name && placeId === '' && (zone === before.zone || zone === ''))
      return { ok: true, spot: before };
    if (place === before.name && placeId === '') {
      const corrected = this.spots.find({ place: `${before.lat}, ${before.lon}`, placeId, zone });
      return corrected.ok ? { ok: true, spot: { ...corrected.spot, name: before.name } } : corrected;
    }
    return this.spots.find({ place, placeId, zone: zone === before.zone ? '' : zone });
  }
}

/** The boxes as they are filled at first. */
export const journeyAnswers = ({ home, postcode, plan }: ToldJourney): Record<string, string> => ({
  place: home?.name ?? '',
  zone: home?.zone ?? '',
  postcode,
  ...planAnswers(plan),
});
