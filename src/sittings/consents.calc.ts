// What people are asked to agree to, each by itself, and the standard words for it until the owner writes their own.
// The words are ours and no legal advice: what must be asked is for the owner to settle by local law.
import type { Temporal } from 'temporal-polyfill';
import type { SittingState } from './states.calc.js';

/** What is agreed to: `contact` by whoever hears from us, the others by each who sits. */
export const PURPOSES = ['contact', 'record', 'archive', 'show'] as const;
export type Purpose = (typeof PURPOSES)[number];

/** Whatever has words of the owner, each version of which is kept. */
export const WORDED = [...PURPOSES, 'house_rules'] as const;
export type Worded = (typeof WORDED)[number];

const STANDARD_WORDS: Record<Worded, string> = {
  contact: 'The studio may write to me or ring me again after this sitting, about new series and open days.',
  record: 'The studio may keep my name with the record of my plate: its date, size and exposure.',
  archive:
    'The studio may give a plate of me, or a scan of it, to an archive or a museum, where others can see it.',
  show: 'The studio may show a plate of me, or a scan of it: in an exhibition, in print, on its own pages.',
  house_rules: '',
};

export interface Wording {
  purpose: Worded;
  version: number;
  words: string;
}

/** The words in force: the newest version of each, and the standard ones as the first where there is none. */
export function wordingsInForce(kept: readonly Wording[]): Record<Worded, Wording> {
  const newest = (purpose: Worded) =>
    kept
      .filter((one) => one.purpose === purpose)
      .reduce<Wording>((a, b) => (b.version > a.version ? b : a), {
        purpose,
        version: 1,
        words: STANDARD_WORDS[purpose],
      });
  return Object.fromEntries(WORDED.map((one) => [one, newest(one)])) as Record<Worded, Wording>;
}

export interface Consent {
  id: string;
  /** Null: of the contact. */
  sitterId: string | null;
  purpose: Purpose;
  version: number;
  /** The words that were agreed to. */
  words: string;
  givenAt: Temporal.Instant;
  /** On their own page, or told to the studio. */
  givenHow: 'page' | 'told';
  /** Who wrote it down; "contact" on their own page. */
  givenBy: string;
  withdrawnAt: Temporal.Instant | null;
  withdrawnBy: string;
}

/** One thing one person is asked. */
export interface ConsentLine {
  /** Null: the contact. */
  sitterId: string | null;
  name: string;
  purpose: Purpose;
  /** What is asked now; '' where the studio asks it no more. */
  wording: Wording;
  /** The yes that holds. */
  live: Consent | null;
  /** Those taken back, the latest first. */
  past: Consent[];
}

interface People {
  contact: { name: string };
  sitters: readonly { id: string; name: string }[];
}

/** What is asked of each, contact first; what has no words is left out unless somebody once agreed to it. */
export function consentLines(
  { contact, sitters }: People,
  wordings: Record<Worded, Wording>,
  consents: readonly Consent[],
): ConsentLine[] {
  const line = (sitterId: string | null, name: string, purpose: Purpose): ConsentLine => {
    const own = consents.filter((one) => one.sitterId === sitterId && one.purpose === purpose);
    return {
      sitterId,
      name,
      purpose,
      wording: wordings[purpose],
      live: own.find((one) => one.withdrawnAt === null) ?? null,
      past: own.filter((one) => one.withdrawnAt !== null),
    };
  };
  const all = [
    line(null, contact.name, 'contact'),
    ...sitters.flatMap(({ id, name }) =>
      PURPOSES.filter((one) => one !== 'contact').map((one) => line(id, name, one)),
    ),
  ];
  return all.filter((one) => one.wording.words !== '' || one.live !== null || one.past.length > 0);
}

const AFTER_THE_OFFER: readonly SittingState[] = ['offered', 'confirmed', 'made', 'came_no_plate'];

/** People are asked once a place is offered to them; what they have said can be seen and taken back at any time. */
export const asksConsent = (state: SittingState, lines: readonly ConsentLine[]): boolean =>
  AFTER_THE_OFFER.includes(state) || lines.some((one) => one.live !== null || one.past.length > 0);
