// What is owed after a day, worked by hand.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { countsOf, nextDue, owedOf } from '../../src/plates/owed.calc.js';
import type { Done, Step } from '../../src/plates/owed.schemas.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const at = (text: string) => Temporal.Instant.from(text);
const step = (id: string, position: number, days: number, more: Partial<Step> = {}): Step => ({
  id,
  position,
  what: id,
  days,
  leaves: false,
  archived: false,
  byKind: new Map(),
  ...more,
});
const STEPS = [step('post', 3, 14, { leaves: true }), step('scan', 1, 1), step('varnish', 2, 4)];
const friday = { sittingId: 'a', kindId: null, day: day('2027-02-26') };
const tick = (stepId: string, when = '2027-03-01T10:00Z', sittingId = 'a'): Done => ({
  sittingId,
  stepId,
  at: at(when),
  who: 'Isaura',
});
const one = (done: Done[], today = '2027-02-26', steps = STEPS, kindId: string | null = null) =>
  owedOf([{ ...friday, kindId }], steps, done, day(today))[0];
const told = (owed: ReturnType<typeof one>) =>
  owed?.steps.map(
    ({ step: { id }, due, late, done }) => `${id} ${due}${late ? ' late' : ''}${done ? ' done' : ''}`,
  );

describe('what is owed after a day', () => {
  it('is each step in the owner’s order, so many days after the day, over the end of a month', () => {
    expect(told(one([]))).toEqual(['scan 2027-02-27', 'varnish 2027-03-02', 'post 2027-03-12']);
  });

  it('is late from the day after it was due, and never once it is done', () => {
    expect(told(one([], '2027-02-27'))?.[0]).toBe('scan 2027-02-27');
    expect(told(one([], '2027-02-28'))?.[0]).toBe('scan 2027-02-27 late');
    expect(told(one([tick('scan')], '2027-02-28'))?.[0]).toBe('scan 2027-02-27 done');
  });

  it('is over once the plates have left, whatever else was not done, and again owed when that is taken back', () => {
    const gone = one([tick('post', '2027-03-03T09:00Z')], '2027-06-01');
    expect(gone?.finishedAt?.toString()).toBe('2027-03-03T09:00:00Z');
    expect(told(gone)?.some((words) => words.includes('late'))).toBe(false);
    expect(countsOf([gone].flatMap((owed) => owed ?? []))).toEqual({
      sittings: 0,
      lateSittings: 0,
      steps: 0,
      late: 0,
    });
    expect(one([], '2027-06-01')?.finishedAt).toBeNull();
  });

  it('goes by other days for a kind, and leaves out what the kind does not owe', () => {
    const steps = STEPS.map((each) =>
      each.id === 'varnish'
        ? { ...each, byKind: new Map([['series', null]]) }
        : { ...each, byKind: new Map([['series', 30]]) },
    );
    expect(told(one([], '2027-02-26', steps, 'series'))).toEqual(['scan 2027-03-28', 'post 2027-03-28']);
    expect(told(one([], '2027-02-26', steps, 'portrait'))).toHaveLength(3);
  });

  it('is nothing for a kind that owes no step, and over with the last where none lets the plates leave', () => {
    const none = STEPS.map((each) => ({ ...each, byKind: new Map([['test', null]]) }));
    expect(one([], '2027-02-26', none, 'test')).toBeUndefined();
    const stays = STEPS.map((each) => (each.leaves ? { ...each, byKind: new Map([['own', null]]) } : each));
    expect(one([tick('scan')], '2027-03-01', stays, 'own')?.finishedAt).toBeNull();
    const both = [tick('varnish', '2027-03-05T09:00Z'), tick('scan', '2027-03-04T09:00Z')];
    expect(one(both, '2027-03-06', stays, 'own')?.finishedAt?.toString()).toBe('2027-03-05T09:00:00Z');
  });

  it('forgets a step that was put away, but not that plates have left with it', () => {
    const away = STEPS.map((each) => ({ ...each, archived: each.id !== 'scan' }));
    expect(told(one([], '2027-02-26', away))).toEqual(['scan 2027-02-27']);
    expect(one([tick('post')], '2027-06-01', away)?.finishedAt).not.toBeNull();
  });

  it('stands in the order of what is due first, the late before the rest, what has left at the end', () => {
    const sat = (sittingId: string, date: string) => ({ sittingId, kindId: null, day: day(date) });
    const made = [
      sat('new', '2027-03-05'),
      sat('old', '2027-02-05'),
      sat('half', '2027-02-26'),
      sat('gone', '2027-01-01'),
    ];
    const done = [tick('scan', '2027-02-27T09:00Z', 'half'), tick('post', '2027-02-01T09:00Z', 'gone')];
    const owed = owedOf(made, STEPS, done, day('2027-03-05'));
    expect(owed.map((each) => each.sittingId)).toEqual(['old', 'half', 'new', 'gone']);
    expect(owed.map((each) => nextDue(each)?.toString())).toEqual([
      '2027-02-06',
      '2027-03-02',
      '2027-03-06',
      '2027-01-02',
    ]);
    expect(countsOf(owed)).toEqual({ sittings: 3, lateSittings: 2, steps: 8, late: 4 });
  });
});
