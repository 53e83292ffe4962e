// Parts of the form by which somebody asks: where they come from, which days suit, and what else there is to say.
import { counted, dayInWords } from '../lib/words.js';
import { CheckboxGroup, RadioGroup } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Fieldset, PlaceField, TextArea, TextField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { openToPublic } from '../room/openings.calc.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { Kind } from '../room/rules.schemas.js';
import type { AskProps } from './ask-parts.pages.js';
import { noPlaceInWords } from './no-place.calc.js';

export function Home({ places }: Pick<AskProps, 'places'>) {
  const label = 'Where do you travel from?';
  if (!places || places.length === 0)
    return (
      <PlaceField
        name="home"
        idName="homeId"
        label={label}
        hint="Your town or village, or the nearest one."
        placesUrl="/api/v1/places"
      />
    );
  return (
    <Fieldset legend={label}>
      <TextField
        name="home"
        label="Town or village"
        autocomplete="address-level2"
        hint="Not among those below? Add the region or the country: Springfield, Illinois."
      />
      <RadioGroup name="homeId" label="Which of these is it?" options={places} />
    </Fieldset>
  );
}

export function Days({ days, asked, kinds, answers, problems = [] }: AskProps) {
  const isTicked = (day: DayOfPlaces) => [answers['suits/days']].flat().includes(day.date.toString());
  const ticked = days.filter(isTicked);
  const others = days.filter((day) => !isTicked(day) && day.openings.some(openToPublic));
  const shown = [...ticked, ...others];
  const wrong = problems.some(({ field }) => field === 'suits/days');
  return (
    <Fieldset legend="Which days suit?" hint="The more days suit, the sooner there is a place.">
      <RadioGroup
        name="suits/kind"
        label="Days"
        options={[
          { value: 'any', label: 'Any open day between two dates' },
          { value: 'these', label: 'Only the days ticked below' },
        ]}
      />
      <DateField name="suits/from" label="From" />
      <DateField name="suits/until" label="Until" />
      <p class="hint">Open days are shown for {askedInWords(asked, kinds)}.</p>
      <CheckboxGroup
        name="suits/days"
        label="Particular days"
        hint={shown.length === 0 ? noPlaceInWords(days) : undefined}
        options={shown.map((day) => ({
          value: day.date.toString(),
          label: day.openings.some(openToPublic)
            ? dayInWords(day.date)
            : `${dayInWords(day.date)}: not open for this`,
        }))}
        folded={{
          after: ticked.length,
          words: `${ticked.length > 0 ? 'Other open' : 'Open'} days to tick`,
          open: wrong,
        }}
      />
    </Fieldset>
  );
}

/** "2 plates and 3 people, Series sitting": the kind only where there is a choice. */
function askedInWords({ kindId, plates, sitters }: AskProps['asked'], kinds: Kind[]): string {
  const kind = kinds.find((one) => one.id === kindId) ?? kinds[0];
  const words = [counted(plates, 'plate'), counted(sitters, 'person', 'people')].join(' and ');
  return kind && kinds.length > 1 ? `${words}, ${kind.name}` : words;
}

/** What else there is to say, all of it optional. */
export function More({ houseRules }: AskProps) {
  return (
    <>
      <TextArea
        name="hopes"
        label="What do you hope for?"
        hint="A portrait of how you are, a gift, your place in a series: a sentence or two."
        optional
      />
      <TextArea
        name="access"
        label="What would help you here?"
        hint="Steps, sitting down, holding still with a head rest: in your own words. Please leave out matters of health."
        rows={3}
        optional
      />
      {houseRules !== '' && (
        <Notice tone="note">
          <strong>House rules.</strong>{' '}
          {houseRules.split('\n').map((line, at) => (
            <div key={`line ${at + 1}`}>{line}</div>
          ))}
        </Notice>
      )}
      <TextArea
        name="brings"
        label="What will you bring?"
        hint="Dress, things to hold, an instrument, a dog."
        rows={3}
        optional
      />
      <TextArea
        name="anything"
        label="Anything we should know?"
        hint="A date to avoid, who else comes along. Please leave out matters of health."
        rows={3}
        optional
      />
      <TextField
        name="voucher"
        label="Number of a gift voucher"
        hint="If you have one. It stands on the paper."
        width="medium"
        optional
      />
    </>
  );
}
