// Working back from the days with people to free working days.
import { Temporal } from 'temporal-polyfill';
import {
  appliesTo,
  type Circumstances,
  type DayAhead,
  DAYS_BACK,
  minutesOf,
  tasksOf,
} from '../../src/stock/preparation.calc.js';
import type { Rule } from '../../src/stock/preparation.schemas.js';
import { USUAL_RULES } from '../../src/stock/preparation-rules.calc.js';
import { taskInWords } from '../../src/stock/preparation-words.calc.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const ahead = (date: string, more: Partial<DayAhead> = {}): DayAhead => ({
  date: day(date),
  kind: 'studio',
  begins: Temporal.PlainTime.from('09:30'),
  sheets: [],
  roomTemperature: null,
  ...more,
});
const rule = (id: string, more: Partial<Rule> = {}): Rule => ({
  id,
  position: 1,
  what: `Task ${id}`,
  forDay: 'both',
  daysBefore: 1,
  minutes: 30,
  minutesEach: 0,
  darkroom: false,
  notWith: null,
  condition: 'always',
  amount: 'none',
  note: '',
  archived: false,
  ...more,
});
const plan = (days: DayAhead[], rules: Rule[], more: Partial<Circumstances> = {}) =>
  tasksOf(days, { rules, moves: [], ticks: [], worksOn: () => true, south: false, ...more });
const placed = (tasks: ReturnType<typeof tasksOf>) =>
  tasks.map((task) => `${task.rule.id} for ${task.ahead.date}: ${task.from.toString().slice(0, 16)}`);

describe('a task', () => {
  it('stands on the day its rule names, from the beginning of work on, one after the other', () => {
    const tasks = plan([ahead('2027-05-14')], [rule('a'), rule('b', { minutes: 45 })]);
    expect(placed(tasks)).toEqual([
      'a for 2027-05-14: 2027-05-13T09:00',
      'b for 2027-05-14: 2027-05-13T09:30',
    ]);
    expect(tasks[1]?.until.toString()).toBe('2027-05-13T10:15:00');
  });

  it('of the day itself is done when the first person comes', () => {
    const rules = [
      rule('test', { daysBefore: 0, minutes: 30 }),
      rule('warm', { daysBefore: 0, minutes: 20 }),
    ];
    expect(placed(plan([ahead('2027-05-14')], rules))).toEqual([
      'test for 2027-05-14: 2027-05-14T08:40',
      'warm for 2027-05-14: 2027-05-14T09:10',
    ]);
  });

  it('goes back over days with people and days off to the first that is free', () => {
    const days = [ahead('2027-05-14'), ahead('2027-05-15')]; // Friday, Saturday
    const thursday = (date: Temporal.PlainDate) => date.dayOfWeek === 4;
    const tasks = plan(days, [rule('a')], { worksOn: (date) => !thursday(date) });
    expect(tasks.map((task) => [task.ahead.date.toString(), task.day.toString(), task.free])).toEqual([
      ['2027-05-14', '2027-05-12', true],
      ['2027-05-15', '2027-05-12', true],
    ]);
  });

  it('is never on one day with a rule it must not meet, whichever of the two says so', () => {
    for (const rules of [
      [rule('glass'), rule('decant', { notWith: 'glass' })],
      [rule('glass', { notWith: 'decant' }), rule('decant')],
    ])
      expect(plan([ahead('2027-05-14')], rules).map((task) => `${task.rule.id} ${task.day}`)).toEqual([
        'decant 2027-05-12',
        'glass 2027-05-13',
      ]);
  });

  it('keeps out of the way of another day’s task too', () => {
    const rules = [rule('glass'), rule('decant', { daysBefore: 2, notWith: 'glass' })];
    // decanting for the second day would meet the glass of the first
    const tasks = plan([ahead('2027-05-13'), ahead('2027-05-14')], rules);
    const of = (id: string, date: string) =>
      tasks.find((task) => task.rule.id === id && task.ahead.date.toString() === date)?.day.toString();
    expect(of('glass', '2027-05-13')).toBe('2027-05-12');
    expect(of('glass', '2027-05-14')).toBe('2027-05-12');
    expect(of('decant', '2027-05-14')).toBe('2027-05-11');
  });

  it('fills no day with more than eight hours, and one longer than that has a day of its own', () => {
    const rules = [rule('a', { minutes: 300 }), rule('b', { minutes: 300 }), rule('c', { minutes: 600 })];
    expect(plan([ahead('2027-05-14')], rules).map((task) => `${task.rule.id} ${task.day}`)).toEqual([
      'c 2027-05-11',
      'b 2027-05-12',
      'a 2027-05-13',
    ]);
  });

  it('says so where no day is free, and stays on its latest', () => {
    const asked: string[] = [];
    const worksOn = (date: Temporal.PlainDate) => {
      asked.push(date.toString());
      return false;
    };
    const [task] = plan([ahead('2027-05-14')], [rule('a')], { worksOn });
    expect([task?.day.toString(), task?.free]).toEqual(['2027-05-13', false]);
    expect(asked).toHaveLength(DAYS_BACK + 1);
  });

  it('stands where the owner put it, and others give way to it', () => {
    const rules = [rule('glass'), rule('decant', { notWith: 'glass' })];
    const moves = [{ day: day('2027-05-14'), ruleId: 'decant', toDay: day('2027-05-13') }];
    const tasks = plan([ahead('2027-05-14')], rules, { moves });
    expect(tasks.map((task) => [task.rule.id, task.day.toString(), task.moved])).toEqual([
      ['glass', '2027-05-12', false],
      ['decant', '2027-05-13', true],
    ]);
  });

  it('is done by the last tick, for its own day only', () => {
    const ticks = [{ day: day('2027-05-14'), ruleId: 'a', done: true, who: 'Odhran Pike' }];
    const tasks = plan([ahead('2027-05-14'), ahead('2027-05-21')], [rule('a')], { ticks });
    expect(tasks.map((task) => [task.ahead.date.toString(), task.done, task.who])).toEqual([
      ['2027-05-14', true, 'Odhran Pike'],
      ['2027-05-21', false, ''],
    ]);
  });
});

