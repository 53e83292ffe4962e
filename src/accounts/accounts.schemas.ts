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

export const linkRow = z.object({
  link_id: z.uuid(),
  purpose: z.enum(['sign-in', 'place', 'feed', 'reminders']),
  subject_id: z.uuid(),
  kind: z.string(),
  generation: z.number(),
  token_hash: bytes,
  expires_at: instant.nullable(),
  used_at: instant.nullable(),
  revoked_at: instant.nullable(),
  fetched_at: instant.nullable(),
});

export interface Link {
  id: string;
  purpose: z.output<typeof linkRow>['purpose'];
  subjectId: string;
  kind: string;
  generation: number;
  expiresAt: z.output<typeof linkRow>['expires_at'];
  usedAt: z.output<typeof linkRow>['used_at'];
  revokedAt: z.output<typeof linkRow>['revoked_at'];
  /** When a calendar last came for it, to the minute. */
  fetchedAt: z.output<typeof linkRow>['fetched_at'];
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

export const sessionAnswer = z.object({ token: z.string() });

export const signInLinkForm = z.object({ email: emailAddress });

export const newAccount = z.object({
  role: z.enum(['owner', 'assistant']),
  name: z.string().trim().min(1).max(120),
  email: emailAddress,
  password: z.string().min(8).max(500).optional(),
});
export type NewAccount = z.input<typeof newAccount>;
