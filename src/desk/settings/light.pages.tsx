// The room's light as the studio measured it, and how far ahead places are given.
import { skyCoefficientsConfirmed } from '../../daylight/exposure.calc.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { NumberField } from '../../platform/html/kit/form.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { lightAnswers } from './forms.calc.js';
import { ChangeForm, type SectionProps, SettingsFrame } from './frame.pages.js';

const WINDOWS = [
  { value: 'north window', label: 'North window', hint: 'Sky alone; south of the equator a south window.' },
  { value: 'open shade', label: 'Open shade', hint: 'Sky alone.' },
  { value: 'glass room', label: 'Glass room', hint: 'Sky and sun.' },
];

export function LightSettingsPage({ visit, studio, notice, sent }: SectionProps & { studio: Studio }) {
  const values = lightAnswers(studio);
  return (
    <SettingsFrame visit={visit} section="light" notice={notice} sent={sent}>
      <Card title="Light">
        <ChangeForm visit={visit} section="light" doing="light" values={values} sent={sent} label="Light">
          <RadioGroup name="windowKind" label="What lights the sitter" options={WINDOWS} />
          <NumberField
            name="lightFloorDegrees"
            label="Light is good while the sun stands above"
            hint="Higher if a house or a hill stands in the way."
            unit="degrees"
            decimal
          />
          <NumberField
            name="referenceSeconds"
            label="An exposure that gave a good plate under a clear sky"
            unit="seconds"
            decimal
          />
          <NumberField
            name="referenceAltitudeDegrees"
            label="The height of the sun at that time"
            unit="degrees"
            decimal
          />
          <NumberField
            name="exposureCapSeconds"
            label="No place is opened that asks for more than"
            hint="Under a clear sky."
            unit="seconds"
            decimal
          />
        </ChangeForm>
        {!skyCoefficientsConfirmed && (
          <p class="small">Predictions rest on figures for the sky that are not confirmed.</p>
        )}
      </Card>
      <Card title="Booking">
        <ChangeForm visit={visit} section="light" doing="booking" values={values} sent={sent} label="Booking">
          <NumberField name="horizonMonths" label="How far ahead places are given" unit="months" />
          <NumberField name="leastNoticeDays" label="Least notice" unit="days" />
        </ChangeForm>
      </Card>
    </SettingsFrame>
  );
}
