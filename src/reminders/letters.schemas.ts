// What a letter is made of, fixed when it is put in the outbox, so that a second attempt is the same letter.
// It holds references to links, never the links themselves.
import { z } from 'zod';
import { JOBS } from '../platform/jobs/registry.js';
import { LANGUAGES, type Language } from '../words/languages.js';
import { ownWording } from './own-wording.schemas.js';
import { TELLS } from './reminder-rules.schemas.js';

const place = z.object({
  uid: z.uuid(),
  sequence: z.number(),
  zone: z.string(),
  wallStart: z.string(),
  wallEnd: z.string(),
  startsAt: z.string(),
  endsAt: z.string(),
  revisedAt: z.string(),
  createdAt: z.string(),
});
export type LetterPlace = z.output<typeof place>;

export const letterStudio = z.object({
  slug: z.string(),
  name: z.string(),
  address: z.string(),
  email: z.string(),
  telephone: z.string(),
  lat: z.number(),
  lon: z.number(),
});

const suits = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('any'), from: z.string(), until: z.string() }),
  z.object({ kind: z.literal('these'), days: z.array(z.string()) }),
]);

export const sittingLetter = z.object({
  studio: letterStudio,
  contactName: z.string(),
  sitters: z.array(z.string()),
  plates: z.array(z.string()),
  days: z.string(),
  message: z.string(),
  /** For a contact without e-mail: how the studio is to pass the letter on; else empty. */
  passOn: z.string(),
  place: place.nullable(),
  /** Until when an offer is open, as an instant; null where nothing is offered. */
  openUntil: z.string().nullable().default(null),
  /** The wall time of a place before it was moved; null where it was not. */
  was: z.string().nullable().default(null),
  /** When they leave home at the latest, and the zone they leave from; null where it is not known. */
  leaveBy: z.string().nullable().default(null),
  homeZone: z.string().nullable().default(null),
  /** The days themselves; absent in letters from before they were kept. */
  suits: suits.optional(),
  /** What they read; the desk's own where nothing is said. */
  language: z.enum(LANGUAGES).optional(),
  /** For a return place owed to them: the day on which they first asked; else null. */
  owedSince: z.string().nullable().default(null),
  /** The owner's own words for it, as they were when it was written; for another kind they do not count. */
  wording: ownWording.optional(),
  linkId: z.uuid(),
});
export type SittingLetter = z.output<typeof sittingLetter>;

/** Of a teaching day somebody has a place on; see reminding.service.ts. */
const TEACHING_REMINDERS = [
  'reminder: travel',
  'reminder: week',
  'reminder: near',
  'reminder: eve',
  'reminder: day',
] as const;

const openPoint = z.object({
  tells: z.enum(TELLS),
  /** The students it is about; none where it is about all that come. */
  names: z.array(z.string()),
  what: z.string(),
});
/** What is still open before a teaching day. */
export type OpenPoint = z.output<typeof openPoint>;

export const teachingLetter = z.object({
  studio: letterStudio,
  contactName: z.string(),
  change: z.enum([...JOBS['teaching.changed'].shape.change.options, ...TEACHING_REMINDERS]),
  course: z.string(),
  students: z.array(z.string()),
  place: place.nullable(),
  /** They have, or had, a place: only then is it in their calendar. */
  hadPlace: z.boolean().default(false),
  parts: z.array(z.object({ at: z.string(), title: z.string(), where: z.string() })).default([]),
  wantedOn: z.string().nullable(),
  message: z.string(),
  passOn: z.string(),
  /** Of a letter to the owner: how they hear of it; absent in letters from before it was kept. */
  hears: z.enum(['by mail', 'by telephone', 'by letter', 'told already']).optional(),
  openUntil: z.string().nullable(),
  bring: z.string(),
  wear: z.string(),
  /** Of a reminder: what is still open, when they leave home at the latest, and the zone they leave from. */
  open: z.array(openPoint).default([]),
  leaveBy: z.string().nullable().default(null),
  homeZone: z.string().nullable().default(null),
  language: z.enum(LANGUAGES).optional(),
  wording: ownWording.optional(),
  linkId: z.uuid(),
});
export type TeachingLetter = z.output<typeof teachingLetter>;
export type TeachingReminder = (typeof TEACHING_REMINDERS)[number];
export const isTeachingReminder = (change: TeachingLetter['change']): change is TeachingReminder =>
  change.startsWith('reminder: ');

export const signInLetter = z.object({ studio: letterStudio, name: z.string(), linkId: z.uuid() });
export type SignInLetter = z.output<typeof signInLetter>;

/** How a letter reaches somebody without e-mail; '' for one that goes by mail. */
export const BY_HAND = ['', 'telephone', 'letter'] as const;
export type ByHand = (typeof BY_HAND)[number];

export const LETTER_KINDS = [
  'asked',
  'waiting',
  'offered',
  'refused',
  'lapsed',
  'run out',
  'called back',
  'called off',
  'called off for good',
  'moved',
  'another day',
  'confirmed',
  'declined',
  'withdrawn',
  'released',
  'reminder: travel',
  'reminder: week',
  'reminder: near',
  'reminder: eve',
  'reminder: day',
  'owner: asked',
  'owner: given up',
  'owner: to telephone',
  'owner: not taken',
  'sign-in',
  'teaching',
  'teaching reminder: travel',
  'teaching reminder: week',
  'teaching reminder: near',
  'teaching reminder: eve',
  'teaching reminder: day',
  'owner: teaching',
  'owner: day',
] as const;
export type LetterKind = (typeof LETTER_KINDS)[number];
/** Letters about teaching. */
export type TeachingKind = Extract<LetterKind, `teaching${string}` | 'owner: teaching'>;
/** Letters about a sitting. */
export type SittingKind = Exclude<LetterKind, 'sign-in' | 'owner: day' | TeachingKind>;
export type OwnerKind = Extract<SittingKind, `owner: ${string}`>;
/** To whoever asked. */
export type TheirKind = Exclude<SittingKind, OwnerKind>;
export const isToOwner = (kind: SittingKind): kind is OwnerKind => kind.startsWith('owner: ');
/** Of a place somebody has, before the day; see reminding.service.ts. */
export type ReminderLetter = Extract<LetterKind, `reminder: ${string}`>;
export const isReminder = (kind: LetterKind): kind is ReminderLetter => kind.startsWith('reminder: ');
export const isAboutTeaching = (kind: LetterKind): kind is TeachingKind =>
  isToStudents(kind) || kind === 'owner: teaching';
/** To whoever signed up. */
export const isToStudents = (kind: LetterKind): kind is Exclude<TeachingKind, 'owner: teaching'> =>
  kind.startsWith('teaching');
export const isAboutSitting = (kind: LetterKind): kind is SittingKind =>
  kind !== 'sign-in' && kind !== 'owner: day' && !isAboutTeaching(kind);

/** What the history says a letter is about; nothing is recorded of links to sign in. */
export function aboutKindOf(kind: Exclude<LetterKind, 'sign-in'>): string {
  if (kind === 'owner: day') return 'day letter';
  return isAboutTeaching(kind) ? 'sign-up' : 'sitting';
}

/** A letter in words: the same for the plain text and the HTML part. */
export interface Letter {
  language: Language;
  subject: string;
  greeting: string;
  paragraphs: string[];
  facts: { term: string; detail: string }[];
  action: { label: string; url: string } | null;
  closing: string;
}
