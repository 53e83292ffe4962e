// Letters as they leave: whatever stands in a name or a subject, there is one recipient and no header but ours, by
// SMTP and as a file alike; and of a mail server's refusals it is known which are for good.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type AddressObject, simpleParser } from 'mailparser';
import { createTransport } from 'nodemailer';
import type { SMTPServerOptions } from 'smtp-server';
import { FileMailer, isRefusal, type Message, SmtpMailer, toMailOptions } from '../../src/platform/mailer.js';
import { inOneGo } from '../../src/platform/message-bytes.js';
import { TurnTooLate } from '../../src/platform/turns.js';
import { type Fate, type Handed, type MeanServer, meanMailServer } from '../support/mean-mail.js';
import { headersOf, LETTER_HEADERS, type MailSink, mailSink } from '../support/raw-mail.js';

const ICS = 'BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n';

function letter(change: Partial<Message> = {}): Message {
  return {
    from: { name: 'Curlew Shed', address: 'letters@curlew.example' },
    to: { name: 'Linnea Harrow', address: 'linnea@post.example' },
    replyTo: 'desk@curlew.example',
    subject: 'Your place',
    text: 'Dear Linnea,\n\nyou have a place.\n',
    html: '<p>Dear Linnea,</p>',
    messageId: '<0001@curlew.example>',
    ...change,
  };
}

let sink: MailSink;
let smtp: SmtpMailer;
let folder: string;

beforeAll(async () => {
  sink = await mailSink();
  smtp = new SmtpMailer(sink.url);
  folder = mkdtempSync(join(tmpdir(), 'plateday-mail-'));
});
afterAll(async () => {
  smtp.close();
  await sink.close();
  rmSync(folder, { recursive: true });
});

/** By SMTP and as a file; the addresses of the envelope are checked on the way. */
async function bothWays(message: Message): Promise<Buffer[]> {
  sink.received.length = 0;
  await smtp.send(message);
  expect(sink.received.map(({ from, to }) => [from, to])).toEqual([
    [message.from.address, [message.to.address]],
  ]);
  await new FileMailer(folder).send(message);
  const [file, ...others] = readdirSync(folder);
  expect(others).toEqual([]);
  const bySmtp = sink.received.map(({ raw }) => raw);
  return [...bySmtp, readFileSync(join(folder, file ?? ''))];
}

const GRIN = '\u{1f600}';
const HOSTILE: [what: string, name: string, shown: string][] = [
  ['a line feed and a header', 'Ann\nBcc: eve@evil.example', 'Ann Bcc: eve@evil.example'],
  ['a line break and a header', 'Ann\r\nBcc: eve@evil.example', 'Ann Bcc: eve@evil.example'],
  ['an empty line and a body', 'Ann\r\n\r\n<b>pay here</b>', 'Ann <b>pay here</b>'],
  ['a NUL', 'An\0n', 'An n'],
  ['other line separators', 'Ann\u2028Bcc:\u0085 eve\vx\fy', 'Ann Bcc: eve x y'],
  ['commas and another address', 'Ann, eve@evil.example, Bob', 'Ann, eve@evil.example, Bob'],
  ['quotes and another address', 'Ann" <eve@evil.example>, "Bob', 'Ann" <eve@evil.example>, "Bob'],
  ['a backslash before the closing quote', 'Ann\\', 'Ann\\'],
  ['a group', 'Friends: eve@evil.example;', 'Friends: eve@evil.example;'],
  ['comments', 'Ann (eve@evil.example)', 'Ann (eve@evil.example)'],
  [
    'an encoded word with an address',
    '=?utf-8?Q?x=3Ceve=40evil.example=3E=2C?=',
    '= ?utf-8?Q?x=3Ceve=40evil.example=3E=2C?=',
  ],
  [
    'an encoded line break',
    '=?utf-8?B?QQ0KQmNjOiBldmVAZXZpbC5leGFtcGxl?=',
    '= ?utf-8?B?QQ0KQmNjOiBldmVAZXZpbC5leGFtcGxl?=',
  ],
  ['an encoded word among others', 'Þóra ==?utf-8?Q?=00?=', 'Þóra == ?utf-8?Q?=00?='],
  ['two hundred faces', GRIN.repeat(200), GRIN.repeat(200)],
  ['two hundred letters', 'n'.repeat(200), 'n'.repeat(200)],
  ['half a character', 'Ann\ud83d', 'Ann\ufffd'],
];

