// Words and consents as the database keeps them, and what the forms about them send.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import { type Consent, PURPOSES, WORDED } from './consents.calc.js';
import { longText } from './request.schemas.js';

const LONGEST_WORDS = 4000;

export const wordingRow = z.object({
  purpose: z.enum(WORDED),
  version: z.number(),
  words: z.string(),
  since: instant,
  who: z.string(),
});
export type KeptWording = z.output<typeof wordingRow>;

export const consentRow = z.object({
  consent_id: z.uuid(),
  sitter_id: z.uuid().nullable(),
  purpose: z.enum(PURPOSES),
  version: z.number(),
  words: z.string(),
  given_at: instant,
  given_how: z.enum(['page', 'told']),
  given_by: z.string(),
  withdrawn_at: instant.nullable(),
  withdrawn_by: z.string(),
});

export const saidRow = consentRow.pick({ purpose: true, withdrawn_at: true }).extend({ sitter_id: z.uuid() });

export function toConsent(row: z.output<typeof consentRow>): Consent {
  return {
    id: row.consent_id,
    sitterId: row.sitter_id,
    purpose: row.purpose,
    version: row.version,
    words: row.words,
    givenAt: row.given_at,
    givenHow: row.given_how,
    givenBy: row.given_by,
    withdrawnAt: row.withdrawn_at,
    withdrawnBy: row.withdrawn_by,
  };
}

const version = z.coerce.number().int().min(1);

/** A press on one line: whose it is ('' for the contact), what it is about, and the version that was read. */
export const consentForm = z.object({
  sitter: z.union([z.uuid(), z.literal('')]).transform((id) => (id === '' ? null : id)),
  purpose: z.enum(PURPOSES),
  version,
  answer: z.enum(['agree', 'withdraw']),
});
export type ConsentPress = z.output<typeof consentForm>;

/** New words; `version` is the one they were written over. */
export const wordsForm = z.object({
  purpose: z.enum(WORDED),
  version,
  words: longText(LONGEST_WORDS),
});
