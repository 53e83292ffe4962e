// Somebody's calendar for tests, and a server of ours that gives it out, well or badly.
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A calendar with entries of these lines. */
export function calendarOf(...entries: string[][]): string {
  const lines = entries.flatMap((one, at) => [
    'BEGIN:VEVENT',
    `UID:${at}@example.org`,
    'DTSTAMP:20261101T000000Z',
    ...one,
    'END:VEVENT',
  ]);
  return ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//test//EN', ...lines, 'END:VCALENDAR', ''].join('\r\n');
}

export type Answering = (request: IncomingMessage, reply: ServerResponse) => void;

export interface CalendarServer {
  /** By path; what is not there is answered 404. */
  at: Map<string, Answering>;
  /** What was asked, with the headers. */
  asked: IncomingMessage[];
  port: number;
  close(): Promise<void>;
}

/** On this machine's loopback. */
export async function openCalendarServer(): Promise<CalendarServer> {
  const at = new Map<string, Answering>();
  const asked: IncomingMessage[] = [];
  const server: Server = createServer((request, reply) => {
    asked.push(request);
    const answering = at.get(request.url ?? '');
    if (answering) answering(request, reply);
    else reply.writeHead(404).end();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    at,
    asked,
    port: (server.address() as AddressInfo).port,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

export const gives =
  (body: string | Buffer, headers: Record<string, string> = {}, status = 200): Answering =>
  (_request, reply) => {
    reply.writeHead(status, { 'content-type': 'text/calendar; charset=utf-8', ...headers }).end(body);
  };