describe('a letter to and from somebody whose name is', () => {
  it.each(HOSTILE)('%s', async (_what, name, shown) => {
    const message = letter({
      from: { name, address: 'letters@curlew.example' },
      to: { name, address: 'linnea@post.example' },
      subject: `To pass on to ${name}`,
    });
    for (const raw of await bothWays(message)) {
      expect(
        headersOf(raw)
          .map(([header]) => header)
          .sort(),
      ).toEqual(LETTER_HEADERS);
      const read = await simpleParser(raw);
      expect((read.to as AddressObject).value).toEqual([{ name: shown, address: 'linnea@post.example' }]);
      expect(read.from?.value).toEqual([{ name: shown, address: 'letters@curlew.example' }]);
      expect(read.subject).toBe(`To pass on to ${shown}`);
      expect(read.text).toBe(message.text);
    }
  });
});

describe('a letter', () => {
  it('carries an invitation as an alternative and as a file, and threads under an earlier letter', async () => {
    const references = ['<0000@curlew.example>'];
    const invitation = { method: 'CANCEL', content: ICS } as const;
    for (const raw of await bothWays(letter({ references, invitation }))) {
      const names = headersOf(raw).map(([header]) => header);
      expect(names.sort()).toEqual([...LETTER_HEADERS, 'In-Reply-To', 'References'].sort());
      expect(raw.toString()).toMatch(/^Content-Type: text\/calendar; charset=utf-8; method=CANCEL$/im);
      const read = await simpleParser(raw);
      expect(read.messageId).toBe('<0001@curlew.example>');
      expect(read.inReplyTo).toBe('<0000@curlew.example>');
      expect(read.attachments.map(({ filename, content }) => [filename, content.toString()])).toContainEqual([
        'cancelled.ics',
        ICS,
      ]);
    }
  });

  it('says where it is stopped: with one click where https is, by its letter RFC 8058 3.1, else to be opened', async () => {
    const stops = async (stopAt: string) =>
      (await bothWays(letter({ stopAt }))).map((raw) =>
        headersOf(raw).flatMap(([header, value]) =>
          header.startsWith('List-') ? [[header, value.trim()]] : [],
        ),
      );
    const address = 'curlew.example/s/curlew/reminders/abc';
    const one = ['List-Unsubscribe', `<https://${address}>`];
    const both = [one, ['List-Unsubscribe-Post', 'List-Unsubscribe=One-Click']];
    for (const headers of await stops(`https://${address}`)) {
      expect(headers).toHaveLength(2);
      expect(headers).toEqual(expect.arrayContaining(both));
    }
    for (const headers of await stops(`http://${address}`))
      expect(headers).toEqual([['List-Unsubscribe', `<http://${address}>`]]);
  });

  it('is one file however often it is sent, readable by its owner only', async () => {
    const mailer = new FileMailer(folder);
    await mailer.send(letter({ messageId: '<0002@curlew.example>' }));
    await mailer.send(letter({ messageId: '<0002@curlew.example>' }));
    expect(readdirSync(folder).filter((name) => name.includes('0002'))).toEqual(['0002-curlew.example.eml']);
    await mailer.forget(['<0002@curlew.example>', '<never-sent@curlew.example>']);
    expect(readdirSync(folder).filter((name) => name.includes('0002'))).toEqual([]);
  });

  it('is the same in each attempt and as a file but for its date, and each of its lines ends as RFC 5322 2.1 has it', async () => {
    const invited = letter({ invitation: { method: 'REQUEST', content: ICS } });
    const sent = [...(await bothWays(invited)), ...(await bothWays(invited))];
    const undated = sent.map((raw) => raw.toString('latin1').replace(/^Date: .*$/m, 'Date:'));
    expect(undated).toHaveLength(4);
    expect(new Set(undated).size).toBe(1);
    expect(undated[0]).not.toMatch(/(?<!\r)\n|\r(?!\n)/);
  });

  it('has short boundaries between its parts, however long the name of its server is (RFC 2046 5.1.1: 70 characters)', async () => {
    sink.received.length = 0;
    const messageId = `<${'9'.repeat(60)}@${'a-long-name.'.repeat(8)}example>`;
    await smtp.send(letter({ messageId, invitation: { method: 'REQUEST', content: ICS } }));
    const [{ raw = Buffer.of() } = {}] = sink.received;
    const boundaries = [...raw.toString('latin1').matchAll(/boundary(\S*)="(.*?)"/g)];
    expect(boundaries).toHaveLength(2);
    for (const [, split, boundary = ''] of boundaries) {
      expect(split).toBe('');
      expect(boundary.length).toBeLessThanOrEqual(70);
    }
  });

  it.each([
    'Dear Linnea,  ',
    'Dear Linnea,\t',
    `${'Þóra, '.repeat(40)} `,
    'Þóra, the next line is long\n'.repeat(6_000),
  ])('reads as it was written, also one that ends in a space or is long (%#)', async (text) => {
    for (const raw of await bothWays(letter({ text }))) expect((await simpleParser(raw)).text).toBe(text);
  });

  it('never reads a file or an address that is named in it', async () => {
    const compose = createTransport({ streamTransport: true, buffer: true });
    const inOne = createTransport({ streamTransport: true, buffer: true }).use('stream', inOneGo);
    const options = toMailOptions(letter());
    const path = { path: '/etc/hostname' };
    await expect(compose.sendMail({ ...options, text: path })).rejects.toThrow(/File access rejected/);
    const href = { href: 'http://127.0.0.1:9/' };
    await expect(compose.sendMail({ ...options, html: href })).rejects.toThrow(/Url access rejected/);
    await expect(inOne.sendMail({ ...options, text: path })).rejects.toThrow('A part of a letter is text.');
  });
});

