// The people who run a studio, their sessions, and the secret links everyone else holds.
import { z } from 'zod';
import { bytes, instant } from '../platform/db/row.js';

/** How long a mailed sign-in link works. */
export const SIGN_IN_LINK_MINUTES = 10;

export const accountRow = z.object({
  account_id: z.uuid(),
  role: z.enum(['owner', 'assistant']),
  name: z.string(),
  email: z.string(),
});
export type Role = z.output<typeof accountRow>['role'];

export interface Account {
  id: string;
  role: Role;
  name: string;
  email: string;
}

export const toAccount = (row: z.output<typeof accountRow>): Account => ({
  id: row.account_id,
  role: row.role,
  name: row.name,
  email: row.email,
});

/** What came for a feed, as far as it says so itself. */
export const CLIENTS = ['phone', 'computer', 'service', 'browser', 'other'] as const;
export type Client = (typeof CLIENTS)[number];

/** Of a feed that its owner tells from another of the same kind. */
export const LONGEST_FEED_NAME = 60;

export const linkRow = z.object({
  link_id: z.uuid(),
  purpose: z.enum(['sign-in', 'place', 'feed', 'invitation', 'reminders']),
  subject_id: z.uuid(),
  kind: z.string(),
  name: z.string(),
  generation: z.number(),
  token_hash: bytes,
  expires_at: instant.nullable(),
  used_at: instant.nullable(),
  revoked_at: instant.nullable(),
  fetched_at: instant.nullable(),
  fetched_by: z.enum(['', ...CLIENTS]),
});

export interface Link {
  id: string;
  purpose: z.output<typeof linkRow>['purpose'];
  subjectId: string;
  kind: string;
  /** Tells feeds of one kind apart; '' for the first. */
  name: string;
  generation: number;
  expiresAt: z.output<typeof linkRow>['expires_at'];
  usedAt: z.output<typeof linkRow>['used_at'];
  revokedAt: z.output<typeof linkRow>['revoked_at'];
  /** When a calendar last came for it, to the minute. */
  fetchedAt: z.output<typeof linkRow>['fetched_at'];
  /** What came; '' before anything did. */
  fetchedBy: z.output<typeof linkRow>['fetched_by'];
}

const emailAddress = z
  .string()
  .trim()
  .toLowerCase()
  .max(254, 'An e-mail address has at most 254 characters.')
  .pipe(z.email('Please give an e-mail address like name@example.org.'));

export const signInForm = z.object({
  email: emailAddress,
  password: z
    .string()
    .min(1, 'Please type your password.')
    .max(500, 'A password has at most 500 characters.'),
});

/** With the code of an authenticator where the account asks for one. */
export const apiSignIn = signInForm.extend({ code: z.string().max(60).optional() });

export const codeForm = z.object({
  code: z.string().trim().min(1, 'Please type the code.').max(60, 'A code is shorter than that.'),
});

const anyPassword = z.string().max(500, 'A password has at most 500 characters.');

/** Of somebody who is signed in, where they change how to come in. */
export const turnOnForm = codeForm.extend({ password: anyPassword.default('') });

/** The rules of a new password stand in passwords.calc.ts. */
export const passwordForm = z.object({ current: anyPassword.default(''), next: anyPassword });

export const endSessionForm = z.object({ session: z.uuid() });

const personName = z
  .string()
  .trim()
  .min(1, 'Please give a name.')
  .max(120, 'A name has at most 120 characters.');

export const invitationForm = z.object({ name: personName, email: emailAddress });
export const joinForm = z.object({ name: personName, password: anyPassword });

export const sessionAnswer = z.object({ token: z.string() });

export const signInLinkForm = z.object({ email: emailAddress });

export const newAccount = z.object({
  role: z.enum(['owner', 'assistant']),
  name: z.string().trim().min(1).max(120),
  email: emailAddress,
  password: z.string().min(8).max(500).optional(),
});
export type NewAccount = z.input<typeof newAccount>;
