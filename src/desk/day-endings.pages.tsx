// How a sitting of the day goes and ended: the ticks, the endings, and taking one back, on the bright sheet.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import {
  MISSED_REASONS,
  MISSED_WORDS,
  NO_PLATE_REASONS,
  NO_PLATE_WORDS,
} from '../sittings/endings.schemas.js';
import type { DaySheet, OnSheet } from './day-sheets.service.js';

/** A form that was sent wrong: of which sitting, and what was typed. */
export interface SentWrong {
  id: string;
  values: Record<string, string>;
  errors: FieldProblem[];
}

export interface OneProps {
  visit: StaffVisit;
  sheet: DaySheet;
  one: OnSheet;
  sent?: SentWrong | undefined;
}

export const ENDED: Partial<Record<string, string>> = {
  made: 'Made',
  came_no_plate: 'Came, no plate',
  did_not_come: 'Did not come',
};
const REASONS: Record<string, string> = { ...NO_PLATE_WORDS, ...MISSED_WORDS };

/** One choice each, sent as "no plate/fog". */
export const ENDINGS = [
  { value: 'made', label: 'Made' },
  ...NO_PLATE_REASONS.map((one) => ({
    value: `no plate/${one}`,
    label: `Came, no plate: ${NO_PLATE_WORDS[one].toLowerCase()}`,
  })),
  ...MISSED_REASONS.map((one) => ({
    value: `missed/${one}`,
    label: `Did not come: ${MISSED_WORDS[one].toLowerCase()}`,
  })),
];

/** What may be told of a sitting now: an arrival on the day itself, an ending from the day on. */
export function mayTell({ date, today }: Pick<DaySheet, 'date' | 'today'>, { view }: OnSheet) {
  const stands = view.sitting.state === 'confirmed';
  return {
    arrival: stands && date.equals(today),
    ending: stands && Temporal.PlainDate.compare(date, today) <= 0,
  };
}

export function HowItWent(props: OneProps) {
  const { visit, sheet, one } = props;
  const may = mayTell(sheet, one);
  const { arrivedAt } = one.day;
  const who = one.view.contact.name;
  return (
    <>
      <Ended {...props} />
      {arrivedAt && may.ending && <p>Here since {timeInWords(instantToWall(sheet.zone, arrivedAt))}</p>}
      {may.arrival && (
        <Form action={`${actOf(props)}/arrived`} csrf={visit.formToken} label={`${who} is here`}>
          <Button kind="quiet" name="here" value={arrivedAt ? 'no' : 'yes'}>
            {arrivedAt ? 'Not here after all' : 'They are here'}
          </Button>
        </Form>
      )}
      {may.ending && (
        <p class="alone no-print">
          <a href={`${actOf(props)}/later`}>{who} comes later</a>
        </p>
      )}
      {may.ending && <EndingForm {...props} />}
    </>
  );
}

function Ended(props: OneProps) {
  const { visit, sheet, one } = props;
  const { view, day } = one;
  const ended = ENDED[view.sitting.state];
  if (!ended) return null;
  return (
    <>
      <p>
        <strong>{ended}</strong>
        {day.reason !== '' && `: ${REASONS[day.reason] ?? day.reason}`}
        {day.note !== '' && `. ${day.note}`}
        {day.returnId !== null && `${fullStop(day.note)} They stand first on the list for another place.`}
      </p>
      {day.endedAt && instantToWall(sheet.zone, day.endedAt).toPlainDate().equals(sheet.today) && (
        <Form
          action={`${actOf(props)}/undo`}
          csrf={visit.formToken}
          label={`Take the ending of ${view.contact.name} back`}
        >
          <Button kind="quiet">Take this back</Button>
        </Form>
      )}
    </>
  );
}

function EndingForm(props: OneProps) {
  const { visit, one, sent } = props;
  const who = one.view.contact.name;
  const mine = sent?.id === one.view.sitting.id ? sent : undefined;
  return (
    <details class="no-print" open={mine !== undefined}>
      <summary>How it ended</summary>
      <Form
        action={`${actOf(props)}/end`}
        csrf={visit.formToken}
        label={`How it ended for ${who}`}
        values={mine?.values ?? {}}
        errors={mine?.errors ?? []}
      >
        <RadioGroup name="ending" label={`How did it end for ${who}?`} options={ENDINGS} />
        <TextField name="note" label={`A note about ${who}`} optional />
        <Button>Save</Button>
      </Form>
    </details>
  );
}

const fullStop = (before: string) => (/[.!?]$/.test(before) ? '' : '.');

const actOf = ({ visit, sheet, one }: OneProps) =>
  `/s/${visit.studio.slug}/desk/days/${sheet.date}/${one.view.sitting.id}`;
