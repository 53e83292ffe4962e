// Secret links. A token is derived from the server's key, the link's purpose, its row and its
// generation, so it can be shown again and a mail re-rendered, while the database holds only a hash.
import { createHash, createHmac } from 'node:crypto';

export type LinkPurpose = 'sign-in' | 'place' | 'feed' | 'invitation' | 'reminders';

/** 256 bits as 43 characters of base64url. A new generation makes a new token and ends the old. */
export function tokenOf(key: Buffer, purpose: LinkPurpose, linkId: string, generation: number): string {
  return derived(key, purpose, linkId, generation).toString('base64url');
}

/** 32 bytes that only the holder of the server's key can make again. */
export function derived(key: Buffer, purpose: string, id: string, generation: number): Buffer {
  return createHmac('sha256', key).update(`${purpose}\n${id}\n${generation}`).digest();
}

/** What the database keeps of a token. */
export function hashOf(token: string): Buffer {
  return createHash('sha256').update(token).digest();
}

/** Whether a string could be one of our tokens at all; anything else need not reach the database. */
export function looksLikeToken(text: string): boolean {
  return /^[A-Za-z0-9_-]{43}$/.test(text);
}
