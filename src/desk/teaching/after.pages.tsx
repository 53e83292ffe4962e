// What a teaching day came to, typed in on one page in the order of the paper: who came, plates, what was used.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { USED } from '../../chemistry/learning.calc.js';
import { Button } from '../../platform/html/kit/button.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, NumberField, TextArea } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { PlateSize } from '../../stock/stock.schemas.js';
import type { Attendance, ClassRecord } from '../../teaching/after.schemas.js';
import type { Student } from '../../teaching/teaching.schemas.js';
import type { SessionView } from '../../teaching/views.service.js';
import { ATTENDANCE_WORDS, whenInWords } from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { USED_WORDS } from '../shelf/used.pages.js';
import { UNIT_WORDS, USED_UNITS } from '../shelf/used.schemas.js';
import { afterAnswers, type Maker, makersOf } from './after-form.calc.js';

export interface AfterFound {
  view: SessionView & { sizes: PlateSize[] };
  /** Those who had a place. */
  students: Student[];
  record: ClassRecord | null;
  /** It was written today, and can be taken back. */
  fresh: boolean;
}

interface AfterProps {
  visit: StaffVisit;
  found: AfterFound;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function AfterPage({ visit, found, notice, sent }: AfterProps) {
  const { view, students, record, fresh } = found;
  const { session, place, sizes } = view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  const shown = afterAnswers(students, record);
  return (
    <DeskPage visit={visit} at="/teaching" title="What the day came to" notice={notice} errors={sent?.errors}>
      <p class="lead">
        <a href={own}>
          {session.course.name}, {whenInWords(place)}
        </a>
      </p>
      <p>
        What was set aside for those who came is taken off the shelf, and the rest is free. Where you write an
        amount or a number of plates, that is taken instead. Saved once more it is corrected, never counted
        twice.
      </p>
      <Form
        action={`${own}/after`}
        csrf={visit.formToken}
        shown={shown}
        values={sent?.values ?? shown}
        errors={sent?.errors}
        label="What the day came to"
      >
        <h2>Who came</h2>
        {students.length === 0 && <p class="empty">Nobody had a place.</p>}
        {students.map(({ id, name }) => (
          <RadioGroup
            key={id}
            name={`how-${id}`}
            label={name}
            options={(Object.keys(ATTENDANCE_WORDS) as Attendance[]).map((value) => ({
              value,
              label: ATTENDANCE_WORDS[value],
            }))}
          />
        ))}
        <h2>Plates</h2>
        <p>
          For each, or for the group as a whole; what stands in both is added up. A 0 says that none was made.
        </p>
        {makersOf(session, students).map((maker) => (
          <Made key={maker.key} maker={maker} sizes={sizes} />
        ))}
        <Fieldset
          legend="Used up"
          hint="By the marks on the bottles in the morning and the evening; silver by measuring the bath."
        >
          {USED.map((what) => (
            <NumberField
              key={what}
              name={what}
              label={USED_WORDS[what]}
              unit={UNIT_WORDS[USED_UNITS[what]]}
              optional
              decimal
            />
          ))}
        </Fieldset>
        <TextArea name="note" label="Note" optional rows={2} />
        <Button>{record ? 'Correct it' : 'Write it down'}</Button>
      </Form>
      {record && fresh && (
        <Form action={`${own}/after/undo`} csrf={visit.formToken} label="Take it back">
          <p>Today only: the bottles are as they were, and the day is open again.</p>
          <Button kind="quiet">Take all of it back</Button>
        </Form>
      )}
    </DeskPage>
  );
}

function Made({ maker, sizes }: { maker: Maker; sizes: PlateSize[] }) {
  return (
    <>
      {maker.sizeIds.map((id) => (
        <Fieldset key={id} legend={`${maker.name}: ${sizes.find((one) => one.id === id)?.name ?? 'plates'}`}>
          <NumberField
            name={`tries-${maker.key}-${id}`}
            label="Made, with those that failed"
            unit="plates"
            optional
          />
          <NumberField name={`kept-${maker.key}-${id}`} label="Of these kept" unit="plates" optional />
        </Fieldset>
      ))}
    </>
  );
}
