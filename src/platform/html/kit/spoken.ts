// The language a page is in: handed from the page down to every part of it. Without one it is the desk's.
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { LANGUAGE_OF_DESK, type Language } from '../../../words/languages.js';
import { type Words, wordsFor } from '../../../words/words-for.js';

export interface Spoken {
  language: Language;
  words: Words;
  /** The same page in the other languages, for its foot; none where it cannot be asked for again. */
  others: { language: Language; name: string; href: string }[];
}

export const DESK_SPOKEN: Spoken = {
  language: LANGUAGE_OF_DESK,
  words: wordsFor(LANGUAGE_OF_DESK),
  others: [],
};
export const SpokenContext = createContext<Spoken>(DESK_SPOKEN);

/** The words of the page's language. */
export const useWords = (): Words => useContext(SpokenContext).words;
