// Details put right: the form's answers as they are checked, and what is different of them from before, in words.
import type { Contact, Sitter } from '../people/people.schemas.js';
import { LANGUAGE_NAMES } from '../words/languages.js';
import type { Answers } from './ask-form.calc.js';
import type { Corrections } from './corrections.schemas.js';
import type { Details, Sitting } from './sittings.schemas.js';

/** What is put right: facts of a view. */
export interface Before {
  contact: Contact;
  sitters: Sitter[];
  sitting: Pick<Sitting, 'details'>;
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

/** The form as it is first shown. What helps them is never shown back, since others may see the page. */
export function firstCorrections({ contact, sitters, sitting: { details } }: Before): Answers {
  return {
    name: contact.name,
    reachBy: contact.reachBy,
    email: contact.email,
    telephone: contact.telephone,
    postalAddress: contact.postalAddress,
    home: contact.home?.name ?? '',
    language: contact.language,
    brings: details.brings,
    'guardian/name': details.guardian?.name ?? '',
    'guardian/relation': details.guardian?.relation ?? '',
    'guardian/reach': details.guardian?.reach ?? '',
    ...Object.fromEntries(sitters.map((one, at) => [`sitters/${at}`, one.name])),
  };
}

/** Whether the home that was typed is the one that is known. */
export const homeUnchanged = (answers: Answers, { contact }: Before): boolean =>
  contact.home !== null && text(answers.home).trim() === contact.home.name;

/** What was sent, unchecked; the home's id has been found by then. */
export function toCorrections(answers: Answers, before: Before): Record<string, unknown> {
  const own = ['name', 'relation', 'reach'].map((one) => [one, text(answers[`guardian/${one}`])] as const);
  const asksGuardian = Object.hasOwn(answers, 'guardian/name');
  return {
    name: text(answers.name),
    reachBy: text(answers.reachBy),
    email: text(answers.email),
    telephone: text(answers.telephone),
    postalAddress: text(answers.postalAddress),
    sitters: before.sitters.map((_one, at) => text(answers[`sitters/${at}`])),
    homeId: homeUnchanged(answers, before) ? null : Number(text(answers.homeId)),
    ...(text(answers.language) === '' ? {} : { language: text(answers.language) }),
    brings: text(answers.brings),
    access: text(answers.access),
    accessGone: text(answers.accessGone) === 'yes',
    ...(asksGuardian
      ? { guardian: own.some(([, said]) => said.trim() !== '') ? Object.fromEntries(own) : null }
      : {}),
  };
}

/** The details as they stand then. */
export function correctedDetails(details: Details, said: Corrections): Details {
  const access = said.access === '' ? details.access : said.access;
  return {
    ...details,
    access: said.accessGone && said.access === '' ? '' : access,
    brings: said.brings,
    guardian: said.guardian === undefined ? details.guardian : said.guardian,
  };
}

const WAYS = { email: 'e-mail', telephone: 'telephone', letter: 'letter' };

interface Facts {
  contact: Omit<Contact, 'id'>;
  names: string[];
  details: Details;
}

/**
 * What is different, a phrase each: short things with before and after, long ones by their name only.
 * @returns an empty list where nothing is
 */
export function differences(before: Before, after: Facts): string[] {
  const { contact, sitters } = before;
  const { details } = before.sitting;
  const guardianOf = ({ guardian }: Details) =>
    guardian ? [guardian.name, guardian.relation, guardian.reach].filter(Boolean).join(', ') : '';
  const short: [what: string, was: string, is: string][] = [
    ['name', contact.name, after.contact.name],
    ['reach by', WAYS[contact.reachBy], WAYS[after.contact.reachBy]],
    ['e-mail', contact.email, after.contact.email],
    ['telephone', contact.telephone, after.contact.telephone],
    ['address', inOneLine(contact.postalAddress), inOneLine(after.contact.postalAddress)],
    ['letters in', LANGUAGE_NAMES[contact.language], LANGUAGE_NAMES[after.contact.language]],
    ['comes from', contact.home?.name ?? '', after.contact.home?.name ?? ''],
    ...sitters.map((one, at): [string, string, string] => ['sits', one.name, after.names[at] ?? '']),
    ['parent or guardian', guardianOf(details), guardianOf(after.details)],
  ];
  const long: [what: string, was: string, is: string][] = [
    ['what helps them here', details.access, after.details.access],
    ['what they bring', details.brings, after.details.brings],
  ];
  return [
    ...short
      .filter(([, was, is]) => was !== is)
      .map(([what, was, is]) => `${what}: ${orNone(was)} → ${orNone(is)}`),
    ...long.filter(([, was, is]) => was !== is).map(([what]) => what),
  ];
}

const inOneLine = (lines: string) => lines.split('\n').join(', ');
const orNone = (said: string) => (said === '' ? 'none' : said);
