// What the tasks feed of the invented Kittiwake Yard holds: preparation of a Friday in summer and one in winter, a task
// that is done, and the care of two baths. Names with characters that calendars escape.
import { Temporal } from 'temporal-polyfill';
import { dueEntry, preparationEntry, type TaskSource } from '../../src/calendar/tasks.calc.js';
import type { BathPlan } from '../../src/stock/bath-days.calc.js';
import type { Bath } from '../../src/stock/baths.schemas.js';
import { bathTasks } from '../../src/stock/due.calc.js';
import { type DayAhead, tasksOf } from '../../src/stock/preparation.calc.js';
import { USUAL_RULES } from '../../src/stock/preparation-rules.calc.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const DESK = 'https://kittiwake.example/s/kittiwake/desk';

export const SOURCE: TaskSource = {
  studioId: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a10',
  zone: 'Europe/London',
  counter: 41n,
  raisedAt: Temporal.Instant.from('2027-05-03T17:05:09Z'),
  dayBegan: Temporal.Instant.from('2027-05-04T00:00:00Z'),
  url: `${DESK}/prepare`,
};

const SIZES = [
  {
    id: 'whole',
    name: 'Whole plate, 6½ × 8½ in',
    widthMm: 165.1,
    heightMm: 215.9,
    offered: true,
    position: 1,
  },
  { id: 'half', name: 'Half plate; British', widthMm: 120.65, heightMm: 165.1, offered: true, position: 2 },
];

const ahead = (date: string, whole: bigint, half: bigint): DayAhead => ({
  date: day(date),
  kind: 'studio',
  begins: Temporal.PlainTime.from('09:30'),
  sheets: [
    { plateSizeId: 'whole', sheets: whole },
    { plateSizeId: 'half', sheets: half },
  ],
  roomTemperature: null,
});

const bath = (id: string, name: string): Bath => ({
  id,
  name,
  tank: 'upright tank',
  plateSizeId: 'whole',
  volume: 2_000_000n,
  leastVolume: 1_500_000n,
  targetStrength: 90_000,
  leastStrength: 70_000,
  careAfterPlates: 40,
  lotId: null,
  state: 'working',
  stateSince: day('2027-01-01'),
  stateUntil: null,
  note: '',
});

const PLAN: BathPlan = {
  days: [],
  topUps: [
    {
      bath: bath('7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a11', 'North tank, "old"'),
      by: day('2027-05-13'),
      forDay: day('2027-05-14'),
      crystals: 28_400n,
      volume: 150_000n,
    },
  ],
  cares: [
    {
      bath: bath('7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a12', 'South tank'),
      from: day('2027-11-20'),
      until: day('2027-11-23'),
    },
  ],
};

export function taskFeed() {
  const tasks = tasksOf([ahead('2027-05-14', 8n, 2n), ahead('2027-11-19', 4n, 0n)], {
    rules: USUAL_RULES,
    moves: [],
    ticks: [{ day: day('2027-05-14'), ruleId: USUAL_RULES[0]?.id ?? '', done: true, who: 'Tobias Marrick' }],
    worksOn: (date) => date.dayOfWeek <= 5,
    south: false,
  });
  return {
    name: 'Kittiwake Yard: tasks',
    refreshHours: 6,
    entries: [
      ...tasks.map((task) => preparationEntry(task, SIZES, SOURCE)),
      ...bathTasks(PLAN).map((task) => dueEntry(task, SOURCE, DESK)),
    ],
  };
}
