// The answers of the form in words, step by step, as they are looked over before they are sent.
import type { Answers, toRequest } from './ask-form.calc.js';
import { type Step, STEPS, stepOf } from './ask-steps.calc.js';
import { sittingRequest } from './request.schemas.js';
import { type Words, wordsFor } from '../words/words-for.js';
import { daysInWords } from './words.calc.js';

export interface Told {
  step: Step;
  facts: { term: string; detail: string }[];
  /** What is wrong or missing of this step. */
  problems: { field: string; message: string }[];
}

interface Offered {
  sizes: readonly { id: string; name: string }[];
  kinds: readonly { id: string; name: string; fee: string }[];
}

type Request = ReturnType<typeof toRequest>;

/** @param problems of the whole form, at its fields */
export function toldOf(
  answers: Answers,
  request: Request,
  { sizes, kinds }: Offered,
  problems: { field: string; message: string }[],
  words: Words = wordsFor('en'),
): Told[] {
  const { check, steps, you, plates } = words.asking;
  const facts: Record<Step, [term: string, detail: string][]> = {
    you: [
      [you.name, request.name.trim()],
      [check.reached, (check.ways as Record<string, string>)[request.reachBy] ?? ''],
      ...optional([
        [you.email, request.email],
        [you.telephone, request.telephone],
        [you.post, request.postalAddress],
      ]),
    ],
    people: [
      ...(kinds.length > 1
        ? [[check.kind, (kinds.find((one) => one.id === request.kindId) ?? kinds[0])?.name ?? ''] as const]
        : []
      ).map(([term, detail]): [string, string] => [term, detail]),
      [steps.people, request.sitters.map((name, at) => withAge(name, request.bands[at], words)).join(', ')],
      [plates.title, platesInWords(request, sizes, words)],
      ...optional([[check.guardian, guardianInWords(request)]]),
    ],
    days: [
      [check.from, typeof answers.home === 'string' ? answers.home : ''],
      [check.days, suitsInWords(request, words)],
    ],
    more: optional([
      [check.hopes, request.hopes],
      [check.access, request.access],
      [check.brings, request.brings],
      [check.anything, request.anything],
      [check.voucher, request.voucher],
    ]),
  };
  return STEPS.map((step) => ({
    step,
    facts: facts[step].map(([term, detail]) => ({
      term,
      detail: detail.trim() === '' ? check.notSaid : detail,
    })),
    problems: problems.filter(({ field }) => (stepOf(field) ?? 'more') === step),
  }));
}

const optional = (all: [term: string, detail: string][]) => all.filter(([, detail]) => detail.trim() !== '');

function withAge(name: string, band: string | undefined, { asking }: Words): string {
  const age = (asking.people.ages as Record<string, string | undefined>)[band ?? ''];
  const shown = name.trim() === '' ? asking.check.noName : name.trim();
  return band === 'adult' || age === undefined ? shown : `${shown} (${age.toLowerCase()})`;
}

function platesInWords({ plates, sitters }: Request, sizes: Offered['sizes'], { asking }: Words): string {
  const one = ({ plateSizeId, sitters: on }: Request['plates'][number]) => {
    const size = sizes.find(({ id }) => id === plateSizeId)?.name ?? asking.check.noSize;
    const names = on.map((at) => sitters[at] ?? '').filter((name) => name.trim() !== '');
    return `${size}: ${names.length === 0 ? asking.check.notSaid : names.join(', ')}`;
  };
  return plates.map(one).join('; ');
}

function guardianInWords({ guardian }: Request): string {
  if (!guardian) return '';
  const { name, relation, reach } = guardian;
  return [name, relation, reach].filter((one) => one !== undefined && one.trim() !== '').join(', ');
}

function suitsInWords({ suits }: Request, words: Words): string {
  const read = sittingRequest.shape.suits.safeParse(suits);
  return read.success ? daysInWords(read.data, words) : '';
}
