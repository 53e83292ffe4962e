// The point and zone somebody means by what they typed into a box for a place: the name of a town, chosen among those of
// the same name where need be, or coordinates. Postcodes are told apart from towns; there is no list of them here.
import { Injectable } from '@nestjs/common';
import { isZone } from '../lib/zoned-time.js';
import type { FieldProblem } from '../platform/problems.js';
import { readCoordinates, looksLikePostcode } from './coordinates.calc.js';
import { Gazetteer } from './gazetteer.service.js';
import type { Spot } from './journey.calc.js';
import type { Place } from './place.calc.js';
import { placeLabel } from './place-label.calc.js';

export interface NamedSpot extends Spot {
  name: string;
}

export interface TypedPlace {
  place: string;
  /** The id of the place chosen; '' without one. */
  placeId: string;
  /** A zone that is to hold in the stead of the gazetteer's; ''. */
  zone: string;
}

export type SpotAnswer =
  | { ok: true; spot: NamedSpot }
  | {
      ok: false;
      problems: FieldProblem[];
      /** To choose one of. */
      places: Place[];
      /** What was typed is a postcode, to be kept beside the town. */
      postcode: string | null;
    };

const MOST_PLACES = 8;
const LONGEST_NAME = 100;

@Injectable()
export class Spots {
  constructor(private readonly gazetteer: Gazetteer) {}

  /** Problems stand at `place`, `placeId` and `zone`. */
  find(typed: TypedPlace): SpotAnswer {
    const { zone } = typed;
    const zoneProblem: FieldProblem[] =
      zone === '' || isZone(zone)
        ? []
        : [{ field: 'zone', message: 'This time zone is not known. It is a name such as Europe/London.' }];
    const found = this.place(typed);
    if (!found.ok) return { ...found, problems: [...found.problems, ...zoneProblem] };
    if (zoneProblem.length > 0) return { ok: false, problems: zoneProblem, places: [], postcode: null };
    return zone === '' ? found : { ok: true, spot: { ...found.spot, zone } };
  }

  /** A point that was given as figures, with the zone of the nearest town; null far from any. */
  at(point: { lat: number; lon: number }): NamedSpot | null {
    const near = this.gazetteer.nearest(point);
    return (
      near && { ...point, name: `${point.lat}°, ${point.lon}° (near ${placeLabel(near)})`, zone: near.zone }
    );
  }

  private place({ place, placeId, zone }: TypedPlace): SpotAnswer {
    const refuse = (
      field: string,
      message: string,
      places: Place[] = [],
      postcode: string | null = null,
    ): SpotAnswer => ({ ok: false, problems: [{ field, message }], places, postcode });
    const read = readCoordinates(place);
    if (read.ok) {
      const spot = this.at(read.point);
      if (spot) return { ok: true, spot };
      const { lat, lon } = read.point;
      return isZone(zone)
        ? { ok: true, spot: { lat, lon, name: `${lat}°, ${lon}°`, zone } }
        : refuse('zone', 'No town is near these coordinates; please give their time zone.');
    }
    if (read.reason === 'beyond')
      return refuse('place', 'A latitude is at most 90 degrees, and a longitude at most 180.');
    const typed = place.slice(0, LONGEST_NAME);
    const id = /^\d{1,9}$/.test(placeId) ? Number(placeId) : null;
    // an address kept by hand may have the id alone
    const { place: meant, found } =
      typed === ''
        ? { place: id === null ? null : this.gazetteer.byId(id), found: [] }
        : this.gazetteer.meant(typed, id, MOST_PLACES);
    if (meant) return { ok: true, spot: { ...spotOf(meant), name: placeLabel(meant) } };
    if (typed === '') return refuse('place', 'Please give a town or village, or coordinates.');
    if (found.length > 0) return refuse('placeId', 'Please choose which of these places it is.', found);
    if (looksLikePostcode(typed))
      return refuse(
        'place',
        'Postcodes are not known here. We keep yours as you wrote it; please give the nearest town as well.',
        [],
        typed,
      );
    return refuse('place', 'This place is not known here; please give the nearest town, or coordinates.');
  }
}

const spotOf = ({ lat, lon, zone }: Place): Spot => ({ lat, lon, zone });
