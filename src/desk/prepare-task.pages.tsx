// One thing to be done before a day: its tick, another day for it, and what it is about.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { monthName, timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import type { FieldProblem } from '../platform/problems.js';
import type { DueTask } from '../stock/due.calc.js';
import type { Task } from '../stock/preparation.calc.js';
import type { Preparation } from '../stock/preparation.service.js';
import { minutesInWords, taskInWords } from '../stock/preparation-words.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { type Notice } from './frame.pages.js';
import { shortDay } from './words.calc.js';

/** So many days ahead stand on the page. */
export const DAYS_SHOWN = 14;

export interface SentForm {
  /** Which of the page's forms: "move DAY RULE" or "day DAY". */
  form: string;
  values: Record<string, unknown>;
  errors: FieldProblem[];
}

export interface PreparePageProps {
  visit: StaffVisit;
  found: Preparation;
  /** What of baths and shelf must be done by a date. */
  due: DueTask[];
  notice?: Notice | undefined;
  sent?: SentForm | undefined;
}

export const preparePath = (visit: StaffVisit, path = '') => `/s/${visit.studio.slug}/desk/prepare${path}`;

interface TaskListProps {
  visit: StaffVisit;
  tasks: Task[];
  found: Preparation;
  sent: SentForm | undefined;
  withDay?: boolean;
}

export function TaskList({ visit, tasks, found, sent, withDay = false }: TaskListProps) {
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
export function PlainDate({ task }: { task: Task }) {
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
