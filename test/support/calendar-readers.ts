// Two programs that are not ours reading a calendar: ical.js and node-ical, by the uid of each event.
import ICAL from 'ical.js';
import nodeIcal, { type VEvent } from 'node-ical';

/** What a calendar tells of one event; times as ISO instants. */
export interface Told {
  status: unknown;
  sequence: unknown;
  starts: string;
  ends: string;
  revised: string;
}

/** What ical.js, which goes by the file's VTIMEZONE, reads of each event. */
export function byIcalJs(text: string): Map<string, Told> {
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
  const instant = (time: ICAL.Time) => time.toJSDate().toISOString();
  return new Map(
    events.map((one) => {
      const { startDate, endDate, uid } = new ICAL.Event(one);
      const told = {
        status: one.getFirstPropertyValue('status'),
        sequence: one.getFirstPropertyValue('sequence'),
        starts: instant(startDate),
        ends: instant(endDate),
        revised: instant(one.getFirstPropertyValue('last-modified') as ICAL.Time),
      };
      return [uid, told];
    }),
  );
}

/** The same by node-ical, which goes by the zone's name. */
export function byNodeIcal(text: string): Map<string, Told> {
  const events = Object.values(nodeIcal.sync.parseICS(text)).filter(
    (one): one is VEvent => one?.type === 'VEVENT',
  );
  return new Map(
    events.map((one) => [
      one.uid,
      {
        status: one.status,
        sequence: Number(one.sequence),
        starts: one.start.toISOString(),
        ends: (one.end as Date).toISOString(),
        revised: one.lastmodified?.toISOString() ?? '',
      },
    ]),
  );
}

/** What an event says. */
export interface Words {
  summary: string;
  description: string;
  location: string;
}

/** The texts of each event as ical.js reads them. */
export function wordsByIcalJs(text: string): Map<string, Words> {
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
  return new Map(
    events.map((one) => {
      const said = (name: string) => String(one.getFirstPropertyValue(name) ?? '');
      const words = {
        summary: said('summary'),
        description: said('description'),
        location: said('location'),
      };
      return [said('uid'), words];
    }),
  );
}

/** The same by node-ical. */
export function wordsByNodeIcal(text: string): Map<string, Words> {
  const events = Object.values(nodeIcal.sync.parseICS(text)).filter(
    (one): one is VEvent => one?.type === 'VEVENT',
  );
  const plain = (value: unknown) =>
    value === undefined ? '' : typeof value === 'string' ? value : String((value as { val: unknown }).val);
  return new Map(
    events.map((one) => [
      one.uid,
      { summary: plain(one.summary), description: plain(one.description), location: plain(one.location) },
    ]),
  );
}