describe('a rule', () => {
  it('speaks of its kind of day', () => {
    expect(appliesTo(rule('a', { forDay: 'teaching' }), ahead('2027-05-14'), false)).toBe(false);
    expect(
      appliesTo(rule('a', { forDay: 'teaching' }), ahead('2027-05-14', { kind: 'teaching' }), false),
    ).toBe(true);
  });

  it.each([
    ['hot', '2027-07-02', null, false, true],
    ['hot', '2027-07-02', null, true, false],
    ['hot', '2027-01-08', null, true, true],
    ['cold', '2027-01-08', null, false, true],
    ['cold', '2027-05-14', null, false, false],
    ['hot', '2027-01-08', 24, false, true],
    ['hot', '2027-07-02', 23.9, false, false],
    ['cold', '2027-07-02', 14.9, false, true],
    ['cold', '2027-01-08', 15, false, false],
  ] as const)(
    'for a %s room, on %s at %s degrees, south %s: %s',
    (condition, date, degrees, south, applies) => {
      expect(appliesTo(rule('a', { condition }), ahead(date, { roomTemperature: degrees }), south)).toBe(
        applies,
      );
    },
  );

  it('takes its minutes for each sheet of the day where it counts them', () => {
    const sheets = [
      { plateSizeId: 'whole', sheets: 8n },
      { plateSizeId: 'half', sheets: 4n },
    ];
    const counting = rule('glass', {
      minutes: 15,
      minutesEach: 4,
      amount: 'sheets',
      what: 'Clean the glass',
    });
    const prepared = ahead('2027-05-14', { sheets });
    expect(minutesOf(counting, prepared)).toBe(63);
    expect(minutesOf({ ...counting, amount: 'none' }, prepared)).toBe(15);
    const sizes = [{ id: 'whole', name: 'Whole plate', widthMm: 1, heightMm: 1, offered: true, position: 1 }];
    expect(taskInWords({ rule: counting, ahead: prepared }, sizes)).toBe('Clean the glass: 8 × Whole plate');
  });

  it('is left out once it was put away', () => {
    expect(plan([ahead('2027-05-14')], [rule('a', { archived: true })])).toEqual([]);
  });
});

describe('the usual rules', () => {
  it('prepare a Friday without any of them in the way of another', () => {
    const tasks = plan([ahead('2027-05-14')], [...USUAL_RULES]);
    expect(tasks.map((task) => `${task.day} ${task.rule.position}`)).toEqual([
      '2027-05-12 2',
      '2027-05-13 1',
      '2027-05-13 3',
      '2027-05-13 4',
      '2027-05-14 5',
    ]);
    expect(tasks.every((task) => task.free)).toBe(true);
  });

  it('name rules that are there, and each once', () => {
    const ids = USUAL_RULES.map((one) => one.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(USUAL_RULES.flatMap((one) => one.notWith ?? []).filter((id) => !ids.includes(id))).toEqual([]);
  });
});
