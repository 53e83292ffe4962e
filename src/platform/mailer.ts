// Hands one finished message to the SMTP server, or writes it as an .eml file when there is none.
// It neither retries nor chooses words: the outbox in reminders/ does.
import { createHash } from 'node:crypto';
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createTransport, type SendMailOptions, type Transporter } from 'nodemailer';
import { z } from 'zod';
import type { Config } from './config.js';
import { inOneGo } from './message-bytes.js';
import { Turns } from './turns.js';

export interface Message {
  from: { name: string; address: string };
  to: { name: string; address: string };
  replyTo?: string;
  subject: string;
  text: string;
  html: string;
  /** Deterministic, so that a repeated attempt is recognisable as the same message. */
  messageId: string;
  references?: string[];
  /** Where a mail program stops letters of this kind for its reader, with one click (RFC 2369 3.2, RFC 8058). */
  stopAt?: string;
  invitation?: { method: 'REQUEST' | 'CANCEL'; content: string };
}

/** How many letters one process hands over at once. */
export const LETTERS_AT_ONCE = 5;
/** How long a letter waits until it is handed over, while others are. */
const TURN_MS = 15_000;

export abstract class Mailer {
  /**
   * Once `signal` aborts nothing more of the message is handed over: its connection is cut.
   * @throws NoAddress, TurnTooLate where others were handed over first and nothing of it was yet, or the transport's
   * error; see isRefusal.
   */
  abstract send(message: Message, signal?: AbortSignal): Promise<void>;
  /** Deletes what is kept here of messages; a mail server keeps them where we cannot. None of them need be there. */
  async forget(_messageIds: string[]): Promise<void> {}
  abstract close(): void;
}

/** What stands as the address of a letter is none, or several. */
export class NoAddress extends Error {}

/**
 * Whether a failure is the mail server's lasting no to this very letter (RFC 5321 4.2.1: 5yz). A no to the
 * connection, to our sign-in or to us as the sender is about no letter, and worth another try.
 */
export function isRefusal(error: unknown): boolean {
  if (error instanceof NoAddress) return true;
  const { responseCode = 0, command = '' } = error as { responseCode?: number; command?: string };
  return responseCode >= 500 && !/^(CONN|EHLO|HELO|LHLO|STARTTLS|AUTH|MAIL FROM)/.test(command);
}

/**
 * What nodemailer is given: headers are its business, so no field can add a header or a recipient.
 * @throws NoAddress
 */
export function toMailOptions(message: Message): SendMailOptions {
  const references = (message.references ?? []).filter((id) => MESSAGE_ID.test(id));
  const [first] = references;
  return {
    from: clean(message.from),
    to: clean(message.to),
    ...(isAddress(message.replyTo) ? { replyTo: { name: '', address: message.replyTo } } : {}),
    subject: oneLine(message.subject),
    text: body(message.text),
    html: body(message.html),
    messageId: message.messageId,
    baseBoundary: boundaryOf(message.messageId),
    ...(first ? { references, inReplyTo: first } : {}),
    headers: { 'Auto-Submitted': 'auto-generated', ...oneClick(message.stopAt) },
    ...(message.stopAt ? { list: { unsubscribe: new URL(message.stopAt).href } } : {}),
    ...(message.invitation
      ? {
          icalEvent: {
            method: message.invitation.method,
            filename: message.invitation.method === 'CANCEL' ? 'cancelled.ics' : 'invitation.ics',
            content: body(message.invitation.content).replace(/\n/g, '\r\n'),
          },
        }
      : {}),
    disableFileAccess: true,
    disableUrlAccess: true,
  };
}

/** Between its parts: its own, the same in each attempt, and short enough (RFC 2046 5.1.1: 70 characters in all). */
const boundaryOf = (messageId: string): string =>
  createHash('sha256').update(messageId).digest('hex').slice(0, 24);

/** Only https may be clicked by a program (RFC 8058 3.1). */
const oneClick = (stopAt = ''): Record<string, string> =>
  stopAt.startsWith('https:') ? { 'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click' } : {};

