// Parts of the form by which somebody asks: where they come from, which days suit, and what else there is to say.
import { CheckboxGroup, RadioGroup } from '../platform/html/kit/choices.js';
import { DateField } from '../platform/html/kit/date-field.js';
import { Fieldset, PlaceField, TextArea, TextField } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import { useWords } from '../platform/html/kit/spoken.js';
import { openToPublic } from '../room/openings.calc.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { AskProps } from './ask-parts.pages.js';
import { noPlaceInWords } from './no-place.calc.js';

export function Home({ places }: Pick<AskProps, 'places'>) {
  const { home } = useWords().asking;
  const { label } = home;
  if (!places || places.length === 0)
    return (
      <PlaceField name="home" idName="homeId" label={label} hint={home.hint} placesUrl="/api/v1/places" />
    );
  return (
    <Fieldset legend={label}>
      <TextField name="home" label={home.town} autocomplete="address-level2" hint={home.townHint} />
      <RadioGroup name="homeId" label={home.which} options={places} />
    </Fieldset>
  );
}

export function Days({ days, asked, kinds, answers, problems = [] }: AskProps) {
  const all = useWords();
  const words = all.asking.days;
  const isTicked = (day: DayOfPlaces) => [answers['suits/days']].flat().includes(day.date.toString());
  const ticked = days.filter(isTicked);
  const others = days.filter((day) => !isTicked(day) && day.openings.some(openToPublic));
  const shown = [...ticked, ...others];
  const wrong = problems.some(({ field }) => field === 'suits/days');
  return (
    <Fieldset legend={words.title} hint={words.hint}>
      <RadioGroup
        name="suits/kind"
        label={words.label}
        options={[
          { value: 'any', label: words.any },
          { value: 'these', label: words.these },
        ]}
      />
      <DateField name="suits/from" label={words.from} />
      <DateField name="suits/until" label={words.until} />
      <p class="hint">{words.shownFor(asked.plates, asked.sitters, kindShown(asked.kindId, kinds))}</p>
      <CheckboxGroup
        name="suits/days"
        label={words.particular}
        hint={shown.length === 0 ? noPlaceInWords(days, all) : undefined}
        options={shown.map((day) => ({
          value: day.date.toString(),
          label: day.openings.some(openToPublic)
            ? all.dates.day(day.date)
            : words.notOpen(all.dates.day(day.date)),
        }))}
        folded={{
          after: ticked.length,
          words: ticked.length > 0 ? words.othersToTick : words.toTick,
          open: wrong,
        }}
      />
    </Fieldset>
  );
}

/** The kind of sitting, only where there is a choice. */
const kindShown = (kindId: string | undefined, kinds: AskProps['kinds']): string | undefined =>
  kinds.length > 1 ? (kinds.find((one) => one.id === kindId) ?? kinds[0])?.name : undefined;

/** What else there is to say, all of it optional. */
export function More({ houseRules }: AskProps) {
  const words = useWords().asking.more;
  return (
    <>
      <TextArea name="hopes" label={words.hopes} hint={words.hopesHint} optional />
      <TextArea name="access" label={words.access} hint={words.accessHint} rows={3} optional />
      {houseRules !== '' && (
        <Notice tone="note">
          <strong>{words.rules}</strong>{' '}
          {houseRules.split('\n').map((line, at) => (
            <div key={`line ${at + 1}`}>{line}</div>
          ))}
        </Notice>
      )}
      <TextArea name="brings" label={words.brings} hint={words.bringsHint} rows={3} optional />
      <TextArea name="anything" label={words.anything} hint={words.anythingHint} rows={3} optional />
      <TextField name="voucher" label={words.voucher} hint={words.voucherHint} width="medium" optional />
    </>
  );
}
