// The page on which a day is typed in, in the order of the printed day sheet: for each sitting a line a plate, then the
// test plates. What is told in confidence does not stand here.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { WEATHERS } from '../../daylight/exposure.calc.js';
import { WEATHER_WORDS } from '../../daylight/words.calc.js';
import { counted, dayInWords, timeInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { Fieldset, Form, NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { Made, MadeDay } from '../../plates/made.schemas.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { deskPath } from './frame.pages.js';
import { type Line, lineText, TESTS } from './type-in.schemas.js';

interface TypeInProps {
  visit: StaffVisit;
  now: MadeDay;
  lines: Line[];
  values?: Record<string, unknown>;
  errors?: FieldProblem[];
  notice?: Notice | undefined;
}

const OUT = [
  { value: 'kept', label: 'Kept' },
  { value: 'not kept', label: 'Not kept' },
];

export function TypeInPage({ visit, now, lines, values = {}, errors = [], notice }: TypeInProps) {
  const { day, today, next } = now;
  const sheet = deskPath(visit, `/days/${day}`);
  const struck = now.plates.filter((one) => one.struckAt !== null);
  const title = `Type in ${dayInWords(day)}`;
  if (Temporal.PlainDate.compare(day, today) > 0)
    return (
      <DeskPage visit={visit} title={title} at="" notice={notice}>
        <p>This day is still to come. Once it is there, its plates can be typed in here.</p>
        <p class="actions">
          <a class="button quiet" href={sheet}>
            The day sheet
          </a>
        </p>
      </DeskPage>
    );
  return (
    <DeskPage visit={visit} title={title} at="" notice={notice} errors={errors}>
      <p class="lead">
        One line for each plate that was tried, as on the day sheet. Say whether it was kept; all else may
        stay empty. {next !== null && `The next plate gets the number ${next}.`}
      </p>
      <Form action={`${sheet}/plates`} csrf={visit.formToken} values={values} errors={errors} label={title}>
        {/* what the Enter key presses: the first button of a form, which must not be one that strikes a plate */}
        <Button kind="quiet">Save</Button>
        <input type="hidden" name="seen" value={now.version} />
        {next === null && (
          <NumberField
            name="first"
            label="Number of the first plate"
            hint="Asked once: from then on each plate gets the next number, and keeps it. Where your own book ends at 117, give 118."
            value={textOf(values.first) || '1'}
          />
        )}
        {now.sittings.map(({ view, place }) => (
          <Lines
            key={view.sitting.id}
            title={`${place ? `${timeInWords(place.wallStart)} ` : ''}${view.contact.name}`}
            whose={view.sitting.id}
            now={now}
            lines={lines.filter((one) => one.sittingId === view.sitting.id)}
            values={values}
          />
        ))}
        <Lines
          title="Test plates"
          whose={TESTS}
          now={now}
          lines={lines.filter((one) => one.sittingId === null)}
          values={values}
        />
        <Light now={now} values={values} />
        <Button>Save the day</Button>
      </Form>
      {struck.length > 0 && (
        <p class="small">
          Struck, as typed in by mistake: {struck.map((one) => one.number).join(', ')}. These numbers are not
          given again.
        </p>
      )}
      <p class="actions">
        <a class="button quiet" href={sheet}>
          The day sheet
        </a>
      </p>
    </DeskPage>
  );
}

interface LinesProps {
  title: string;
  whose: string;
  now: MadeDay;
  lines: Line[];
  values: Record<string, unknown>;
}

function Lines({ title, whose, now, lines, values }: LinesProps) {
  const made = lines.filter((one) => one.made !== null).length;
  return (
    <section id={`plates-${whose}`}>
      <h2>{title}</h2>
      {made > 0 && <p class="small">Typed in: {counted(made, 'plate')}.</p>}
      {lines.map((line, at) => (
        <OneLine key={line.id} line={line} at={at} title={title} now={now} values={values} />
      ))}
      <Button kind="quiet" name="more" value={whose}>
        More lines<span class="unseen">: {title}</span>
      </Button>
    </section>
  );
}

interface LineProps {
  line: Line;
  at: number;
  title: string;
  now: MadeDay;
  values: Record<string, unknown>;
}

function OneLine({ line, at, title, now, values }: LineProps) {
  const { id, made } = line;
  const known = beforehand(line, now);
  const wasSent = values[`${id}-out`] !== undefined;
  const value: Value = (name) => (wasSent ? textOf(values[`${id}-${name}`]) : known[name]);
  const name = made ? `Plate ${made.number}` : `Line ${at + 1}`;
  return (
    <fieldset class="group plate-line" id={`line-${id}`}>
      <legend>
        {name}
        <span class="unseen">, {title}</span>
      </legend>
      <input type="hidden" name="line" value={lineText(line)} />
      <div class="plate-cells">
        <SelectField
          name={`${id}-lotId`}
          label="Bottle"
          empty="Not known"
          value={value('lotId')}
          options={choices(now.bottles, (one) => one.label)}
        />
        <SelectField
          name={`${id}-bathId`}
          label="Bath"
          empty="Not known"
          value={value('bathId')}
          options={choices(now.baths, (one) => one.name)}
        />
        <NumberField name={`${id}-seconds`} label="Seconds" decimal value={value('seconds')} />
        <SelectField
          name={`${id}-sky`}
          label="Sky"
          empty="Not known"
          value={value('sky')}
          options={WEATHERS.map((one) => ({ value: one, label: WEATHER_WORDS[one] }))}
        />
        <TextField name={`${id}-result`} label="Result" value={value('result')} />
        <SelectField
          name={`${id}-out`}
          label="Kept?"
          empty={made ? 'Please choose' : 'No plate'}
          value={value('out')}
          options={OUT}
        />
      </div>
      <MoreOfLine line={line} now={now} value={value} name={`${name}, ${title}`} />
    </fieldset>
  );
}

type Value = (name: keyof ReturnType<typeof beforehand>) => string;

const choices = <One extends { id: string }>(all: readonly One[], label: (one: One) => string) =>
  all.map((one) => ({ value: one.id, label: label(one) }));

/** What is seldom typed, folded away. */
function MoreOfLine({
  line,
  now,
  value,
  name,
}: Pick<LineProps, 'line' | 'now'> & { value: Value; name: string }) {
  const { id, made } = line;
  return (
    <details>
      <summary>
        Size, names, series, note
        <span class="unseen">: {name}</span>
      </summary>
      <SelectField
        name={`${id}-plateSizeId`}
        label="Size"
        empty={null}
        value={value('plateSizeId')}
        options={choices(now.sizes, (one) => one.name)}
      />
      <TextField name={`${id}-names`} label="Names, as they want them on the plate" value={value('names')} />
      {now.series.length > 0 && (
        <SelectField
          name={`${id}-seriesId`}
          label="Series"
          empty="None"
          value={value('seriesId')}
          options={choices(now.series, (one) => one.name)}
        />
      )}
      <TextArea name={`${id}-note`} label="Note" rows={2} value={value('note')} />
      {made && (
        <Button kind="danger" name="strike" value={id}>
          Strike plate {made.number}: it was typed in by mistake
        </Button>
      )}
    </details>
  );
}

/** What stands on a line before anything is typed: the plate as it is in the book, or what is likely. */
function beforehand({ sittingId, plateId, made }: Line, now: MadeDay) {
  if (made) return { ...texts(made), out: made.keeper ? 'kept' : 'not kept' };
  const view = now.sittings.find((one) => one.view.sitting.id === sittingId)?.view;
  const plate = view?.plates.find((one) => one.id === plateId);
  const last = now.plates.filter((one) => one.struckAt === null).at(-1);
  const only = (all: readonly { id: string }[]) => (all.length === 1 ? (all[0]?.id ?? '') : '');
  return {
    lotId: last?.lotId ?? only(now.bottles),
    bathId: last?.bathId ?? only(now.baths),
    seconds: '',
    sky: '',
    result: '',
    note: '',
    out: '',
    names: plate?.names.join(', ').slice(0, 300) ?? '',
    plateSizeId: plate?.plateSizeId ?? now.sizes[0]?.id ?? '',
    seriesId: '',
  };
}

const texts = (made: Made) => ({
  lotId: made.lotId ?? '',
  bathId: made.bathId ?? '',
  seconds: made.seconds === null ? '' : String(made.seconds),
  sky: made.sky ?? '',
  result: made.result,
  note: made.note,
  names: made.names,
  plateSizeId: made.plateSizeId,
  seriesId: made.seriesId ?? '',
});

/** With what the day was exposed: once for all its plates. */
function Light({ now, values }: Pick<LinesProps, 'now' | 'values'>) {
  const known = now.light ?? now.usualLight;
  const wasSent = values.lens !== undefined;
  const value = (name: string, usual: string) => (wasSent ? textOf(values[name]) : usual);
  return (
    <Fieldset
      legend="Exposure notes"
      hint="Of each plate that is kept and has seconds, sky and bottle. They propose your reference by and by."
    >
      <CheckboxGroup
        name="light"
        label="Write exposure notes?"
        values={!wasSent && now.light ? ['yes'] : wasSent && values.light === 'yes' ? ['yes'] : []}
        options={[{ value: 'yes', label: 'Yes, the plates of this day were exposed like this' }]}
      />
      <TextField name="lens" label="Lens" width="medium" value={value('lens', known?.lens ?? '')} />
      <NumberField
        name="fNumber"
        label="f-number"
        decimal
        value={value('fNumber', known ? String(known.fNumber) : '')}
      />
      <TextField
        name="framing"
        label="Framing"
        width="medium"
        value={value('framing', known?.framing ?? '')}
      />
    </Fieldset>
  );
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
