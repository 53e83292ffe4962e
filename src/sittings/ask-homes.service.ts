// Which place somebody means by the name they typed; where it is not clear, the places of that name.
import { Injectable } from '@nestjs/common';
import type { FieldProblem } from '../platform/problems.js';
import { looksLikePostcode, readCoordinates } from '../travel/coordinates.calc.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import type { Answers } from './ask-form.calc.js';

const MOST_PLACES = 8;

@Injectable()
export class AskHomes {
  constructor(private readonly gazetteer: Gazetteer) {}

  /** The answers with the id of the place that is meant, of coordinates the nearest; '' where it cannot be told. */
  withHome(answers: Answers): Answers {
    const read = readCoordinates(homeTyped(answers));
    const near = read.ok ? this.gazetteer.nearest(read.point) : null;
    if (near) return { ...answers, home: placeLabel(near), homeId: String(near.id) };
    const id =
      typeof answers.homeId === 'string' && /^\d{1,12}$/.test(answers.homeId) ? answers.homeId : null;
    const { place } = this.gazetteer.meant(homeTyped(answers), id === null ? null : Number(id), MOST_PLACES);
    return { ...answers, homeId: place ? String(place.id) : '' };
  }

  /** The place that was chosen, in full; what was typed where none is. */
  label(answers: Answers): string {
    const id = Number(answers.homeId);
    const place = Number.isSafeInteger(id) ? this.gazetteer.byId(id) : null;
    return place ? placeLabel(place) : homeTyped(answers);
  }

  /** A home that could not be told: asks which place is meant, and offers those of that name, if there are any. */
  explain(
    answers: Answers,
    fields: FieldProblem[],
  ): { problems: FieldProblem[]; places?: { value: string; label: string }[] } {
    if (!fields.some(({ field }) => field === 'homeId')) return { problems: fields };
    const typed = homeTyped(answers);
    const found = this.gazetteer.search(typed, MOST_PLACES);
    const problems = fields.map((one) => {
      if (one.field !== 'homeId') return one;
      if (found.length > 0) return { field: 'homeId', message: 'Please choose which of these places it is.' };
      const message =
        typed === ''
          ? 'Please tell us where you travel from.'
          : looksLikePostcode(typed)
            ? 'We have no list of postcodes; please give the nearest town. Later you can add the postcode on your own page.'
            : 'We do not know this place; please give the nearest town.';
      return { field: 'home', message };
    });
    return {
      problems,
      places: found.map((place) => ({ value: String(place.id), label: placeLabel(place) })),
    };
  }
}

/** No name of a place is longer. */
const homeTyped = ({ home }: Answers): string => (typeof home === 'string' ? home.trim().slice(0, 100) : '');
