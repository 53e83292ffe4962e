// Another hour or day for somebody who comes later: what is open, today first.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { timeInWords } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { RadioGroup } from '../platform/html/kit/choices.js';
import { Form } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import { LATER_DAYS, type Later } from '../sittings/delays.service.js';
import { DeskPage } from './frame.pages.js';
import { shortDay } from './words.calc.js';

interface LaterProps {
  visit: StaffVisit;
  later: Later;
  /** Address of the day's sheet. */
  day: string;
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
}

/** The place they have, as the form tells another. */
export const hourAnswers = (wall: Temporal.PlainDateTime | undefined): Record<string, string> => ({
  start: wall?.toString({ smallestUnit: 'minute' }) ?? '',
});

export function LaterPage({ visit, later, day, values = {}, errors = [] }: LaterProps) {
  const { view, today, open } = later;
  const { contact, sitting } = view;
  const options = open.map(({ wallStart, wallEnd }) => ({
    value: wallStart.toString({ smallestUnit: 'minute' }),
    label: `${wallStart.toPlainDate().equals(today) ? 'Today' : shortDay(wallStart)}, ${timeInWords(wallStart)} to ${timeInWords(wallEnd)}`,
  }));
  return (
    <DeskPage visit={visit} title={`${contact.name} comes later`} at="" errors={errors}>
      {options.length === 0 ? (
        <p>
          No place is open today or in the {LATER_DAYS} days after. If they cannot stay for another, tell it
          on the <a href={`${day}#sitting-${sitting.id}`}>day sheet</a> as stranded: they are owed another
          place.
        </p>
      ) : (
        <>
          <p>
            Room and shelf move with them, their calendar too. They are told at once in the way they are
            reached.
          </p>
          <Form
            action={`${day}/${sitting.id}/later`}
            csrf={visit.formToken}
            shown={hourAnswers(view.place?.wallStart)}
            values={values}
            errors={errors}
          >
            <RadioGroup name="start" label="When do they come?" options={options} />
            <Button>Give them this place instead</Button>
          </Form>
        </>
      )}
      {visit.account.role === 'owner' && (
        <p class="small">
          A day that is no studio day, such as tomorrow, is opened first:{' '}
          <a href={`/s/${visit.studio.slug}/desk/settings`}>extra days</a>.
        </p>
      )}
      <p class="alone">
        <a href={`${day}#sitting-${sitting.id}`}>Back to the day sheet</a>
      </p>
    </DeskPage>
  );
}
