// What PostgreSQL writes of instants and wall times is read as Temporal reads any text, also on the short way for whole seconds.
import { expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { typeReaders } from '../../src/platform/db/pg-types.js';

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
const TIMES = ['00:00:00', '09:30:00', '23:59:59', '09:30:00.5', '09:30:00.123456'];
const all = DAYS.flatMap((day) => TIMES.map((time) => `${day} ${time}`));

it.each(all)('%s', (text) => {
  const iso = text.replace(' ', 'T');
  const instant = typeReaders.getTypeParser(INSTANT)(`${text}+00`) as Temporal.Instant;
  expect(instant.equals(Temporal.Instant.from(`${iso}Z`))).toBe(true);
  const wall = typeReaders.getTypeParser(WALL_TIME)(text) as Temporal.PlainDateTime;
  expect(wall.equals(Temporal.PlainDateTime.from(iso))).toBe(true);
});
