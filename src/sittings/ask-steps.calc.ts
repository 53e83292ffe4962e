// The steps in which a sitting is asked for, and which field of the form belongs to which.
import type { Answers } from './ask-form.calc.js';

export const STEPS = ['you', 'people', 'days', 'more'] as const;
export type Step = (typeof STEPS)[number];

const FIELDS: Record<Step, RegExp> = {
  you: /^(name|reachBy|email|telephone|postalAddress)$/,
  people: /^(kindId|minor|(sitters|bands)(\/\d+)?|guardian(\/(name|relation|reach))?|plates(\/.*)?)$/,
  days: /^(home|homeId|suits(\/(kind|days|from|until)(-day|-month|-year)?)?)$/,
  more: /^(hopes|access|brings|anything|voucher)$/,
};

/** The step where a field is asked; null for what is no field of the form. */
export const stepOf = (field: string): Step | null => STEPS.find((step) => FIELDS[step].test(field)) ?? null;

/** Where a step leads: the next one, and at last the page where all is looked over. */
export const afterStep = (step: Step): Step | 'check' => STEPS[STEPS.indexOf(step) + 1] ?? 'check';

/** Where a step is gone back from; null at the first. */
export const beforeStep = (step: Step): Step | null => STEPS[STEPS.indexOf(step) - 1] ?? null;

const isTyped = (value: unknown): boolean =>
  typeof value === 'string' || (Array.isArray(value) && value.every((one) => typeof one === 'string'));

/**
 * The answers with those of one step as they were just sent: a box that was unticked is not sent, so all of the step
 * is replaced. What no form of ours sends is dropped: fields of no step, and what is neither text nor list of texts.
 */
export function withStep(answers: Answers, step: Step, sent: Answers): Answers {
  const others = Object.entries(answers).filter(([name]) => stepOf(name) !== step);
  const own = Object.entries(sent).filter(([name, value]) => stepOf(name) === step && isTyped(value));
  return Object.fromEntries([...others, ...own]);
}
