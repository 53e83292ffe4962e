// What people agree to in words: for their own page, and for the desk, where a yes that was told is written down.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import type { Consent, ConsentLine } from './consents.calc.js';
import { type Words, wordsFor } from '../words/words-for.js';

const AT_DESK = {
  title: 'What they have agreed to',
  lead: 'Each can be told to you, and taken back, at any time.',
  yes: 'They said yes',
  back: 'They took it back',
  givenOnPage: (day: string, version: number) =>
    `Agreed to on ${day}, on their own page, in version ${version} of these words.`,
};

/** @param zone in which days are told */
export function consentsInWords(lines: readonly ConsentLine[], zone: string, words: Words | 'desk') {
  const told = words === 'desk' ? wordsFor('en') : words;
  const { title, lead, yes, back } = words === 'desk' ? AT_DESK : told.agreeing;
  const people = [...new Set(lines.map((one) => one.sitterId))].map((id) => {
    const own = lines.filter((one) => one.sitterId === id);
    const name = own[0]?.name ?? '';
    return {
      key: id ?? 'contact',
      name,
      heading: id === null ? told.agreeing.whoHears(name) : name,
      asked: own.map((one) => askedInWords(one, zone, told, { yes, back, desk: words === 'desk' })),
    };
  });
  return { title, lead, people };
}

interface Buttons {
  yes: string;
  back: string;
  /** There it is told who wrote a yes down, or that it came by their own page. */
  desk: boolean;
}

function askedInWords(
  { sitterId, purpose, wording, live, past }: ConsentLine,
  zone: string,
  words: Words,
  { yes, back, desk }: Buttons,
) {
  const earlier = past.map((one) => takenBackInWords(one, zone, words)).filter((one) => one !== '');
  const version = String(live?.version ?? wording.version);
  return {
    title: words.agreeing.purposes[purpose],
    words: live ? live.words : wording.words,
    told: [live ? givenInWords(live, zone, words, desk) : words.agreeing.notYet, ...earlier].join(' '),
    press:
      live || wording.words !== ''
        ? {
            button: live ? back : yes,
            value: live ? 'withdraw' : 'agree',
            fields: { sitter: sitterId ?? '', purpose, version },
          }
        : null,
  };
}

const dayIn = (zone: string, instant: Temporal.Instant, { dates }: Words) =>
  dates.day(instantToWall(zone, instant));

function givenInWords(consent: Consent, zone: string, words: Words, desk: boolean): string {
  const { givenHow, givenBy, version } = consent;
  const day = dayIn(zone, consent.givenAt, words);
  if (givenHow === 'told') return words.agreeing.givenTo(day, version, givenBy);
  return desk ? AT_DESK.givenOnPage(day, version) : words.agreeing.given(day, version);
}

function takenBackInWords({ givenAt, withdrawnAt, version }: Consent, zone: string, words: Words): string {
  if (withdrawnAt === null) return '';
  return words.agreeing.takenBack(version, dayIn(zone, givenAt, words), dayIn(zone, withdrawnAt, words));
}
