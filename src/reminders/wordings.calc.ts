// What can be put in for a variable in each kind of letter, what is wrong with an owner's words, and ours beside them. Pure.
import { pieces } from '../lib/wording.js';
import type { Language } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import type { Wording } from './letter-parts.calc.js';
import { sittingLetterIn } from './letters.calc.js';
import type { Letter, SittingLetter, TeachingLetter, TheirKind } from './letters.schemas.js';
import { sittingWording } from './sitting-words.calc.js';
import { teachingLetterIn, teachingWording } from './teaching-letters.calc.js';
import type { OwnWording, WordedKind } from './wordings.schemas.js';

const ALWAYS = {
  name: 'who the letter goes to',
  studio: 'the name of your studio',
  ring: 'your telephone number, or your e-mail address where you have given none',
};
const OF_A_PLACE = {
  place: 'day and time, as in “Friday 5 March 2027, 09:30”',
  day: 'the day alone',
  time: 'the time alone',
};
const UNTIL = { until: 'until when the place is held for them, on your clock' };

const WITH_PLACE = /lapsed|called|moved|confirmed|released|signed|changed|reminder|offered/;

/** The variables of a kind, each with what is put in for it. */
export function variablesOf(kind: WordedKind): Record<string, string> {
  const teaching = kind.startsWith('teaching: ');
  return {
    ...ALWAYS,
    ...(teaching ? { course: 'what is taught' } : {}),
    ...(WITH_PLACE.test(kind) ? OF_A_PLACE : {}),
    ...(kind.endsWith('offered') ? UNTIL : {}),
    ...(kind === 'moved' ? { was: 'day and time before it was moved' } : {}),
    ...(kind === 'owed' ? { since: 'the day on which they first asked' } : {}),
    ...(kind === 'teaching: reminder: near'
      ? { bring: 'what is to be brought', wear: 'what is to be worn' }
      : {}),
  };
}

/** What is wrong with an owner's words, each with the words it is about. */
export function problemsOf(
  kind: WordedKind,
  form: { subject: string; body: string },
): { field: string; message: string }[] {
  const known = variablesOf(kind);
  return (['subject', 'body'] as const).flatMap((field) => {
    const wrong = pieces(form[field]).flatMap((piece) => {
      if ('trouble' in piece)
        return piece.trouble === 'brace'
          ? [`There is a brace “${piece.at}” that belongs to nothing. Write it twice where you mean a brace.`]
          : [`“${piece.at}” is nothing we can put in. Please use one of the names beside this form.`];
      return 'variable' in piece && !Object.hasOwn(known, piece.variable)
        ? [`“{${piece.variable}}” is not known in this letter. Please use one of the names beside this form.`]
        : [];
    });
    return wrong[0] === undefined ? [] : [{ field, message: wrong[0] }];
  });
}

export type Example = { about: SittingLetter; kind: TheirKind } | { about: TeachingLetter; kind: 'teaching' };

/** Our words for a kind as the owner sees them: what goes by mail, with the variables in braces. */
export function ourWording({ about, kind }: Example, language: Language): { subject: string; body: string } {
  const words = wordsFor(language);
  const mailed = { ...about, passOn: '', message: '' };
  const { subject, parts }: Wording =
    kind === 'teaching'
      ? teachingWording(mailed as TeachingLetter, words)
      : sittingWording(kind, mailed as SittingLetter, words);
  return { subject, body: parts.filter((part) => typeof part === 'string').join('\n\n') };
}

/** How a letter reads with an owner's words, or ours. */
export function letterWith(
  { about, kind }: Example,
  language: Language,
  own: OwnWording | null,
  url: string,
): Letter {
  const told = { ...about, language, passOn: '', wording: own ?? undefined };
  return kind === 'teaching'
    ? teachingLetterIn(told as TeachingLetter, url, false)
    : sittingLetterIn(kind, told as SittingLetter, url);
}

/** Whose words a letter is to have, by what it tells; null for letters that have none but ours. */
export function wordedAs(kind: string, snapshot: unknown): WordedKind | null {
  const { owedSince, change } = snapshot as { owedSince?: string | null; change?: TeachingLetter['change'] };
  if (change !== undefined) return `teaching: ${change}`;
  if (kind.startsWith('owner: ') || kind === 'sign-in') return null;
  return kind === 'waiting' && typeof owedSince === 'string' ? 'owed' : (kind as TheirKind);
}
