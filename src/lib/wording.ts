// Texts with named variables in braces: "Dear {name},". Two braces are one that is meant: "{{" and "}}". What stands in
// for a variable is never read again, so that a name may hold any braces it likes.

export type Piece = { text: string } | { variable: string } | { trouble: 'brace' | 'name'; at: string };

/** A variable that nothing is known for, or a brace that opens or closes nothing. */
export class WordingError extends Error {}

const PARTS = /\{\{|\}\}|\{([^{}]*)\}|[{}]|[^{}]+/g;
const NAME = /^[a-z][a-z_]{0,29}$/;

export function pieces(template: string): Piece[] {
  return [...template.matchAll(PARTS)].map(([all, name]): Piece => {
    if (name !== undefined)
      return NAME.test(name.trim()) ? { variable: name.trim() } : { trouble: 'name', at: all };
    if (all === '{{') return { text: '{' };
    if (all === '}}') return { text: '}' };
    return all === '{' || all === '}' ? { trouble: 'brace', at: all } : { text: all };
  });
}

/** Each once, in the order in which they come. */
export function variablesIn(template: string): string[] {
  return [...new Set(pieces(template).flatMap((piece) => ('variable' in piece ? [piece.variable] : [])))];
}

/** A text in which every brace is meant. */
export const literal = (text: string): string => text.replace(/[{}]/g, '$&$&');

/** @throws WordingError that names the variable for which there is no value, or the brace that stands alone */
export function fill(template: string, values: Readonly<Record<string, string>>): string {
  return pieces(template)
    .map((piece) => {
      if ('text' in piece) return piece.text;
      const wanted = 'variable' in piece ? `{${piece.variable}}` : piece.at;
      const value =
        'variable' in piece && Object.hasOwn(values, piece.variable) ? values[piece.variable] : undefined;
      if (value === undefined) throw new WordingError(`Nothing stands in for ${wanted}.`);
      return value;
    })
    .join('');
}
