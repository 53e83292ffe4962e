// What is still owed after the day, sitting by sitting, what is late first; one tap a step, and one to take it back.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { countsOf, type OwedCounts, type OwedStep } from '../../plates/owed.calc.js';
import type { OwedList } from '../../plates/owed.service.js';
import type { Notice } from '../frame.pages.js';
import { platesInWords, shortDay } from '../words.calc.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface OwedProps {
  visit: StaffVisit;
  list: OwedList;
  notice?: Notice | undefined;
}

type Entry = OwedList['entries'][number];

export function OwedPage({ visit, list, notice }: OwedProps) {
  const here = list.entries.filter((one) => one.owed.finishedAt === null);
  const gone = list.entries.filter((one) => one.owed.finishedAt !== null);
  return (
    <PlatesFrame visit={visit} title="Still owed" at="/owed" notice={notice}>
      <p>{owedInWords(countsOf(list.entries.map((one) => one.owed)))}</p>
      {here.map((entry) => (
        <OneSitting key={entry.owed.sittingId} visit={visit} entry={entry} today={list.today} />
      ))}
      {gone.length > 0 && (
        <details>
          <summary>Done in the last seven days ({gone.length})</summary>
          {gone.map((entry) => (
            <OneSitting key={entry.owed.sittingId} visit={visit} entry={entry} today={list.today} />
          ))}
        </details>
      )}
    </PlatesFrame>
  );
}

/** "5 things are owed for the plates of 2 sittings, one of them late." */
export function owedInWords({ sittings, steps, late }: OwedCounts): string {
  if (sittings === 0) return 'Nothing is owed: the plates of every sitting have left.';
  const what = steps === 1 ? 'One thing is owed' : `${steps} things are owed`;
  const whose = `for the plates of ${counted(sittings, 'sitting')}`;
  if (late === 0) return `${what} ${whose}.`;
  if (late === steps) return `${what} ${whose}, and ${steps === 1 ? 'it is' : 'all of them are'} late.`;
  return `${what} ${whose}, ${late === 1 ? 'one' : late} of them late.`;
}

interface OneProps {
  visit: StaffVisit;
  entry: Entry;
  today: Temporal.PlainDate;
}

function OneSitting({ visit, entry, today }: OneProps) {
  const { owed, view } = entry;
  const names = namesOf(entry);
  const open = owed.steps.filter((one) => one.done === null);
  const done = owed.steps.filter((one) => one.done !== null);
  return (
    <section class="tasks" id={`sitting-${owed.sittingId}`}>
      <h2>{names}</h2>
      <p class="small">
        Sat on {dayInWords(owed.day)} · {platesInWords(view)}
        {view.kind && ` · ${view.kind.name}`}
      </p>
      <Steps visit={visit} entry={entry} today={today} steps={open} />
      {done.length > 0 && (
        <details>
          <summary>
            Done: {done.map((one) => one.step.what).join(', ')}
            <span class="unseen">, for {names}</span>
          </summary>
          <Steps visit={visit} entry={entry} today={today} steps={done} />
        </details>
      )}
    </section>
  );
}

const namesOf = ({ view }: Entry) => view.sitters.map((one) => one.name).join(', ');

function Steps({ steps, ...props }: OneProps & { steps: OwedStep[] }) {
  if (steps.length === 0) return null;
  return (
    <ul class="task-list">
      {steps.map((one) => (
        <OneStep key={one.step.id} {...props} one={one} />
      ))}
    </ul>
  );
}

function OneStep({ visit, entry, one, today }: OneProps & { one: OwedStep }) {
  const names = namesOf(entry);
  const { step, done, late } = one;
  const over = entry.owed.finishedAt !== null;
  return (
    <li class={done ? 'done' : undefined}>
      <div>
        <p class="task-what">
          <strong>{step.what}</strong>
          {done && <Tag tone="good">done by {done.who}</Tag>}
          {late && <Tag tone="warn">late</Tag>}
        </p>
        {!done && (
          <p class="small">{over ? 'Not done before the plates left.' : dueInWords(one.due, today)}</p>
        )}
      </div>
      {(done || !over) && (
        <Form
          action={deskPath(visit, `/owed/${entry.owed.sittingId}/done`)}
          csrf={visit.formToken}
          label={`${done ? 'Not done' : 'Done'}: ${step.what}, ${names}`}
        >
          <input type="hidden" name="step" value={step.id} />
          <input type="hidden" name="done" value={done ? 'no' : 'yes'} />
          <Button kind="quiet">
            {done ? 'Not done after all' : step.leaves ? 'Done, they have left' : 'Done'}
            <span class="unseen">
              : {step.what}, {names}
            </span>
          </Button>
        </Form>
      )}
    </li>
  );
}

/** "By Friday 2 April", "by today", "since 3 days": the year is told by what stands above. */
function dueInWords(due: Temporal.PlainDate, today: Temporal.PlainDate): string {
  const days = today.until(due).days;
  if (days === 0) return 'By today.';
  if (days === 1) return 'By tomorrow.';
  if (days > 0) return `By ${shortDay(due)}.`;
  return `It was due on ${shortDay(due)}, ${counted(-days, 'day')} ago.`;
}
