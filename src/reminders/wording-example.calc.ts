// Somebody invented, for the preview of a letter that the studio has never sent; and gaps of a real one filled. Pure.
import { LETTER_KINDS, sittingLetter, teachingLetter, type TheirKind } from './letters.schemas.js';
import type { Example } from './wordings.calc.js';
import type { WordedKind } from './wordings.schemas.js';

const ID = '00000000-0000-4000-8000-000000000001';
const PLACE = {
  ...{ uid: ID, sequence: 0, zone: 'Europe/London' },
  ...{ wallStart: '2027-03-05T09:30:00', wallEnd: '2027-03-05T11:00:00' },
  ...{ startsAt: '2027-03-05T09:30:00Z', endsAt: '2027-03-05T11:00:00Z' },
  ...{ revisedAt: '2027-01-05T10:00:00Z', createdAt: '2027-01-05T10:00:00Z' },
};
/** What a letter of one kind tells and others do not. */
const FURTHER = {
  openUntil: '2027-01-12T18:00:00Z',
  was: '2027-02-26T09:30:00',
  leaveBy: '2027-03-05T07:15:00Z',
  homeZone: 'Europe/London',
};

/** @param told what a real letter told, of this kind or of another; null where there is none */
export function exampleOf(kind: WordedKind, studio: unknown, told: object | null): Example {
  const base = told ?? { place: PLACE };
  const real = Object.fromEntries(Object.entries(base).filter(([, value]) => value !== null));
  const wording = { wording: undefined };
  if (kind.startsWith('teaching: ')) {
    const change = kind.slice('teaching: '.length);
    const invented = {
      ...{ contactName: 'Ottilie Marsh', course: 'First plates', students: ['Ottilie Marsh'] },
      ...{ place: null, wantedOn: null, message: '', passOn: '', bring: '', wear: '', linkId: ID },
    };
    const about = teachingLetter.parse({ ...invented, ...FURTHER, ...real, ...wording, studio, change });
    const until = change === 'offered' ? about.openUntil : null;
    const placed = ['signed', 'offered'].includes(change) || change.startsWith('reminder: ');
    return {
      kind: 'teaching',
      about: { ...about, openUntil: until, place: about.place ?? (placed ? PLACE : null) },
    };
  }
  const named = kind === 'owed' ? 'waiting' : kind;
  const known = LETTER_KINDS.find((one): one is TheirKind => one === named);
  if (!known) throw new Error(`There is no letter of the kind ${kind}.`);
  const invented = {
    ...{ contactName: 'Ottilie Marsh', sitters: ['Ottilie Marsh'], plates: ['One plate: Ottilie Marsh'] },
    ...{ days: '', suits: { kind: 'these', days: ['2027-03-05'] }, message: '', passOn: '', linkId: ID },
  };
  const withPlace = !['asked', 'waiting', 'owed', 'withdrawn', 'declined', 'refused'].includes(kind);
  const about = sittingLetter.parse({ place: null, ...invented, ...FURTHER, ...real, ...wording, studio });
  return {
    kind: known,
    about: {
      ...about,
      place: withPlace ? (about.place ?? PLACE) : null,
      owedSince: kind === 'owed' ? (about.owedSince ?? '2026-09-14') : null,
    },
  };
}
