// What goes over the wire: the headers of a message as they stand, and a mail server that keeps what it is handed.
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';

/** The headers every letter of ours has, in any order. */
export const LETTER_HEADERS = [
  'Auto-Submitted',
  'Content-Type',
  'Date',
  'From',
  'MIME-Version',
  'Message-ID',
  'Reply-To',
  'Subject',
  'To',
];

/**
 * Names and unfolded values of the headers, by the letter of RFC 5322 2.1 and 2.2.
 * @throws Error for a bare CR or LF, a NUL, other than ASCII, or a line over 998 octets
 */
export function headersOf(raw: Buffer): [name: string, value: string][] {
  const end = raw.indexOf('\r\n\r\n');
  if (end < 0) throw new Error('There is no end of the headers');
  const lines = raw.toString('latin1', 0, end).split('\r\n');
  for (const line of lines) {
    if (/[^\t\x20-\x7e]/.test(line)) throw new Error(`A header holds what it must not: ${line}`);
    if (line.length > 998) throw new Error(`A header line has ${line.length} octets`);
  }
  const unfolded = lines.join('\r\n').replace(/\r\n(?=[\t ])/g, '');
  return unfolded.split('\r\n').map((line) => {
    const [, name, value] = /^([!-9;-~]+):(.*)$/.exec(line) ?? [];
    if (name === undefined || value === undefined) throw new Error(`This is no header: ${line}`);
    return [name, value];
  });
}

export interface MailSink {
  url: string;
  received: { from: string; to: string[]; raw: Buffer }[];
  close(): Promise<void>;
}

/** A mail server on a free port of this machine. `options` can make it refuse. */
export async function mailSink(options: SMTPServerOptions = {}): Promise<MailSink> {
  const received: MailSink['received'] = [];
  const server = new SMTPServer({
    disabledCommands: ['STARTTLS'],
    authOptional: true,
    disableReverseLookup: true,
    onData(stream, { envelope }, settle) {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', () => {
        const from = envelope.mailFrom ? envelope.mailFrom.address : '';
        const to = envelope.rcptTo.map(({ address }) => address);
        received.push({ from, to, raw: Buffer.concat(parts) });
        settle();
      });
    },
    ...options,
  });
  server.on('error', () => {}); // what a client breaks off is the client's business
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.server.address() as AddressInfo;
  return {
    url: `smtp://127.0.0.1:${port}`,
    received,
    close: () => new Promise((done) => server.close(() => done())),
  };
}
