// Keeps a secret that we have to say again ourselves, such as an address somebody gave us: sealed with the server's key
// (AES-256-GCM), so that a dump of the database does not hold it. It opens only for the row it was sealed for.
import { createCipheriv, createDecipheriv, hkdfSync } from 'node:crypto';
import type { Random } from '../clock.js';

const [NONCE, TAG] = [12, 16];

/** @param about which row it belongs to */
export function seal(key: Buffer, random: Random, about: string, text: string): Buffer {
  const nonce = random.bytes(NONCE);
  const cipher = createCipheriv('aes-256-gcm', sealingKey(key), nonce).setAAD(Buffer.from(about));
  const sealed = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), sealed]);
}

/** Null where the key is another, or the row. */
export function unseal(key: Buffer, about: string, sealed: Buffer): string | null {
  try {
    const decipher = createDecipheriv('aes-256-gcm', sealingKey(key), sealed.subarray(0, NONCE), {
      authTagLength: TAG,
    });
    decipher.setAAD(Buffer.from(about)).setAuthTag(sealed.subarray(NONCE, NONCE + TAG));
    return Buffer.concat([decipher.update(sealed.subarray(NONCE + TAG)), decipher.final()]).toString('utf8');
  } catch {
    return null;
  }
}

const sealingKey = (key: Buffer) => Buffer.from(hkdfSync('sha256', key, '', 'sealed secrets', 32));
