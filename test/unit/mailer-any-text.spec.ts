// Whatever people and programs write into any field of a letter: by SMTP and as a file it goes to one recipient, has
// the headers we gave it and no other, and is read as it was written. A mailer without its cleaning is caught.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type AddressObject, simpleParser } from 'mailparser';
import { createTransport, type SendMailOptions } from 'nodemailer';
import type { PluginFunction } from 'nodemailer/lib/mailer';
import { FileMailer, isRefusal, type Message, SmtpMailer, toMailOptions } from '../../src/platform/mailer.js';
import { inOneGo } from '../../src/platform/message-bytes.js';
import { headersOf, LETTER_HEADERS, type MailSink, mailSink } from '../support/raw-mail.js';
import { scale } from '../support/scale.js';

const RUNS = { numRuns: scale(2_000, 150), endOnFailure: true };
/** A conversation with a mail server takes its time. */
const TALKS = { ...RUNS, numRuns: scale(500, 25) };
/** Only what stands there is read, nothing is made of it. */
const AS_IT_IS = { skipHtmlToText: true, skipTextToHtml: true, skipImageLinks: true, skipTextLinks: true };
const FROM = 'letters@curlew.example';
const TO = 'linnea@post.example';
const DESK = 'desk@curlew.example';
const STOP = 'https://curlew.example/s/curlew/reminders/';
const IDS = ['<0000@curlew.example>', '<0001.a@curlew.example>'];

const bait = fc.constantFrom(
  ...[
    '\r\n',
    '\n',
    '\r',
    '\r\n\r\n',
    '\0',
    '\t',
    ' ',
    '  ',
    '\u000b',
    '\u0085',
    '\u2028',
    '\u00a0',
    '\ufeff',
  ],
  ...['\r\nBcc: eve@evil.example', '\nTo: eve@evil.example\n', '\rX-Evil: 1', 'Cc: eve@evil.example', 'Bcc:'],
  ...['\r\n.\r\nMAIL FROM:<eve@evil.example>\r\n', '\n.\n', '\r.\r', '\r\n.\r\n', '\n..\n', '.'],
  ...[
    '\r\n--',
    '--',
    '\r\nContent-Type: text/html\r\n\r\n<b>pay</b>',
    '<script>',
    '</p>',
    '&amp;',
    '<b>x</b>',
  ],
  ...['=?utf-8?Q?x=3Ceve=40evil.example=3E=2C?=', '=?utf-8?B?QQ0KQmNjOiBldmVAZXZpbC5leGFtcGxl?='],
  ...[
    '=?utf-8?Q?=0D=0ABcc:_eve=40evil.example?=',
    '=?us-ascii*en?q?a?=',
    '=?utf-8?Q?a b?=',
    '=?',
    '?=',
    '=',
    '?',
  ],
  ...[
    '"',
    "'",
    '\\',
    ',',
    ';',
    ':',
    '<',
    '>',
    '(',
    ')',
    '[',
    ']',
    '@',
    '<eve@evil.example>',
    ', eve@evil.example',
  ],
  ...[
    'Friends: eve@evil.example;',
    '%0D%0A',
    '=0D=0A',
    '\u202e',
    '\u200d',
    '\ud83d',
    '\udcf7',
    '📷',
    '👩🏽‍🔬',
  ],
  ...['e\u0301', 'Þóra', '手', ' '.repeat(90), 'n'.repeat(90), 'n'.repeat(1_100), '手'.repeat(400)],
);
const hostile = fc
  .array(fc.oneof({ weight: 3, arbitrary: bait }, fc.string({ unit: 'binary', maxLength: 20 })), {
    maxLength: 8,
  })
  .map((parts) => parts.join(''));
