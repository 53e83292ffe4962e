// Preparation on the phone: what is late, what is for today, and the two weeks to come, each with one tap to tick it
// and one to take that back. The owner's rules stand on a page of their own (prepare-rules.pages.tsx).
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, monthName, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form, NumberField, TextArea } from '../platform/html/kit/form.js';
import { Notice as Warning, Tag } from '../platform/html/kit/notices.js';
import type { FieldProblem } from '../platform/problems.js';
import type { DueTask } from '../stock/due.calc.js';
import type { DayAhead, Task } from '../stock/preparation.calc.js';
import type { StudioDay } from '../stock/preparation.schemas.js';
import type { Preparation } from '../stock/preparation.service.js';
import { minutesInWords, taskInWords } from '../stock/preparation-words.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { shortDay } from './words.calc.js';

/** So many days ahead stand on the page. */
export const DAYS_SHOWN = 14;

export interface SentForm {
  /** Which of the page's forms: "move DAY RULE" or "day DAY". */
  form: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

interface PreparePageProps {
  visit: StaffVisit;
  found: Preparation;
  /** What of baths and shelf must be done by a date. */
  due: DueTask[];
  notice?: Notice | undefined;
  sent?: SentForm | undefined;
}

export const preparePath = (visit: StaffVisit, path = '') => `/s/${visit.studio.slug}/desk/prepare${path}`;

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
      <p>
        {left.length + late.length === 0
          ? 'Nothing is left to do in the next two weeks.'
          : `${minutesInWords([...left, ...late].reduce((sum, one) => sum + one.minutes, 0))} of work in the next two weeks, worked back from the days on which somebody sits.`}
      </p>
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

/** Days that cannot be held as things stand: before anything that is prepared for them. */
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

interface TaskListProps {
  visit: StaffVisit;
  tasks: Task[];
  found: Preparation;
  sent: SentForm | undefined;
  withDay?: boolean;
}

function TaskList({ visit, tasks, found, sent, withDay = false }: TaskListProps) {
  return (
    <ul class="task-list">
      {tasks.map((task) => (
        <OneTask
          key={`${task.ahead.date} ${task.rule.id}`}
          visit={visit}
          task={task}
          sizes={found.sizes}
          sent={sent}
          withDay={withDay}
        />
      ))}
    </ul>
  );
}

const idOf = ({ ahead, rule }: Task) => `task-${ahead.date}-${rule.id}`;

interface OneTaskProps {
  visit: StaffVisit;
  task: Task;
  sizes: PlateSize[];
  sent: SentForm | undefined;
  withDay: boolean;
}

function OneTask({ visit, task, sizes, sent, withDay }: OneTaskProps) {
  const { rule, ahead, done } = task;
  const words = taskInWords(task, sizes);
  return (
    <li id={idOf(task)} class={done ? 'done' : undefined}>
      <div>
        <p class="task-what">
          <strong>{words}</strong>
          {done && <Tag tone="good">done{task.who === '' ? '' : ` by ${task.who}`}</Tag>}
        </p>
        <p class="small">
          {withDay && `${shortDay(task.day)}, `}
          {timeInWords(task.from)} to {timeInWords(task.until)} ({minutesInWords(task.minutes)}) · for{' '}
          {ahead.kind === 'teaching' ? 'the teaching day on ' : ''}
          {shortDay(ahead.date)}
          {rule.darkroom && ' · darkroom'}
          {task.moved && ' · put here by you'}
          {!task.free && ' · no free day before it'}
        </p>
        {rule.note !== '' && !done && <p class="small">{rule.note}</p>}
      </div>
      <Form
        action={preparePath(visit, '/tick')}
        csrf={visit.formToken}
        label={`${done ? 'Not done' : 'Done'}: ${words}, for ${shortDay(ahead.date)}`}
      >
        <Which task={task} />
        <input type="hidden" name="done" value={done ? 'no' : 'yes'} />
        <Button kind={done ? 'quiet' : 'primary'}>
          {done ? 'Not done after all' : 'Done'}
          <span class="unseen">: {words}</span>
        </Button>
      </Form>
      {!done && <MoveForm visit={visit} task={task} words={words} sent={sent} />}
    </li>
  );
}

function Which({ task: { ahead, rule } }: { task: Task }) {
  return (
    <>
      <input type="hidden" name="day" value={ahead.date.toString()} />
      <input type="hidden" name="rule" value={rule.id} />
    </>
  );
}

interface MoveFormProps {
  visit: StaffVisit;
  task: Task;
  words: string;
  sent: SentForm | undefined;
}

function MoveForm({ visit, task, words, sent }: MoveFormProps) {
  const mine = sent?.form === `move ${task.ahead.date} ${task.rule.id}`;
  return (
    <details class="move" open={mine}>
      <summary>
        Another day<span class="unseen"> for: {words}</span>
      </summary>
      <Form
        action={preparePath(visit, '/move')}
        csrf={visit.formToken}
        label={`Another day for ${words}, ${shortDay(task.ahead.date)}`}
        values={mine ? sent.values : dateValues('to', task.day)}
        errors={mine ? sent.errors : []}
      >
        <Which task={task} />
        {mine ? (
          <DateField name="to" label="On which day" hint="Empty: the day the rule finds." optional />
        ) : (
          <PlainDate task={task} />
        )}
        <Button kind="quiet">Put it there</Button>
      </Form>
    </details>
  );
}

/** A date field of each task would give many fields one id: until it was sent wrong, each has ids of its own. */
function PlainDate({ task }: { task: Task }) {
  const own = `${idOf(task)}-to`;
  const boxes = [
    ['day', 'Day', String(task.day.day), 'two'],
    ['month', 'Month', monthName(task.day.month), 'month'],
    ['year', 'Year', String(task.day.year), 'four'],
  ] as const;
  return (
    <fieldset class="field date">
      <legend>
        On which day <span class="optional">(optional)</span>
      </legend>
      <p class="hint">Empty: the day the rule finds.</p>
      <div class="boxes">
        {boxes.map(([part, label, value, size]) => (
          <div key={part}>
            <label for={`${own}-${part}`}>{label}</label>
            <input
              id={`${own}-${part}`}
              class={size}
              type="text"
              name={`to-${part}`}
              value={value}
              autocomplete="off"
              inputMode={part === 'month' ? undefined : 'numeric'}
            />
          </div>
        ))}
      </div>
    </fieldset>
  );
}

const dateValues = (name: string, { day, month, year }: Temporal.PlainDate) => ({
  [`${name}-day`]: String(day),
  [`${name}-month`]: monthName(month),
  [`${name}-year`]: String(year),
});

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

const roomValues = (known: StudioDay | undefined) => ({
  roomTemperature: known?.roomTemperature ?? '',
  humidity: known?.humidity ?? '',
  note: known?.note ?? '',
});
