// What people agree to in words: for their own page, and for the desk, where a yes that was told is written down.
import { dayInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { Consent, ConsentLine } from './consents.calc.js';
import { PURPOSE_WORDS } from './words.calc.js';

/** Whose page it is. */
type At = 'own page' | 'desk';

const WORDS = {
  'own page': {
    title: 'What you agree to',
    lead: 'Each is by itself, and none is needed to sit. You can take any of them back here at any time. A parent or guardian answers for whoever is under 18.',
    yes: 'I agree',
    back: 'Take this back',
  },
  desk: {
    title: 'What they have agreed to',
    lead: 'Each can be told to you, and taken back, at any time.',
    yes: 'They said yes',
    back: 'They took it back',
  },
};

/** @param zone in which days are told */
export function consentsInWords(lines: readonly ConsentLine[], zone: string, at: At) {
  const { title, lead } = WORDS[at];
  const people = [...new Set(lines.map((one) => one.sitterId))].map((id) => {
    const own = lines.filter((one) => one.sitterId === id);
    const name = own[0]?.name ?? '';
    return {
      key: id ?? 'contact',
      name,
      heading: id === null ? `${name}, who hears from us` : name,
      asked: own.map((one) => askedInWords(one, zone, at)),
    };
  });
  return { title, lead, people };
}

function askedInWords({ sitterId, purpose, wording, live, past }: ConsentLine, zone: string, at: At) {
  const { yes, back } = WORDS[at];
  const earlier = past.map((one) => takenBackInWords(one, zone)).filter((one) => one !== '');
  const version = String(live?.version ?? wording.version);
  return {
    title: PURPOSE_WORDS[purpose],
    words: live ? live.words : wording.words,
    told: [live ? givenInWords(live, zone, at) : 'Not agreed to.', ...earlier].join(' '),
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

function givenInWords({ givenAt, givenHow, givenBy, version }: Consent, zone: string, at: At): string {
  const how = givenHow === 'page' ? 'on their own page' : `told to ${givenBy}`;
  const day = dayInWords(instantToWall(zone, givenAt));
  const where = at === 'own page' && givenHow === 'page' ? '' : ` ${how},`;
  return `Agreed to on ${day},${where} in version ${version} of these words.`;
}

function takenBackInWords({ givenAt, withdrawnAt, version }: Consent, zone: string): string {
  const on = (instant: typeof givenAt) => dayInWords(instantToWall(zone, instant));
  return withdrawnAt === null
    ? ''
    : `Version ${version} was agreed to on ${on(givenAt)} and taken back on ${on(withdrawnAt)}.`;
}
