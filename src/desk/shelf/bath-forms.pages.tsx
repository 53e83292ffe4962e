// What is written down at the sink about a bath, each doing a form of its own, and how the bath is changed.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { monthName } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Form, NumberField, TextArea } from '../../platform/html/kit/form.js';
import type { WholeBath } from '../../stock/baths.service.js';
import type { Notice as Said } from '../frame.pages.js';
import { answersOf, BathFields, type SentBath } from './baths.pages.js';
import { shelfPath } from './frame.pages.js';

/** What is written down, and the word of its link. */
export const DOINGS = {
  hydrometer: 'Hydrometer',
  titration: 'Titration',
  'topped up': 'Topped up',
  poured: 'Plates poured',
  cared: 'Sunned or filtered',
  state: 'What it does now',
  acidity: 'Acidity',
  note: 'A note',
} as const;

export type Doing = keyof typeof DOINGS;

const isMeasuring = (doing: Doing) => doing === 'hydrometer' || doing === 'titration';

export const isDoing = (sent: unknown): sent is Doing => typeof sent === 'string' && sent in DOINGS;

export interface BathPageProps {
  visit: StaffVisit;
  found: WholeBath;
  formKey: string;
  /** The form that is open: a thing to write down, 'edit', or ''. */
  form: Doing | 'edit' | '';
  notice?: Said | undefined;
  sent?: SentBath | undefined;
}

export function EnterForm({ visit, found, formKey, sent, doing }: BathPageProps & { doing: Doing }) {
  const mine = sent?.form === doing ? sent : undefined;
  const { now, today } = found;
  return (
    <section class="card" id="form">
      <h2>{DOINGS[doing]}</h2>
      <Form
        action={shelfPath(visit, `/baths/${now.bath.id}/enter`)}
        csrf={visit.formToken}
        formKey={formKey}
        label={DOINGS[doing]}
        values={mine?.values ?? firstAnswers(today, found, doing)}
        errors={mine?.errors ?? []}
      >
        {isMeasuring(doing) ? (
          <>
            <input type="hidden" name="do" value="measured" />
            <input type="hidden" name="method" value={doing} />
          </>
        ) : (
          <input type="hidden" name="do" value={doing} />
        )}
        <DoingFields doing={doing} found={found} owner={visit.account.role === 'owner'} />
        <DateField name="day" label={doing === 'state' ? 'Since' : 'Day'} />
        {doing !== 'note' && <TextArea name="note" label="A note" rows={2} optional />}
        <Button>Write it down</Button>
      </Form>
    </section>
  );
}

function firstAnswers(today: Temporal.PlainDate, { now }: WholeBath, doing: Doing) {
  return {
    'day-day': String(today.day),
    'day-month': monthName(today.month),
    'day-year': String(today.year),
    ...(doing === 'hydrometer' ? { temperature: '20' } : {}),
    ...(doing === 'titration' ? { normality: '0.1' } : {}),
    ...(doing === 'poured' ? { plateSizeId: now.bath.plateSizeId } : {}),
    ...(doing === 'state' ? { state: now.bath.state } : {}),
  };
}

function DoingFields({ doing, found, owner }: { doing: Doing; found: WholeBath; owner: boolean }) {
  const { now, sizes, crystals } = found;
  const lot = crystals.find((one) => one.id === now.bath.lotId);
  switch (doing) {
    case 'hydrometer':
    case 'titration':
      return <MeasuredFields by={doing} />;
    case 'topped up':
      return (
        <>
          <NumberField name="crystals" label="Silver nitrate" unit="g" decimal optional />
          <NumberField name="volume" label="Distilled water" unit="mL" decimal optional />
          {lot && (
            <CheckboxGroup
              name="fromLot"
              label="Where from"
              options={[{ value: 'yes', label: `Taken from ${lot.label}` }]}
              optional
            />
          )}
        </>
      );
    case 'poured':
      return (
        <>
          <NumberField name="plates" label="Plates" hint="Every try counts." unit="plates" />
          <SelectField
            name="plateSizeId"
            label="Size"
            options={sizes.map((one) => ({ value: one.id, label: one.name }))}
            empty={null}
          />
        </>
      );
    case 'cared':
      return (
        <RadioGroup
          name="care"
          label="It was"
          options={[
            { value: 'sunned', label: 'Sunned' },
            { value: 'filtered', label: 'Filtered' },
            { value: 'rested', label: 'Rested' },
          ]}
        />
      );
    case 'state':
      return (
        <>
          <RadioGroup
            name="state"
            label="It is"
            options={[
              { value: 'working', label: 'Working' },
              { value: 'sunning', label: 'In the sun' },
              { value: 'resting', label: 'Resting' },
              { value: 'filtering', label: 'Being filtered' },
              ...(owner ? [{ value: 'retired', label: 'Retired' }] : []),
            ]}
          />
          <DateField name="until" label="Working again on" hint="If it is away." optional />
        </>
      );
    case 'acidity':
      return <NumberField name="ph" label="pH" hint="By test paper: 4 to 5 is usual." decimal />;
    case 'note':
      return <TextArea name="note" label="Note" />;
  }
}

function MeasuredFields({ by }: { by: 'hydrometer' | 'titration' }) {
  return (
    <>
      {by === 'hydrometer' ? (
        <>
          <p>A guide only in an old bath: it holds alcohol and salts.</p>
          <NumberField
            name="density"
            label="Density"
            hint="As the hydrometer shows it, such as 1.073."
            decimal
          />
          <NumberField name="temperature" label="Temperature of the bath" unit="°C" decimal />
        </>
      ) : (
        <>
          <NumberField name="thiocyanateMl" label="Thiocyanate used" unit="mL" decimal />
          <NumberField name="normality" label="Its strength" unit="mol/L" decimal />
          <NumberField name="sampleMl" label="Bath taken" unit="mL" decimal />
        </>
      )}
      <NumberField name="volume" label="In the bath" hint="If you looked." unit="mL" decimal optional />
    </>
  );
}

export function Edit({ visit, found, form, sent }: BathPageProps) {
  const { bath } = found.now;
  const path = shelfPath(visit, `/baths/${bath.id}`);
  if (form !== 'edit')
    return (
      <p class="alone">
        <a href={`${path}?do=edit#edit`}>Change this bath</a>
      </p>
    );
  return (
    <section class="card" id="edit">
      <h2>Change this bath</h2>
      <Form
        action={path}
        csrf={visit.formToken}
        label="Change this bath"
        values={sent?.form === 'edit' ? sent.values : answersOf(bath)}
        shown={answersOf(bath)}
        errors={sent?.form === 'edit' ? sent.errors : []}
      >
        <BathFields sizes={found.sizes} crystals={found.crystals} />
        <Button>Save</Button>
      </Form>
    </section>
  );
}