describe('a mail server’s refusal', () => {
  const answer = (responseCode: number) => Object.assign(new Error('said the server'), { responseCode });
  const data = (code: number): SMTPServerOptions => ({
    onData: (stream, _session, settle) => stream.resume().on('end', () => settle(answer(code))),
  });
  const CASES: [what: string, options: SMTPServerOptions, login: string, final: boolean][] = [
    ['no such box', { onRcptTo: (_to, _session, settle) => settle(answer(550)) }, '', true],
    ['the box is full for now', { onRcptTo: (_to, _session, settle) => settle(answer(452)) }, '', false],
    ['this letter is not wanted', data(554), '', true],
    ['not now', data(451), '', false],
    [
      'no letters from that sender',
      { onMailFrom: (_from, _session, settle) => settle(answer(550)) },
      '',
      false,
    ],
    [
      'wrong password',
      { authOptional: false, onAuth: (_auth, _session, settle) => settle(answer(535)) },
      'me:no@',
      false,
    ],
    ['sign in first', { authOptional: false }, '', false],
    ['no service here', { onConnect: (_session, settle) => settle(answer(554)) }, '', false],
  ];
  it.each(CASES)(
    '“%s” is for good only where it is about the letter',
    async (_what, options, login, final) => {
      const refusing = await mailSink(options);
      const mailer = new SmtpMailer(refusing.url.replace('smtp://', `smtp://${login}`));
      const error: unknown = await mailer.send(letter()).then(
        () => null,
        (reason) => reason,
      );
      mailer.close();
      await refusing.close();
      expect(error).toBeInstanceOf(Error);
      expect(isRefusal(error)).toBe(final);
    },
  );

  it('is told without what no database keeps', async () => {
    const mean = await meanMailServer(() => 550);
    const mailer = new SmtpMailer(mean.url);
    await expect(mailer.send(letter())).rejects.toThrow(/550 said the server$/);
    mailer.close();
    await mean.close();
  });

  it('is not given by one who cannot be reached', async () => {
    const mailer = new SmtpMailer('smtp://127.0.0.1:9');
    const error: unknown = await mailer.send(letter()).then(
      () => null,
      (reason) => reason,
    );
    mailer.close();
    expect(error).toMatchObject({ code: 'ESOCKET' });
    expect(isRefusal(error)).toBe(false);
  });
});

