// A mail server that is as mean as they come: it takes a message and cuts the line before it says so (RFC 1047), answers
// "not now" or "no", or says nothing at all. What becomes of each message is told it; it keeps the times of each.
import { once } from 'node:events';
import type { AddressInfo, Socket } from 'node:net';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';

/** What it does with a message: a number is the answer instead of 250, for which nothing is kept. */
export type Fate = 'take' | 'take and cut' | 'stall' | number;

/** A message as it came. */
export interface Handed {
  to: string;
  messageId: string;
  subject: string;
  /** Head and body as they came over the wire. */
  raw: string;
}

export interface MeanServer {
  url: string;
  /** Every message that was handed over whole, with what became of it; in order. */
  handed: (Handed & { fate: Fate })[];
  /** Connections there were, and how many of them at most at once. */
  lines: { all: number; atOnce: number };
  /** The most messages of one Message-ID that were on their way at once. */
  doubled: number;
  /** How many connections are open now. */
  open(): number;
  /** Ends every connection, as a server does whose clients are idle too long. */
  hangUp(): void;
  close(): Promise<void>;
}

interface Line {
  session: { id: string };
  _socket: Socket;
}

/** On a free port of this machine. `fate` is asked once a message was handed over whole. */
export async function meanMailServer(
  fate: (message: Handed) => Fate | Promise<Fate>,
  options: SMTPServerOptions = {},
): Promise<MeanServer> {
  const handed: MeanServer['handed'] = [];
  const lines = { all: 0, atOnce: 0 };
  const open = () => [...(server.connections as unknown as Set<Line>)];
  const socketOf = (id: string) => open().find((line) => line.session.id === id)?._socket;
  const underWay = new Map<string, number>();
  const server = new SMTPServer({
    disabledCommands: ['STARTTLS'],
    authOptional: true,
    disableReverseLookup: true,
    socketTimeout: 600_000,
    ...options,
    onConnect(_session, settle) {
      lines.all++;
      lines.atOnce = Math.max(lines.atOnce, open().length);
      settle();
    },
    onData(stream, session, settle) {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      const taken = async () => {
        const message = read(Buffer.concat(parts).toString('latin1'), session.envelope.rcptTo[0]?.address);
        const now = (underWay.get(message.messageId) ?? 0) + 1;
        underWay.set(message.messageId, now);
        mean.doubled = Math.max(mean.doubled, now);
        const what = await fate(message);
        handed.push({ ...message, fate: what });
        const over = () => underWay.set(message.messageId, (underWay.get(message.messageId) ?? 1) - 1);
        if (what === 'stall') return void socketOf(session.id)?.once('close', over);
        over();
        if (what === 'take') return settle();
        if (what === 'take and cut') return void socketOf(session.id)?.destroy();
        settle(Object.assign(new Error('said the server'), { responseCode: what }));
      };
      stream.on('end', () => void taken());
    },
  });
  server.on('error', () => {}); // what a client breaks off is the client's business
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.server.address() as AddressInfo;
  const hangUp = () => {
    for (const line of open()) line._socket.destroy();
  };
  const mean: MeanServer = {
    url: `smtp://127.0.0.1:${port}`,
    handed,
    lines,
    doubled: 0,
    open: () => open().length,
    hangUp,
    close: () => {
      hangUp();
      return new Promise((done) => server.close(() => done()));
    },
  };
  return mean;
}

function read(raw: string, to = ''): Handed {
  const head = raw.slice(0, raw.indexOf('\r\n\r\n')).replace(/\r\n[\t ]+/g, ' ');
  const header = (name: string) => new RegExp(`^${name}: *(.*)$`, 'im').exec(head)?.[1] ?? '';
  return { to, messageId: header('Message-ID'), subject: header('Subject'), raw };
}