const short = hostile.map((text) => text.slice(0, 60));
const party = (address: string) => hostile.map((name) => ({ name, address }));
const reference = fc.oneof(
  fc.constantFrom(...IDS),
  short.map((text) => `<0\r\n${text}@curlew.example>`),
);
const maybe = <T>(what: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(what, { nil: undefined });

const anyLetter: fc.Arbitrary<Message> = fc
  .record({
    from: party(FROM),
    to: party(TO),
    subject: hostile.map((text) => `Re ${text}`),
    text: hostile.map((text) => `Dear ${text}.\n`),
    html: hostile.map((text) => `<p>Dear</p>${text}.\n`),
    references: maybe(fc.array(reference, { minLength: 1, maxLength: 3 })),
    stopAt: maybe(short.map((text) => STOP + text)),
    invitation: maybe(
      fc.record({
        method: fc.constantFrom('REQUEST' as const, 'CANCEL' as const),
        content: hostile.map((text) => `BEGIN:VCALENDAR\r\n${text}\r\n`),
      }),
    ),
  })
  .map(({ references, stopAt, invitation, ...rest }) => ({
    ...rest,
    replyTo: DESK,
    messageId: '<0002@curlew.example>',
    ...(references ? { references } : {}),
    ...(stopAt ? { stopAt } : {}),
    ...(invitation ? { invitation } : {}),
  }));

/** Half a character is shown as one that is not known (U+FFFD). */
const wellFormed = (text: string) => Buffer.from(text).toString();
/** What a person reads of a name or a subject: one line, nothing of it decoded, nothing of it lost but a long end. */
const shown = (text: string) => {
  const line = text.replace(/[\p{Cc}\u2028\u2029 ]+/gu, ' ').replaceAll('=?', '= ?');
  return wellFormed([...line].slice(0, 400).join('').trim());
};
const shownBelow = (text: string) =>
  wellFormed(text.replace(/\r\n|\r/g, '\n').replace(/\p{Cc}/gu, (one) => ('\t\n'.includes(one) ? one : ' ')));
const ourIds = ({ references = [] }: Message) => references.filter((id) => IDS.includes(id));

function headersFor(message: Message): string[] {
  const threaded = ourIds(message).length > 0 ? ['In-Reply-To', 'References'] : [];
  const stops = message.stopAt ? ['List-Unsubscribe', 'List-Unsubscribe-Post'] : [];
  return [...LETTER_HEADERS, ...threaded, ...stops].sort();
}

async function expectAsWritten(raw: Buffer, message: Message): Promise<void> {
  const names = headersOf(raw).map(([name]) => name);
  expect(names.sort()).toEqual(headersFor(message));
  const lines = raw.toString('latin1').split('\r\n');
  expect(lines.filter((line) => line.length > 998 || /[\r\n\0]/.test(line))).toEqual([]);
  for (const [name, value] of headersOf(raw))
    if (name === 'List-Unsubscribe') expect(value).toMatch(/^ <https:\/\/curlew\.example\/[!-;=?-~]+>$/);
  const read = await simpleParser(raw, AS_IT_IS);
  expect((read.to as AddressObject).value).toEqual([{ name: shown(message.to.name), address: TO }]);
  expect(read.from?.value).toEqual([{ name: shown(message.from.name), address: FROM }]);
  expect(read.replyTo?.value).toEqual([{ name: '', address: DESK }]);
  expect(read.subject).toBe(shown(message.subject));
  expect([read.references ?? []].flat()).toEqual(ourIds(message));
  expect(read.text).toBe(shownBelow(message.text));
  expect(read.html).toBe(shownBelow(message.html));
  const { method, content } = message.invitation ?? { content: '' };
  const file = method === 'CANCEL' ? 'cancelled.ics' : 'invitation.ics';
  expect(read.attachments.filter(({ filename }) => filename).map(({ filename }) => filename)).toEqual(
    method ? [file] : [],
  );
  for (const one of read.attachments) {
    expect(one.contentType).toBe(one.filename ? 'application/ics' : 'text/calendar');
    expect(one.content.toString()).toBe(shownBelow(content).replaceAll('\n', '\r\n'));
  }
}

let sink: MailSink;
let smtp: SmtpMailer;
let folder: string;
const said: string[] = [];
const hear = (what: string, settle: () => void) => {
  said.push(what);
  settle();
};

beforeAll(async () => {
  sink = await mailSink({
    onMailFrom: ({ address }, _session, settle) => hear(`from ${address}`, settle),
    onRcptTo: ({ address }, _session, settle) => hear(`to ${address}`, settle),
  });
  smtp = new SmtpMailer(sink.url);
  folder = mkdtempSync(join(tmpdir(), 'plateday-mail-'));
});
afterAll(async () => {
  smtp.close();
  await sink.close();
  rmSync(folder, { recursive: true });
});

/** What has gone by SMTP since the last look, and what stands as files. */
function gone(): { envelope: string[]; bySmtp: Buffer[]; asFiles: Buffer[] } {
  const asFiles = readdirSync(folder).map((name) => {
    const raw = readFileSync(join(folder, name));
    rmSync(join(folder, name));
    return raw;
  });
  return { envelope: said.splice(0), bySmtp: sink.received.splice(0).map(({ raw }) => raw), asFiles };
}

describe('Whatever stands in a letter', () => {
  it('it goes to one, with our headers, and reads as it was written, by SMTP and as a file', async () => {
    const asWritten = fc.asyncProperty(anyLetter, async (message) => {
      await smtp.send(message);
      await new FileMailer(folder).send(message);
      const { envelope, bySmtp, asFiles } = gone();
      expect(envelope).toEqual([`from ${FROM}`, `to ${TO}`]);
      expect([bySmtp.length, asFiles.length]).toEqual([1, 1]);
      for (const raw of [...bySmtp, ...asFiles]) await expectAsWritten(raw, message);
    });
    await fc.assert(asWritten, TALKS);
  });

  it('an address that is none, or several, is refused for good before anything is sent', async () => {
    const outcomes = new Set<string>();
    const mailbox = fc.constantFrom('linnea@post.example', "l.o'harrow+1@post.example", 'L@x.y.example');
    const anything = fc.oneof(
      mailbox,
      short,
      fc.tuple(mailbox, short).map(([box, text]) => `${box}${text}`),
    );
    const oneOrNone = fc.asyncProperty(
      anyLetter,
      anything,
      fc.constantFrom('from', 'to'),
      async (letter, address, who) => {
        const message = { ...letter, [who]: { name: 'Ann', address } };
        const failures = [smtp, new FileMailer(folder)].map((mailer) =>
          mailer.send(message).then(() => null, isRefusal),
        );
        const refused = await Promise.all(failures);
        const { envelope, bySmtp, asFiles } = gone();
        const went = [`from ${message.from.address}`, `to ${message.to.address}`];
        outcomes.add(String(refused));
        if (refused[0]) expect([refused, envelope, bySmtp, asFiles]).toEqual([[true, true], [], [], []]);
        else expect([refused, envelope, bySmtp.length, asFiles.length]).toEqual([[null, null], went, 1, 1]);
      },
    );
    await fc.assert(oneOrNone, TALKS);
    expect(outcomes.size).toBe(2);
  });

  it('a reply goes to the address as it was written but for capitals in its domain (RFC 5321 2.4), or to nobody', async () => {
    const property = fc.asyncProperty(anyLetter, short, async (letter, text) => {
      const replyTo = DESK + text;
      const { replyTo: read } = await simpleParser(
        await composed(toMailOptions({ ...letter, replyTo })),
        AS_IT_IS,
      );
      expect([[], [{ name: '', address: replyTo.toLowerCase() }]]).toContainEqual(read?.value ?? []);
    });
    await fc.assert(property, RUNS);
  });

  it('it is written in one go as nodemailer itself writes it, byte for byte', async () => {
    const asItself = fc.asyncProperty(anyLetter, async (message) => {
      const options = { ...toMailOptions(message), date: new Date(0) };
      expect((await composed(options, inOneGo)).equals(await composed(options))).toBe(true);
    });
    await fc.assert(asItself, RUNS);
  });
});

const composed = async (options: SendMailOptions, ...plugins: PluginFunction[]): Promise<Buffer> => {
  const transport = createTransport({ streamTransport: true, buffer: true, newline: 'windows' });
  for (const plugin of plugins) transport.use('stream', plugin);
  return (await transport.sendMail(options)).message as Buffer;
};

describe('The same checks catch a mailer', () => {
  const byHand = (name: string, value: string) => ({ [name]: { prepared: true, value } });
  const MUTANTS: [what: string, mutant: (message: Message) => SendMailOptions][] = [
    [
      'that cleans no names',
      (message) => ({ ...toMailOptions(message), from: message.from, to: message.to }),
    ],
    ['that cleans no subject', (message) => ({ ...toMailOptions(message), subject: message.subject })],
    ['that leaves line ends as they are', (message) => ({ ...toMailOptions(message), text: message.text })],
    [
      'that takes any reference',
      (message) => ({ ...toMailOptions(message), references: message.references ?? [] }),
    ],
    [
      'that takes any address of a stop',
      ({ stopAt = STOP, ...rest }) => ({
        ...toMailOptions({ ...rest, stopAt }),
        list: { unsubscribe: stopAt },
      }),
    ],
    [
      'that writes a header by hand',
      (message) => ({ ...toMailOptions(message), subject: '', headers: byHand('Subject', message.subject) }),
    ],
  ];
  it.each(MUTANTS)('%s', async (_what, mutant) => {
    const asWritten = fc.asyncProperty(anyLetter, async (message) =>
      expectAsWritten(await composed(mutant(message)), message),
    );
    expect((await fc.check(asWritten, RUNS)).failed).toBe(true);
  });
});