/**
 * Connections are kept for the next letter, one for each letter that a worker sends at once. One that the server closed
 * while it was idle is opened again once; a letter of which anything was handed over is not sent again here.
 */
const POOL = {
  pool: true,
  maxConnections: LETTERS_AT_ONCE,
  maxRequeues: 1,
  idleTimeout: 60_000,
  connectionTimeout: 10_000,
  socketTimeout: 30_000,
  socketCloseTimeout: 0,
};

export class SmtpMailer extends Mailer {
  private readonly transport: Transporter;
  private readonly turns = new Turns(LETTERS_AT_ONCE);
  private readonly turnMs: number;
  constructor(url: string, limits: { socketTimeout?: number; turnMs?: number } = {}) {
    super();
    const { turnMs = TURN_MS, ...others } = limits;
    this.turnMs = turnMs;
    this.transport = createTransport({ url, ...POOL, ...others } as object).use('stream', inOneGo);
  }
  async send(message: Message, signal?: AbortSignal): Promise<void> {
    const letter = { ...toMailOptions(message), ...(signal ? { signal } : {}) };
    try {
      await this.turns.do(() => this.transport.sendMail(letter), this.turnMs);
    } catch (error) {
      if (error instanceof Error) error.message = error.message.replaceAll('\0', ''); // no text column keeps it
      throw error;
    }
  }
  close(): void {
    this.transport.close();
  }
}

/** Writes each message as a file named after its Message-ID, so sending it twice leaves one file. */
export class FileMailer extends Mailer {
  private readonly compose = createTransport({ streamTransport: true, buffer: true, newline: 'windows' }).use(
    'stream',
    inOneGo,
  );
  constructor(private readonly folder: string) {
    super();
  }
  async send(message: Message): Promise<void> {
    const built = await this.compose.sendMail(toMailOptions(message));
    mkdirSync(this.folder, { recursive: true });
    const file = this.fileOf(message.messageId);
    writeFileSync(`${file}.part`, built.message as Buffer, { mode: 0o600 });
    renameSync(`${file}.part`, file);
  }
  override async forget(messageIds: string[]): Promise<void> {
    for (const id of messageIds) rmSync(this.fileOf(id), { force: true });
  }
  close(): void {}

  private fileOf(messageId: string): string {
    const name = messageId.replace(/[^A-Za-z0-9.-]+/g, '-').replace(/^-|-$/g, '');
    return join(this.folder, `${name}.eml`);
  }
}

export function mailerFor(config: Config): Mailer {
  return config.smtpUrl ? new SmtpMailer(config.smtpUrl) : new FileMailer(join(config.home, 'mail'));
}

/** More than any name or subject of ours has; every line of a header stays below 998 octets (RFC 5322 2.1.1). */
const MOST_CHARACTERS = 400;
/** Without line breaks, and with nothing that a reader takes for an encoded word (RFC 2047 2) and decodes. */
const oneLine = (text: string) => {
  const line = text.replace(/[\p{Cc}\u2028\u2029 ]+/gu, ' ').replace(/=(?=\?)/g, '= ');
  return [...line].slice(0, MOST_CHARACTERS).join('').trim();
};
/** Of control characters only tabs and whole line breaks: a lone CR may be none of a message (RFC 5322 2.3). */
const body = (text: string) => text.replace(/\r\n?/g, '\n').replace(/[^\P{Cc}\t\n]/gu, ' ');
/** Printable, and short enough for a line of a header (RFC 5322 2.1.1, 3.6.4). */
const MESSAGE_ID = /^<[!-;=?-~]{1,500}>$/;
/** As the doors take it in: one mailbox without quotes, comments or a second "@". */
const EMAIL = z.email();
const isAddress = (address: string | undefined): address is string => EMAIL.safeParse(address).success;
function clean({ name, address }: { name: string; address: string }): { name: string; address: string } {
  if (!isAddress(address)) throw new NoAddress(`This is no e-mail address: ${oneLine(address)}`);
  return { name: oneLine(name), address };
}
