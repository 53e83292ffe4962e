// On which days owner and helper are there, and how long people hold still.
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Fieldset, NumberField, TextArea } from '../../platform/html/kit/form.js';
import type { RoomRules } from '../../room/rules.schemas.js';
import { peopleAnswers, poseAnswers } from './forms.calc.js';
import { ChangeForm, type SectionProps, SettingsFrame } from './frame.pages.js';
import { WEEKDAYS } from './rhythm.pages.js';

const DATES = 'One date a line, like 14 May 2027.';

export function PeoplePage({ visit, rules, notice, sent }: SectionProps & { rules: RoomRules }) {
  return (
    <SettingsFrame visit={visit} section="people" notice={notice} sent={sent}>
      <Card title="Who is there">
        <p>
          Without you no place is open. Groups of three or more on one plate and plates larger than a whole
          plate need a helper; a day without one can be given all the same, and says so.
        </p>
        <ChangeForm
          visit={visit}
          section="people"
          doing="people"
          values={peopleAnswers(rules)}
          sent={sent}
          label="Who is there"
        >
          <Fieldset legend="You">
            <CheckboxGroup name="ownerWeekdays" label="There on" options={WEEKDAYS} optional />
            <TextArea name="ownerAway" label="Away on" hint={DATES} rows={3} optional />
            <TextArea name="ownerAlso" label="There on other days as well" hint={DATES} rows={3} optional />
          </Fieldset>
          <Fieldset legend="Your helper">
            <CheckboxGroup name="helperWeekdays" label="Helps on" options={WEEKDAYS} optional />
            <TextArea name="helperAway" label="Not on" hint={DATES} rows={3} optional />
            <TextArea name="helperAlso" label="Helps on other days as well" hint={DATES} rows={3} optional />
          </Fieldset>
        </ChangeForm>
      </Card>
      <Card title="How long people hold still">
        <p>
          Common practice, no source: change what your sitters teach you. A place that asks for more is
          marked, never hidden.
        </p>
        <ChangeForm
          visit={visit}
          section="people"
          doing="pose"
          values={poseAnswers(rules)}
          sent={sent}
          label="How long people hold still"
        >
          <NumberField name="under8" label="A child under 8" unit="seconds" decimal />
          <NumberField name="from8To14" label="A child of 8 to 14" unit="seconds" decimal />
          <NumberField name="adult" label="Somebody older, without a head rest" unit="seconds" decimal />
          <NumberField name="headRest" label="Somebody older, with a head rest" unit="seconds" decimal />
          <NumberField name="groupOf3" label="Three people or more on one plate" unit="seconds" decimal />
        </ChangeForm>
      </Card>
    </SettingsFrame>
  );
}
