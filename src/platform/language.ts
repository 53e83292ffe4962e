// The language of whoever comes: chosen by a link and remembered, else as their browser asks. The cookie holds nothing
// but the choice, and is set for nobody who did not choose.
import type { FastifyReply, FastifyRequest } from 'fastify';
import { isLanguage, likedLanguage } from '../words/asked-language.js';
import { LANGUAGE_NAMES, LANGUAGES, type Language } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import type { Config } from './config.js';
import type { Spoken } from './html/kit/spoken.js';
import { cookieName, cookieOptions } from './security/forms.js';

const YEAR_IN_SECONDS = 365 * 24 * 3600;

/** Also tells whoever keeps copies what the answer depends on. */
export function spokenTo(config: Config, request: FastifyRequest, reply: FastifyReply): Spoken {
  const name = cookieName(config, 'plateday-language');
  const chosen = (request.query as Record<string, unknown> | undefined)?.lang;
  if (isLanguage(chosen) && request.cookies[name] !== chosen)
    reply.setCookie(name, chosen, { ...cookieOptions(config), maxAge: YEAR_IN_SECONDS });
  const kept = request.cookies[name];
  const language = [chosen, kept].find(isLanguage) ?? likedLanguage(request.headers['accept-language']);
  reply.header('content-language', language).header('vary', 'Accept-Language, Cookie');
  const others = request.method === 'GET' ? LANGUAGES.filter((one) => one !== language) : [];
  return {
    language,
    words: wordsFor(language),
    others: others.map((other) => ({
      language: other,
      name: LANGUAGE_NAMES[other],
      href: addressIn(request.url, other),
    })),
  };
}

/** The same address with the language asked for; starts with "?", so that it never leads elsewhere. */
function addressIn(url: string, language: Language): string {
  const asked = new URLSearchParams(url.split('?')[1] ?? '');
  asked.set('lang', language);
  return `?${asked.toString()}`;
}
