// One-time codes of an authenticator: six digits that change every 30 seconds (RFC 6238 with HMAC-SHA-1, which is what
// every authenticator knows). Pure.
import { Secret, TOTP } from 'otpauth';

const PERIOD_SECONDS = 30;
/** So many steps a clock may be wrong either way: RFC 6238, 5.2 recommends at most one. */
const WINDOW = 1;
/** RFC 4226, 4 R6: at least 128 bits, 160 recommended. */
export const SECRET_BYTES = 20;

const codes = (secret: Uint8Array, o: { issuer?: string; label?: string } = {}) =>
  new TOTP({
    ...o,
    secret: new Secret({ buffer: Uint8Array.from(secret).buffer }),
    algorithm: 'SHA1',
    digits: 6,
    period: PERIOD_SECONDS,
  });

/**
 * The time step whose code this is, or null. The caller keeps the step and takes none a second time.
 * @param typed as it was typed: spaces do not count
 * @param atMs milliseconds since 1970
 */
export function stepOfCode(secret: Uint8Array, typed: string, atMs: number): number | null {
  const token = typed.replace(/\s/g, '');
  if (!/^\d{6}$/.test(token)) return null;
  const delta = codes(secret).validate({ token, timestamp: atMs, window: WINDOW });
  return delta === null ? null : Math.floor(atMs / 1000 / PERIOD_SECONDS) + delta;
}

/** The code of an instant, as an authenticator shows it. */
export const codeAt = (secret: Uint8Array, atMs: number): string =>
  codes(secret).generate({ timestamp: atMs });

/** What an authenticator takes: the address to scan, and the secret to type in groups of four. */
export function forAuthenticator(
  secret: Uint8Array,
  studioName: string,
  email: string,
): { uri: string; typed: string } {
  const one = codes(secret, { issuer: studioName.replaceAll(':', ' '), label: email });
  return { uri: one.toString(), typed: (one.secret.base32.match(/.{1,4}/g) ?? []).join(' ') };
}

const ALPHABET = 'ABCDEFGHJKLMNPQRSTUVWXYZ23456789';
export const RECOVERY_CODES = 8;
/** 24 letters and figures of 32: 120 bits, so that a plain hash is enough to keep (over 112 bits). */
export const RECOVERY_BYTES = 24;

/** "ABCD-EFGH-..." of 24 bytes by chance; each byte gives one of 32 letters and figures, none of them alike. */
export function recoveryCode(bytes: Uint8Array): string {
  const letters = [...bytes].map((byte) => ALPHABET[byte % ALPHABET.length]).join('');
  return (letters.match(/.{4}/g) ?? []).join('-');
}

/** As it is kept, from whatever way it was typed; null for what cannot be one. */
export function recoveryCodeTyped(typed: string): string | null {
  const letters = typed.toUpperCase().replace(/[\s-]/g, '');
  return new RegExp(`^[${ALPHABET}]{${RECOVERY_BYTES}}$`).test(letters)
    ? (letters.match(/.{4}/g) ?? []).join('-')
    : null;
}
