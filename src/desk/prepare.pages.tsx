// Preparation on the phone: what is late, what is for today, and the two weeks to come, each with one tap to tick it
// and one to take that back. The owner's rules stand on a page of their own (prepare-rules.pages.tsx).
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, NumberField, TextArea } from '../platform/html/kit/form.js';
import { Notice as Warning } from '../platform/html/kit/notices.js';
import type { DueTask } from '../stock/due.calc.js';
import type { DayAhead, Task } from '../stock/preparation.calc.js';
import type { StudioDay } from '../stock/preparation.schemas.js';
import type { Preparation } from '../stock/preparation.service.js';
import { minutesInWords } from '../stock/preparation-words.calc.js';
import { DeskPage } from './frame.pages.js';
import { shortDay } from './words.calc.js';
import {
  DAYS_SHOWN,
  type SentForm,
  type PreparePageProps,
  preparePath,
  TaskList,
} from './prepare-task.pages.js';

export function PreparePage({ visit, found, due, notice, sent }: PreparePageProps) {
  const { tasks, today } = found;
  const inDays = (task: Task) => today.until(task.day).days;
  const late = tasks.filter(
    (task) => inDays(task) < 0 && !task.done && today.until(task.ahead.date).days >= 0,
  );
  const ahead = tasks.filter((task) => inDays(task) >= 0);
  const near = ahead.filter((task) => inDays(task) <= DAYS_SHOWN);
  const [next] = ahead;
  const soon =
    near.length > 0 ? near : ahead.filter((task) => next && task.ahead.date.equals(next.ahead.date));
  const days = [...new Set(soon.map((task) => task.day.toString()))];
  const left = near.filter((task) => !task.done);
  return (
    <DeskPage visit={visit} title="Prepare" at="/prepare" notice={notice} errors={sent?.errors}>
      <p>{leftInWords([...left, ...late], due)}</p>
      {visit.account.role === 'owner' && (
        <p class="actions">
          <a href={preparePath(visit, '/rules')}>Change what is prepared</a>
        </p>
      )}
      {near.length === 0 && next && <p>The next day to prepare for is {dayInWords(next.ahead.date)}.</p>}
      <Alarms visit={visit} due={due} />
      {late.length > 0 && (
        <section class="tasks">
          <h2>Left over</h2>
          <TaskList visit={visit} tasks={late} found={found} sent={sent} withDay />
        </section>
      )}
      {days.map((day) => {
        const ofDay = soon.filter((task) => task.day.toString() === day);
        const [first] = ofDay;
        return (
          first && (
            <section class="tasks" key={day}>
              <h2>{headOf(first.day, today)}</h2>
              <TaskList visit={visit} tasks={ofDay} found={found} sent={sent} />
            </section>
          )
        );
      })}
      <Due visit={visit} due={due.filter(({ alarm }) => !alarm)} />
      <RoomOfDay visit={visit} found={found} sent={sent} />
    </DeskPage>
  );
}

function leftInWords(left: Task[], due: DueTask[]): string {
  if (left.length > 0)
    return `${minutesInWords(left.reduce((sum, one) => sum + one.minutes, 0))} of work in the next two weeks, worked back from the days on which somebody sits.`;
  return due.length > 0
    ? 'No task is left in the next two weeks but what stands below.'
    : 'Nothing is left to do in the next two weeks.';
}

/** Days that cannot be held and things that cannot be had in time, as things stand: before anything else to prepare. */
function Alarms({ visit, due }: { visit: StaffVisit; due: DueTask[] }) {
  const alarms = due.filter(({ alarm }) => alarm);
  if (alarms.length === 0) return null;
  return (
    <Warning tone="warn">
      {alarms.map(({ key, by, what, why, path }) => (
        <p key={`${key} ${by}`}>
          <a href={`/s/${visit.studio.slug}/desk${path}`}>{what}</a>. {why}
        </p>
      ))}
    </Warning>
  );
}

/** Mixing, ordering and the care of baths: done where they belong, so they are no ticks. */
function Due({ visit, due }: { visit: StaffVisit; due: DueTask[] }) {
  if (due.length === 0) return null;
  return (
    <>
      <h2>By a date</h2>
      <ul>
        {due.map(({ key, by, what, why, path }) => (
          <li key={`${key} ${by}`}>
            <a href={`/s/${visit.studio.slug}/desk${path}`}>{what}</a>, by {shortDay(by)}.{' '}
            <span class="small">{why}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** "Today, Wednesday 25 November". */
function headOf(day: Temporal.PlainDate, today: Temporal.PlainDate): string {
  const away = today.until(day).days;
  const word = away === 0 ? 'Today, ' : away === 1 ? 'Tomorrow, ' : '';
  return `${word}${shortDay(day)}`;
}

interface RoomOfDayProps {
  visit: StaffVisit;
  found: Preparation;
  sent: SentForm | undefined;
}

/** How warm and damp the room is on the next day with people; what it says of heat and cold follows. */
function RoomOfDay({ visit, found, sent }: RoomOfDayProps) {
  const { ahead, today, days } = found;
  const next = ahead
    .filter(({ date }) => today.until(date).days >= 0)
    .reduce<DayAhead | null>(
      (first, one) => (first === null || first.date.until(one.date).days < 0 ? one : first),
      null,
    );
  const day = sent?.form.startsWith('day ') ? sent.form.slice(4) : next?.date.toString();
  if (day === undefined) return null;
  const known = days.find((one) => one.day.toString() === day);
  const named = [...ahead.map(({ date }) => date), ...days.map((one) => one.day)].find(
    (date) => date.toString() === day,
  );
  return (
    <Card title={`The room on ${named ? dayInWords(named) : 'that day'}`}>
      <p>Tasks for a hot or a cold room go by this; until it is written down, by the season.</p>
      <Form
        action={preparePath(visit, '/day')}
        csrf={visit.formToken}
        label="The room of the day"
        values={sent?.form === `day ${day}` ? sent.values : roomValues(known)}
        shown={roomValues(known)}
        errors={sent?.form === `day ${day}` ? sent.errors : []}
      >
        <input type="hidden" name="day" value={day} />
        <NumberField name="roomTemperature" label="Temperature" unit="°C" decimal optional />
        <NumberField name="humidity" label="Humidity" unit="%" optional />
        <TextArea name="note" label="A note" rows={2} optional />
        <Button kind="quiet">Write it down</Button>
      </Form>
    </Card>
  );
}

export const roomValues = (known: StudioDay | undefined) => ({
  roomTemperature: known?.roomTemperature ?? '',
  humidity: known?.humidity ?? '',
  note: known?.note ?? '',
});