describe('connections to a mail server', () => {
  const twenty = Array.from({ length: 20 }, (_, n) => letter({ messageId: `<00${n}@curlew.example>` }));
  async function withServer(
    fate: (message: Handed) => Fate | Promise<Fate>,
    act: (server: MeanServer, mailer: SmtpMailer) => Promise<void>,
    limits: { turnMs?: number } = {},
  ) {
    const server = await meanMailServer(fate);
    const mailer = new SmtpMailer(server.url, limits);
    await act(server, mailer).finally(async () => {
      mailer.close();
      await server.close();
    });
  }
  const failure = (sent: Promise<void>): Promise<unknown> =>
    sent.then(
      () => null,
      (error) => error,
    );

  it('are kept for the next letter, and are five at most', () =>
    withServer(
      () => 'take',
      async (server, mailer) => {
        for (const one of twenty.slice(0, 3)) await mailer.send(one);
        expect(server.lines.all).toBe(1);
        await Promise.all(twenty.map((one) => mailer.send(one)));
        expect(server.handed).toHaveLength(23);
        expect(server.lines).toEqual({ all: 5, atOnce: 5 });
      },
    ));

  it('that the server ended while they were idle are opened anew, and the letter goes once', () =>
    withServer(
      () => 'take',
      async (server, mailer) => {
        await mailer.send(letter());
        server.hangUp();
        await mailer.send(letter({ messageId: '<0002@curlew.example>' }));
        expect(server.handed.map((one) => one.messageId)).toEqual([
          '<0001@curlew.example>',
          '<0002@curlew.example>',
        ]);
      },
    ));

  it('cut before the answer are told to who sends, and nothing is handed over again here', () =>
    withServer(
      ({ messageId }) => (messageId.startsWith('<0002') ? 'take and cut' : 'take'),
      async (server, mailer) => {
        await mailer.send(letter());
        const error = await failure(mailer.send(letter({ messageId: '<0002@curlew.example>' })));
        expect(error).toBeInstanceOf(Error);
        expect(isRefusal(error)).toBe(false);
        await mailer.send(letter({ messageId: '<0003@curlew.example>' }));
        expect(server.handed.map((one) => one.messageId.slice(1, 5))).toEqual(['0001', '0002', '0003']);
      },
    ));

  it('are cut as soon as their letter is given up, whatever the server is up to; the others go on', () =>
    withServer(
      ({ messageId }) => (messageId.startsWith('<0001') ? 'stall' : 'take'),
      async (server, mailer) => {
        const givenUp = new AbortController();
        const stalled = failure(mailer.send(letter(), givenUp.signal));
        await mailer.send(letter({ messageId: '<0002@curlew.example>' }));
        expect(server.open()).toBe(2);
        givenUp.abort();
        expect(await stalled).toMatchObject({ name: 'AbortError' });
        while (server.open() > 1) await new Promise((done) => setTimeout(done, 5));
        await mailer.send(letter({ messageId: '<0003@curlew.example>' }));
        expect(server.lines.all).toBe(2);
      },
    ));

  it('that are all taken for too long are not waited for: nothing of a letter is handed over then', () => {
    let answer = () => {};
    const answered = new Promise<void>((done) => {
      answer = done;
    });
    return withServer(
      () => answered.then(() => 'take'),
      async (server, mailer) => {
        const [first = letter(), ...others] = twenty;
        const underWay = others.slice(0, 5).map((one) => mailer.send(one));
        expect(await failure(mailer.send(first))).toBeInstanceOf(TurnTooLate);
        answer();
        await Promise.all(underWay);
        expect(server.handed.map((one) => one.messageId)).not.toContain(first.messageId);
        await mailer.send(first);
        expect(server.handed).toHaveLength(6);
      },
      { turnMs: 40 },
    );
  });
});
