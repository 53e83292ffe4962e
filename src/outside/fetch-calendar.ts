// Fetches somebody's calendar from an address that a person typed in. Such an address may lead anywhere: to this machine,
// into its network, to a door that never stops sending. So each step of the way is checked anew, what a name was
// found to be is what is connected to, and time and size are bounded, also of what is packed.
import { type IncomingMessage, request as plainly } from 'node:http';
import { request as securely } from 'node:https';
import { isIP, type LookupFunction } from 'node:net';
import { createGunzip } from 'node:zlib';
import type { Failure } from './failure.calc.js';
import type { Network } from './network.js';

/** What to ask with, so that an unchanged calendar is not sent again. */
export interface Known {
  etag: string;
  lastModified: string;
}

export type Fetched =
  | { ok: true; text: string; known: Known }
  | { ok: true; text: null }
  | { ok: false; why: Failure };

class Refused extends Error {
  constructor(readonly why: Failure) {
    super(why);
  }
}

const refuse = (why: Failure): never => {
  throw new Refused(why);
};

/** `text` is null where the calendar is as it was. Never throws, and names the address to nobody. */
export async function fetchCalendar(
  address: string,
  known: Known | null,
  network: Network,
): Promise<Fetched> {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), network.mostTime);
  try {
    let url = readAddress(address, network);
    for (let hops = 0; ; hops++) {
      const answer = await ask(url, known, network, stop);
      const { statusCode: status = 0, headers } = answer;
      if ([301, 302, 303, 307, 308].includes(status)) {
        answer.destroy();
        if (hops === network.mostRedirects || !headers.location) return refuse('led about');
        const next = readAddress(new URL(headers.location, url).href, network);
        if (url.protocol === 'https:' && next.protocol === 'http:') return refuse('led about');
        url = next;
        continue;
      }
      if (status === 304 && known) {
        answer.destroy();
        return { ok: true, text: null };
      }
      if (status !== 200) {
        answer.destroy();
        return refuse(byStatus(status));
      }
      const text = await textOf(answer, network, stop.signal);
      const { etag = '', 'last-modified': lastModified = '' } = headers;
      return { ok: true, text, known: { etag, lastModified } };
    }
  } catch (error) {
    if (stop.signal.aborted) return { ok: false, why: 'too slow' };
    return { ok: false, why: error instanceof Refused ? error.why : byError(error) };
  } finally {
    clearTimeout(timer);
    stop.abort();
  }
}

/** @throws Refused for an address of another kind; what it leads to is looked at when it is asked */
function readAddress(address: string, network: Network): URL {
  // calendars are handed on as webcal, which browsers read as no address of the web and everybody means as https
  const url = parsed(address.trim().replace(/^webcals?:/i, 'https:'));
  if (!url) return refuse('no address');
  const { protocol, username, password } = url;
  if (!['http:', 'https:'].includes(protocol)) return refuse('other kind');
  if (username !== '' || password !== '') return refuse('with a password');
  const port = url.port === '' ? (protocol === 'https:' ? 443 : 80) : Number(url.port);
  return network.ports.includes(port) ? url : refuse('other door');
}

function parsed(address: string): URL | null {
  try {
    return new URL(address);
  } catch {
    return null;
  }
}

async function ask(
  url: URL,
  known: Known | null,
  network: Network,
  stop: AbortController,
): Promise<IncomingMessage> {
  const name = url.hostname.replace(/^\[|\]$/g, '');
  const found = isIP(name)
    ? [name]
    : await inTime(network.resolve(name), stop).catch(() => refuse('no such name'));
  if (found.length === 0) return refuse('no such name');
  if (!found.every((one) => network.isAllowed(one))) return refuse('not public');
  // asked again in between, the name could be found to be something else
  const pinned: LookupFunction = (_name, options, found_) => {
    const all = found.map((one) => ({ address: one, family: isIP(one) }));
    const first = all[0] ?? { address: '', family: 4 };
    if (options.all) found_(null, all);
    else found_(null, first.address, first.family);
  };
  const headers: Record<string, string> = {
    accept: 'text/calendar',
    'accept-encoding': 'gzip',
    'user-agent': 'Plateday',
  };
  if (known?.etag) headers['if-none-match'] = known.etag;
  if (known?.lastModified) headers['if-modified-since'] = known.lastModified;
  return new Promise((resolve, reject) => {
    const send = url.protocol === 'https:' ? securely : plainly;
    const asking = send(
      url,
      { headers, signal: stop.signal, lookup: pinned, agent: false, timeout: network.mostSilence },
      resolve,
    );
    asking.on('timeout', () => stop.abort()); // silence, also in the middle of a body
    asking.on('error', reject);
    asking.end();
  });
}

/** What somebody is asked who cannot be told to stop: a resolver. @throws once the time is over */
function inTime<T>(asked: Promise<T>, { signal }: { signal: AbortSignal }): Promise<T> {
  return new Promise((resolve, reject) => {
    signal.addEventListener('abort', () => reject(signal.reason), { once: true });
    asked.then(resolve, reject);
  });
}

/** The whole body, unpacked; no more than the limit is ever held. */
async function textOf(answer: IncomingMessage, network: Network, signal: AbortSignal): Promise<string> {
  const coding = (answer.headers['content-encoding'] ?? 'identity').toLowerCase();
  if (!['identity', 'gzip', 'x-gzip'].includes(coding)) return refuse('odd answer');
  const body = coding === 'identity' ? answer : answer.pipe(createGunzip());
  const broken = (error: Error) => body.destroy(error);
  const onStop = () => body.destroy(new Refused('too slow'));
  answer.on('error', broken);
  answer.on('aborted', () => broken(new Error('aborted')));
  signal.addEventListener('abort', onStop);
  const parts: Buffer[] = [];
  let size = 0;
  try {
    for await (const part of body as AsyncIterable<Buffer>) {
      size += part.length;
      if (size > network.mostBytes) return refuse('too large');
      parts.push(part);
    }
  } finally {
    answer.destroy();
    signal.removeEventListener('abort', onStop);
  }
  return new TextDecoder('utf-8').decode(Buffer.concat(parts));
}

function byStatus(status: number): Failure {
  if (status === 404 || status === 410) return 'gone';
  if (status === 401 || status === 403) return 'not let in';
  return status >= 500 || status === 429 ? 'out of order' : 'odd answer';
}

function byError(error: unknown): Failure {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (/CERT|SELF_SIGNED|UNABLE_TO_VERIFY|ALTNAME/.test(code)) return 'not trusted';
  if (code.startsWith('Z_') || code.startsWith('HPE_')) return 'odd answer';
  return 'out of order';
}
