// The kinds of sitting the studio gives, and to whom each is offered.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { CheckboxGroup, RadioGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { NumberField, TextField } from '../../platform/html/kit/form.js';
import type { Kind, RoomRules } from '../../room/rules.schemas.js';
import { weekdaysInWords } from '../../room/words.calc.js';
import { type Answers, kindAnswers } from './forms.calc.js';
import { ChangeForm, type SectionProps, type Sent, SettingsFrame, settingsPath } from './frame.pages.js';
import { WEEKDAYS } from './rhythm.pages.js';

interface KindsPageProps extends SectionProps {
  rules: RoomRules;
  /** Which form is open: 'new' or a kind's id. */
  form: string;
}

const OFFERED_WORDS: Record<Kind['offered'], string> = {
  public: 'everybody, on the form for asking',
  owner: 'nobody but you',
  'not any more': 'not offered any more',
};
const KEEPER_WORDS: Record<Kind['keepsPlate'], string> = {
  sitter: 'the sitter',
  studio: 'the studio',
  series: 'the series or an archive',
};
const optionsOf = (words: Record<string, string>) =>
  Object.entries(words).map(([value, label]) => ({
    value,
    label: label.charAt(0).toUpperCase() + label.slice(1),
  }));

export function KindsPage({ visit, rules, form, notice, sent }: KindsPageProps) {
  return (
    <SettingsFrame visit={visit} section="kinds" notice={notice} sent={sent}>
      <p>
        Usual are a paid portrait, a sitting for a series, a return sitting and a test. People are asked which
        kind they want when more than one is offered to everybody.
      </p>
      {rules.kinds.length === 0 && <p class="empty">No kinds are named yet: every sitting is alike.</p>}
      {rules.kinds.map((one) => (
        <Card key={one.id} title={one.name}>
          <Facts items={factsOf(one)} />
          {form === one.id ? (
            <KindForm visit={visit} sent={sent} kindId={one.id} values={kindAnswers(one)} />
          ) : (
            <p class="alone">
              <a href={`${settingsPath(visit, 'kinds')}?form=${one.id}#form`}>
                Change this kind<span class="unseen">: {one.name}</span>
              </a>
            </p>
          )}
        </Card>
      ))}
      {form === 'new' ? (
        <Card title="A new kind">
          <KindForm
            visit={visit}
            sent={sent}
            kindId=""
            values={{ offered: 'public', keepsPlate: 'sitter', plates: '1' }}
          />
        </Card>
      ) : (
        <p class="alone">
          <a href={`${settingsPath(visit, 'kinds')}?form=new#form`}>A new kind</a>
        </p>
      )}
    </SettingsFrame>
  );
}

function factsOf(one: Kind) {
  const length =
    one.firstPlateMinutes === null ? 'as the rhythm says' : `${one.firstPlateMinutes} min with one plate`;
  const paid = [one.fee, one.deposit === '' ? '' : `deposit ${one.deposit}`].filter((part) => part !== '');
  return [
    { term: 'Offered to', detail: OFFERED_WORDS[one.offered] },
    { term: 'Length', detail: length },
    { term: 'Usual', detail: counted(one.plates, 'plate') },
    { term: 'Fee', detail: paid.length === 0 ? 'none noted' : paid.join(', ') },
    { term: 'Who keeps the plate', detail: KEEPER_WORDS[one.keepsPlate] },
    { term: 'Days', detail: weekdaysInWords(one.weekdays, 'every day of the rhythm') },
    { term: 'A year', detail: one.yearlyQuota === null ? 'any number' : `at most ${one.yearlyQuota}` },
  ];
}

interface KindFormProps {
  visit: StaffVisit;
  sent: Sent | undefined;
  kindId: string;
  values: Answers;
}

function KindForm({ visit, sent, kindId, values }: KindFormProps) {
  return (
    <div id="form">
      <ChangeForm
        visit={visit}
        section="kinds"
        doing="kind"
        about={{ kindId }}
        values={values}
        sent={sent}
        label={kindId === '' ? 'A new kind' : 'Change this kind'}
      >
        <TextField name="name" label="Name" width="medium" />
        <RadioGroup name="offered" label="Offered to" options={optionsOf(OFFERED_WORDS)} />
        <NumberField
          name="firstPlateMinutes"
          label="Length with one plate"
          hint="Leave empty to take it from the rhythm."
          unit="minutes"
          optional
        />
        <NumberField name="plates" label="Usual number of plates" />
        <TextField name="fee" label="Fee" hint="A note, as people read it: £180." width="medium" optional />
        <TextField name="deposit" label="Deposit" width="medium" optional />
        <SelectField
          name="keepsPlate"
          label="Who keeps the plate"
          options={optionsOf(KEEPER_WORDS)}
          empty={null}
        />
        <CheckboxGroup
          name="weekdays"
          label="Only on these weekdays"
          hint="Tick none for every day of the rhythm."
          options={WEEKDAYS}
          optional
        />
        <NumberField
          name="yearlyQuota"
          label="At most so many confirmed sittings a year"
          hint="Leave empty for any number."
          optional
        />
      </ChangeForm>
    </div>
  );
}
