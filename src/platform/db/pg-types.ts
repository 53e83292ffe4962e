// How PostgreSQL's values become ours, at the driver's door: instants, plain dates, exact integers.
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { readInstant, readWall, writeInstant } from '../../lib/stored-times.js';

const readers: Record<number, (text: string) => unknown> = {
  20: (text) => BigInt(text), // int8
  1082: (text) => Temporal.PlainDate.from(text), // date
  1182: (text) => pgArray(text).map((day) => Temporal.PlainDate.from(day)), // date[]
  1114: readWall, // timestamp
  1184: readInstant, // timestamptz; the session is in UTC
};

/** Dates never hold commas or quotes, so the plain split is enough here. */
const pgArray = (text: string): string[] => (text === '{}' ? [] : text.slice(1, -1).split(','));

export const typeReaders = {
  getTypeParser: (oid: number, format?: 'text' | 'binary') =>
    readers[oid] ?? pg.types.getTypeParser(oid, format ?? 'text'),
};

/** Turns our values into what the driver can send; plain objects go as JSON by themselves. */
export function toDriver(value: unknown): unknown {
  if (value instanceof Temporal.Instant) return writeInstant(value);
  if (value instanceof Temporal.PlainDate || value instanceof Temporal.PlainDateTime) return value.toString();
  if (typeof value === 'bigint') return value.toString();
  if (Array.isArray(value)) return value.map(toDriver);
  return value;
}
