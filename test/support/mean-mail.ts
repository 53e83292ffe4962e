// A mail server that is as mean as they come: it takes a message and cuts the line before it says so (RFC 1047), answers
// "not now" or "no" with what no database keeps in it, or says nothing at all. What becomes of each message is told it.
// Of SMTP it speaks what a client needs who sends one letter after the other (RFC 5321 4.5.1); a whole server would take
// half the time of what is measured.
import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';

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

const END = '\r\n.\r\n';
/** Commands may come together (RFC 2920), as most mail servers have it. */
const ANSWERS: Record<string, string> = {
  EHLO: '250-mean.example\r\n250 PIPELINING\r\n',
  DATA: '354 go on\r\n',
};

/** On a free port of this machine. `fate` is asked once a message was handed over whole. */
export async function meanMailServer(fate: (message: Handed) => Fate | Promise<Fate>): Promise<MeanServer> {
  const lines = new Set<Socket>();
  const underWay = new Map<string, number>();
  const server = createServer((line) => {
    lines.add(line);
    mean.lines.all++;
    mean.lines.atOnce = Math.max(mean.lines.atOnce, lines.size);
    line.on('close', () => lines.delete(line)).on('error', () => {}); // what a client breaks off is its business
    line.setEncoding('latin1').setNoDelay(true).write('220 mean.example\r\n');
    speak(line, (message) => void taken(line, message));
  });

  async function taken(line: Socket, message: Handed): Promise<void> {
    const { messageId } = message;
    const now = (underWay.get(messageId) ?? 0) + 1;
    underWay.set(messageId, now);
    mean.doubled = Math.max(mean.doubled, now);
    const over = () => underWay.set(messageId, (underWay.get(messageId) ?? 1) - 1);
    const what = await fate(message);
    mean.handed.push({ ...message, fate: what });
    if (what === 'stall') return void (line.destroyed ? over() : line.once('close', over));
    over();
    if (what === 'take and cut') line.destroy();
    else line.write(what === 'take' ? '250 taken\r\n' : `${what} said \0the server\r\n`);
  }

  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.address() as AddressInfo;
  const hangUp = () => {
    for (const line of lines) line.destroy();
  };
  const mean: MeanServer = {
    url: `smtp://127.0.0.1:${port}`,
    handed: [],
    lines: { all: 0, atOnce: 0 },
    doubled: 0,
    open: () => lines.size,
    hangUp,
    close: () => {
      hangUp();
      return new Promise((done) => server.close(() => done()));
    },
  };
  return mean;
}

/** The talk of one line: commands, and after DATA the message until its dot. */
function speak(line: Socket, taken: (message: Handed) => void): void {
  let heard = '';
  let to = '';
  let inData = false;
  line.on('data', (part: string) => {
    heard += part;
    line.cork();
    process.nextTick(() => line.uncork());
    for (;;) {
      const end = inData ? heard.indexOf(END) : heard.indexOf('\r\n');
      if (end < 0) return;
      const said = heard.slice(0, end);
      heard = heard.slice(end + (inData ? END.length : 2));
      if (inData) {
        inData = false;
        taken(read(said, to));
        continue;
      }
      const word = said.slice(0, 4).toUpperCase();
      if (word === 'RCPT') to = /<(.*?)>/.exec(said)?.[1] ?? '';
      inData = word === 'DATA';
      if (word === 'QUIT') line.end('221 bye\r\n');
      else line.write(ANSWERS[word] ?? '250 well\r\n');
    }
  });
}

function read(raw: string, to: string): Handed {
  const head = raw.slice(0, raw.indexOf('\r\n\r\n')).replace(/\r\n[\t ]+/g, ' ');
  const header = (name: string) => new RegExp(`^${name}: *(.*)$`, 'im').exec(head)?.[1] ?? '';
  return { to, messageId: header('Message-ID'), subject: header('Subject'), raw };
}
