// Settings from the environment, checked once at start; a wrong one is refused in a sentence.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { z } from 'zod';
import type { Random } from './clock.js';

/** Where the data of an installation is, if PLATEDAY_HOME does not say otherwise. */
export const HOME = '.plateday';

const whole = (low: number, high: number) => z.coerce.number().int().min(low).max(high);

const environment = z.object({
  DATABASE_URL: z.url({ protocol: /^postgres(ql)?$/ }).optional(),
  PG_BIN_DIR: z.string().optional(),
  PORT: whole(0, 65535).default(4180),
  HOST: z.string().default('127.0.0.1'),
  PUBLIC_URL: z.url({ protocol: /^https?$/ }).optional(),
  INSECURE_HTTP: z.enum(['0', '1']).default('0'),
  SMTP_URL: z.url({ protocol: /^smtps?$/ }).optional(),
  MAIL_FROM: z.email().optional(),
  SECRET_KEY: z.string().min(32).optional(),
  PLATEDAY_HOME: z.string().default(HOME),
  RATE_LIMIT_PER_MINUTE: whole(1, 1_000_000).default(300),
  FORM_LIMIT_PER_MINUTE: whole(1, 1_000_000).default(20),
  SIGN_IN_TRIES: whole(1, 1_000_000).default(10),
  UNDO_SECONDS: whole(0, 3600).default(60),
  TRUST_PROXY: z.enum(['0', '1']).default('0'),
});

export class Config {
  databaseUrl: string | undefined;
  pgBinDir: string | undefined;
  port: number;
  host: string;
  /** Where people reach us, without a slash at the end; known for good once the port is. */
  publicUrl: string;
  smtpUrl: string | undefined;
  mailFrom: string;
  secretKey: Buffer;
  /** The key stands in a file of ours; else it was given from outside. */
  ownSecret: boolean;
  home: string;
  rateLimitPerMinute: number;
  formLimitPerMinute: number;
  /** So often one address may be tried within a quarter of an hour. */
  signInTries: number;
  /** So long nobody is told of an act of the desk that can be undone. */
  undoSeconds: number;
  trustProxy: boolean;

  get secureCookies(): boolean {
    return this.publicUrl.startsWith('https:');
  }
}

/**
 * Reads and checks the settings.
 * @throws Error with one sentence per wrong setting.
 */
export function readConfig(env: NodeJS.ProcessEnv, random: Random): Config {
  const present = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== ''));
  const parsed = environment.safeParse(present);
  if (!parsed.success) {
    const wrong = parsed.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
    throw new Error(`These settings cannot be used. ${wrong.join('. ')}.`);
  }
  const set = parsed.data;
  if (set.SMTP_URL !== undefined && set.MAIL_FROM === undefined)
    throw new Error('SMTP_URL needs MAIL_FROM beside it: the address that letters come from.');
  const config = new Config();
  config.databaseUrl = set.DATABASE_URL;
  config.pgBinDir = set.PG_BIN_DIR;
  config.port = set.PORT;
  config.host = set.HOST;
  config.publicUrl = (set.PUBLIC_URL ?? `http://localhost:${set.PORT}`).replace(/\/$/, '');
  config.smtpUrl = set.SMTP_URL;
  config.mailFrom = set.MAIL_FROM ?? 'studio@plateday.invalid'; // in files only
  config.home = resolve(set.PLATEDAY_HOME);
  config.rateLimitPerMinute = set.RATE_LIMIT_PER_MINUTE;
  config.formLimitPerMinute = set.FORM_LIMIT_PER_MINUTE;
  config.signInTries = set.SIGN_IN_TRIES;
  config.undoSeconds = set.UNDO_SECONDS;
  config.trustProxy = set.TRUST_PROXY === '1';
  refuseOpenHttp(config.publicUrl, set.INSECURE_HTTP === '1');
  config.ownSecret = set.SECRET_KEY === undefined;
  config.secretKey = set.SECRET_KEY ? Buffer.from(set.SECRET_KEY) : storedSecret(config.home, random);
  return config;
}

function refuseOpenHttp(publicUrl: string, allowed: boolean): void {
  const { protocol, hostname } = new URL(publicUrl);
  const loopback = hostname === 'localhost' || hostname === '[::1]' || /^127\./.test(hostname);
  if (protocol === 'http:' && !loopback && !allowed)
    throw new Error(
      'PUBLIC_URL must be https off this machine; INSECURE_HTTP=1 allows http on a trusted network.',
    );
}

/**
 * Puts the key of a copy in the place of the one just made, so that every link of before is good again.
 * To be done before anybody was given a link of the new one; the next start reads it.
 */
export function keepSecret(home: string, secret: Buffer): void {
  writeFileSync(join(home, 'secret'), secret.toString(), { mode: 0o600 });
}

/** The key that all links are derived from: made once, kept beside the data, readable by its owner only. */
function storedSecret(home: string, random: Random): Buffer {
  mkdirSync(home, { recursive: true });
  const file = join(home, 'secret');
  try {
    writeFileSync(file, random.bytes(32).toString('base64url'), { mode: 0o600, flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
  return Buffer.from(readFileSync(file, 'utf8').trim());
}
