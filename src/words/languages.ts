// The languages that letters are written in.
export const LANGUAGES = ['en', 'fr'] as const;
export type Language = (typeof LANGUAGES)[number];

/** Each in its own words. */
export const LANGUAGE_NAMES: Record<Language, string> = { en: 'English', fr: 'français' };

/** What the owner and assistants read. */
export const LANGUAGE_OF_DESK: Language = 'en';
