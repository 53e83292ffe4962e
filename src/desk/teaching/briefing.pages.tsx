// The form on which the owner fills in what the sheet of a teaching day needs by local rules.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { Form, NumberField, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { WORKS } from '../../teaching/course.schemas.js';
import type { SheetsService } from '../../teaching/sheets.service.js';
import { WHERE_WORDS, whenInWords } from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { WORK_WORDS } from './sheet-words.calc.js';

type Found = Awaited<ReturnType<SheetsService['briefing']>>;

interface BriefingProps {
  visit: StaffVisit;
  found: Found;
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export const fieldsOf = ({
  view: { session },
  briefing,
}: {
  view: Pick<Found['view'], 'session'>;
  briefing: Found['briefing'];
}): Record<string, unknown> => ({
  ...briefing,
  youngest: briefing.youngest ?? '',
  secondAdult: session.secondAdult,
  ...Object.fromEntries(session.course.parts.map(({ work }, at) => [`work-${at}`, work])),
});

export function BriefingPage({ visit, found, notice, sent }: BriefingProps) {
  const { session, place } = found.view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  return (
    <DeskPage
      visit={visit}
      at="/teaching"
      title="Help and names for the sheet"
      notice={notice}
      errors={sent?.errors}
    >
      <p class="lead">
        {session.course.name}, {whenInWords(place)}
      </p>
      <p>
        What stands here is yours to fill in by your local rules. With cyanide on the bench all of it is
        needed.
        {found.asLastDay && ' It begins with what you said for the last day; look it over and save it.'}{' '}
        <a href={`${own}/sheet`}>To the sheet</a>
      </p>
      <Form
        action={`${own}/briefing`}
        csrf={visit.formToken}
        values={sent?.values ?? fieldsOf(found)}
        shown={fieldsOf(found)}
        errors={sent?.errors}
        label="Help and names for the sheet"
      >
        <TextField name="emergencyNumber" label="Emergency number" optional />
        <TextField name="hospital" label="Nearest hospital" hint="With its address." optional />
        <TextField name="eyewash" label="Where the eyewash is" optional />
        <TextField name="teacher" label="Teacher" optional />
        <TextField name="secondAdult" label="Second trained adult" optional />
        <NumberField
          name="youngest"
          label="Age of the youngest who will be in the room"
          hint="Students, helpers and visitors."
          unit="years"
          optional
        />
        <h2>What is open, and what burns</h2>
        <p>
          Vapour and fire never share a room and an hour. Where you tick no flame and no heater, the sheet
          says that there is none.
        </p>
        {session.course.parts.map(({ title, where }, at) => (
          <CheckboxGroup
            key={`${at} ${title}`}
            name={`work-${at}`}
            label={`${at + 1}. ${title} (${WHERE_WORDS[where]})`}
            options={WORKS.map((value) => ({ value, label: WORK_WORDS[value] }))}
            optional
          />
        ))}
        <Button>Save</Button>
      </Form>
    </DeskPage>
  );
}
