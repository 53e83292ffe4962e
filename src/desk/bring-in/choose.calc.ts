// What the person chose of how a draft is read. Pure.
import { SEPARATORS } from '../../lib/csv-read.js';
import type { Draft } from './bring-in.schemas.js';
import { COLUMNS, NOTHING } from './columns.calc.js';
import { type Choices, firstChoices } from './reading.calc.js';

/** Another separator makes other columns, which are guessed anew. What was not sent stays as it was. */
export function chosen({ what, source, choices }: Draft, answers: Record<string, unknown>): Choices {
  const separator = SEPARATORS.find((one) => one === answers.separator) ?? choices.separator;
  if (separator !== choices.separator) return firstChoices(what, source, choices.order, separator);
  const columns = Array.from({ length: 40 }, (_, at) => answers[`column-${at + 1}`] ?? choices.columns[at]);
  const known = (key: unknown) => (typeof key === 'string' && key in COLUMNS[what] ? key : NOTHING);
  return {
    separator,
    headings: answers.headings === 'yes',
    columns: columns.map(known),
    order: answers.order === 'month first' ? 'month first' : 'day first',
    leave: [answers.leave ?? []]
      .flat()
      .map(Number)
      .filter((line) => Number.isSafeInteger(line) && line > 0),
  };
}
