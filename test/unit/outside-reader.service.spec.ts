// Reading somebody's calendar in a thread: the same as without one, ended when it takes too long, and nobody waits.
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { expect, test } from '@jest/globals';
import { readBusyTimes } from '../../src/outside/expand.calc.js';
import { CalendarReader } from '../../src/outside/reader.service.js';
import { calendarOf } from '../support/outside.js';

const asked = (text: string) => ({
  text,
  studioZone: 'Europe/London',
  from: Date.UTC(2027, 0),
  until: Date.UTC(2029, 0),
});
const daily = ['DTSTART;TZID=Europe/London:20260105T090000', 'DURATION:PT1H', 'RRULE:FREQ=DAILY'];
/** Comes on no day of any year. */
const never = ['DTSTART:19700101T090000', 'DURATION:PT1H', 'RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30'];

test('is what it is without a thread', async () => {
  const text = calendarOf(daily);
  const read = await new CalendarReader().read(asked(text));
  expect(read.ok && read.busy.length).toBe(731); // 2028 is a leap year
  expect(read).toEqual(readBusyTimes(asked(text)));
});

test('is ended when its time is over, and the next is read', async () => {
  const reader = new CalendarReader();
  // a thread alone takes longer than this to begin
  const late = reader.read(asked(calendarOf(daily)), { milliseconds: 1, megabytes: 256 });
  const next = reader.read(asked(calendarOf(daily)));
  expect(await late).toEqual({ ok: false, reason: 'too long' });
  expect((await next).ok).toBe(true);
});

test('leaves the loop of events free, whatever is in it', async () => {
  const many = calendarOf(...Array.from({ length: 40 }, () => [...daily]), never);
  const delays = monitorEventLoopDelay({ resolution: 5 });
  delays.enable();
  const read = await new CalendarReader().read(asked(many));
  delays.disable();
  expect(read.ok).toBe(false);
  const began = performance.now();
  readBusyTimes(asked(calendarOf(...Array.from({ length: 8 }, () => [...daily]))));
  const here = performance.now() - began;
  // a fifth of it would hold the loop so long
  expect(delays.percentile(95) / 1e6).toBeLessThan(here);
});
