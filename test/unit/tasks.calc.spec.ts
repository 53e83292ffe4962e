// The tasks feed as text: byte for byte as it was read over, and as two programs that are not ours read it.
import { readFileSync, writeFileSync } from 'node:fs';
import { Temporal } from 'temporal-polyfill';
import { buildFeed } from '../../src/calendar/ics.calc.js';
import { dueEntry } from '../../src/calendar/tasks.calc.js';
import { contentLines } from '../support/calendar-entries.js';
import { byIcalJs, byNodeIcal } from '../support/calendar-readers.js';
import { SOURCE, taskFeed } from '../support/task-entries.js';

const TEXT = buildFeed(taskFeed());

describe('the feed of tasks', () => {
  it('is byte for byte as reviewed', () => {
    const file = new URL('../golden/calendar/tasks.ics', import.meta.url);
    if (process.env.UPDATE_GOLDEN) writeFileSync(file, TEXT);
    expect(TEXT).toBe(readFileSync(file, 'utf8'));
  });

  it.each([
    ['ical.js', byIcalJs],
    ['node-ical', byNodeIcal],
  ])('is read by %s at the hours of the studio, summer and winter', (_name, read) => {
    const told = read(TEXT);
    const { entries } = taskFeed();
    expect(told.size).toBe(entries.length);
    for (const entry of entries) {
      const seconds = (instant: { epochMilliseconds: number }) =>
        new Date(instant.epochMilliseconds).toISOString();
      expect(told.get(entry.uid)).toEqual({
        status: 'CONFIRMED',
        sequence: 41,
        starts: seconds(entry.startInstant),
        ends: seconds(entry.endInstant),
        revised: seconds(entry.revisedAt),
      });
    }
    const hours = [...told.values()].map((one) => one.starts.slice(5, 16));
    expect(hours).toContain('05-13T08:00'); // nine by the clock in May
    expect(hours).toContain('11-18T09:00'); // and in November
  });

  it('has uids of letters, digits and hyphens that name no host, each once', () => {
    const uids = contentLines(TEXT)
      .filter((line) => line.startsWith('UID:'))
      .map((line) => line.slice(4));
    expect(uids.filter((uid) => !/^[A-Za-z0-9-]{1,250}$/.test(uid))).toEqual([]);
    expect(new Set(uids).size).toBe(uids.length);
  });

  it('says done of what is done, and leaves that time free', () => {
    const events = TEXT.split('BEGIN:VEVENT').filter((event) => event.includes('SUMMARY:Done: '));
    expect(events).toHaveLength(1);
    expect(events[0]).toContain('TRANSP:TRANSPARENT');
    expect(TEXT).not.toContain('Tobias');
  });

  it('gives what is reckoned ahead from today as revised when the day began, unless an act came later', () => {
    const by = Temporal.PlainDate.from('2027-05-13');
    const due = { key: 'mix', by, what: 'Mix', why: '', path: '' };
    expect(dueEntry(due, SOURCE, '').revisedAt.toString()).toBe('2027-05-04T00:00:00Z');
    const later = { ...SOURCE, raisedAt: SOURCE.dayBegan.add({ hours: 2 }) };
    expect(dueEntry(due, later, '').revisedAt.toString()).toBe('2027-05-04T02:00:00Z');
  });
});
