// What the calculator says of its figures, in its page and through its API alike.
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import { SOLUTION_KINDS, type UsePerArea } from './use-per-area.calc.js';

const { chemistry } = wordsFor(LANGUAGE_OF_DESK);
/** How an estimate is reckoned, one sentence a line; for the API and the desk. */
export const RECKONING: readonly string[] = chemistry.reckoning;

/** Stands beside every estimate. */
export const CAUTION = chemistry.caution;

/** Where each figure of use is from. */
export function sourcesOf({ solutions, silverNitrate, silverPerMlCollodion }: UsePerArea) {
  return [
    ...SOLUTION_KINDS.map((of) => ({ of, source: solutions[of].source })),
    { of: 'silver nitrate' as const, source: silverNitrate.source },
    { of: 'silver nitrate in the film' as const, source: silverPerMlCollodion.source },
  ];
}
