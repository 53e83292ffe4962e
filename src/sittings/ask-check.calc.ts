// The answers of the form in words, step by step, as they are looked over before they are sent.
import { AGES } from '../people/words.calc.js';
import type { Answers, toRequest } from './ask-form.calc.js';
import { type Step, STEPS, stepOf } from './ask-steps.calc.js';
import { sittingRequest } from './request.schemas.js';
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

const NOT_SAID = 'not said';
const WAYS: Record<string, string> = { email: 'by e-mail', telephone: 'by telephone', letter: 'by letter' };

/** @param problems of the whole form, at its fields */
export function toldOf(
  answers: Answers,
  request: Request,
  { sizes, kinds }: Offered,
  problems: { field: string; message: string }[],
): Told[] {
  const facts: Record<Step, [term: string, detail: string][]> = {
    you: [
      ['Your name', request.name.trim()],
      ['We reach you', WAYS[request.reachBy] ?? ''],
      ...optional([
        ['E-mail address', request.email],
        ['Telephone', request.telephone],
        ['Postal address', request.postalAddress],
      ]),
    ],
    people: [
      ...(kinds.length > 1
        ? [
            [
              'Kind of sitting',
              (kinds.find((one) => one.id === request.kindId) ?? kinds[0])?.name ?? '',
            ] as const,
          ]
        : []
      ).map(([term, detail]): [string, string] => [term, detail]),
      ['Who sits', request.sitters.map((name, at) => withAge(name, request.bands[at])).join(', ')],
      ['Plates', platesInWords(request, sizes)],
      ...optional([['Parent or guardian', guardianInWords(request)]]),
    ],
    days: [
      ['You travel from', typeof answers.home === 'string' ? answers.home : ''],
      ['Days that suit', suitsInWords(request)],
    ],
    more: optional([
      ['You hope for', request.hopes],
      ['What would help you', request.access],
      ['You bring', request.brings],
      ['To know', request.anything],
      ['Gift voucher', request.voucher],
    ]),
  };
  return STEPS.map((step) => ({
    step,
    facts: facts[step].map(([term, detail]) => ({ term, detail: detail.trim() === '' ? NOT_SAID : detail })),
    problems: problems.filter(({ field }) => (stepOf(field) ?? 'more') === step),
  }));
}

const optional = (all: [term: string, detail: string][]) => all.filter(([, detail]) => detail.trim() !== '');

function withAge(name: string, band: string | undefined): string {
  const age = AGES.find((one) => one.value === band)?.label;
  const shown = name.trim() === '' ? 'somebody without a name' : name.trim();
  return band === 'adult' || age === undefined ? shown : `${shown} (${age.toLowerCase()})`;
}

function platesInWords({ plates, sitters }: Request, sizes: Offered['sizes']): string {
  const one = ({ plateSizeId, sitters: on }: Request['plates'][number]) => {
    const size = sizes.find(({ id }) => id === plateSizeId)?.name ?? 'a size not chosen yet';
    const names = on.map((at) => sitters[at] ?? '').filter((name) => name.trim() !== '');
    return `${size}: ${names.length === 0 ? NOT_SAID : names.join(', ')}`;
  };
  return plates.map(one).join('; ');
}

function guardianInWords({ guardian }: Request): string {
  if (!guardian) return '';
  const { name, relation, reach } = guardian;
  return [name, relation, reach].filter((one) => one !== undefined && one.trim() !== '').join(', ');
}

function suitsInWords({ suits }: Request): string {
  const read = sittingRequest.shape.suits.safeParse(suits);
  return read.success ? daysInWords(read.data) : '';
}
