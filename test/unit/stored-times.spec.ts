// What PostgreSQL and Temporal write of instants and wall times is read as Temporal reads any text, also on the short way for
// whole seconds; and an instant is written to its last digit.
import { expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { readInstant, readWall, writeInstant } from '../../src/lib/stored-times.js';
import { toDriver, typeReaders } from '../../src/platform/db/pg-types.js';

const [INSTANT, WALL_TIME] = [1184, 1114];
const DAYS = [
  '0044-03-15',
  '0099-12-31',
  '0100-01-01',
  '1582-10-15',
  '1999-12-31',
  '2024-02-29',
  '2027-03-05',
  '9999-12-31',
];
const TIMES = [
  '00:00:00',
  '09:30:00',
  '23:59:59',
  '09:30:00.5',
  '09:30:00.123',
  '09:30:00.123456',
  '09:30:00.000001',
];
const all = DAYS.flatMap((day) => TIMES.map((time) => `${day} ${time}`));

it.each(all)('%s', (text) => {
  const iso = text.replace(' ', 'T');
  const instant = Temporal.Instant.from(`${iso}Z`);
  const fromDriver = typeReaders.getTypeParser(INSTANT)(`${text}+00`) as Temporal.Instant;
  const read = [fromDriver, readInstant(`${iso}Z`), readInstant(instant.toString())];
  expect(read.map(({ epochNanoseconds }) => epochNanoseconds)).toEqual(
    Array(3).fill(instant.epochNanoseconds),
  );
  expect(Temporal.Instant.from(writeInstant(instant)).equals(instant)).toBe(true);
  expect(toDriver([instant])).toEqual([writeInstant(instant)]);

  const wall = Temporal.PlainDateTime.from(iso);
  const wallFromDriver = typeReaders.getTypeParser(WALL_TIME)(text) as Temporal.PlainDateTime;
  expect([wallFromDriver, readWall(iso)].every((one) => one.equals(wall))).toBe(true);
});
