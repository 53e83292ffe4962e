// A teaching day's turns at the desk: whether the day fits and what would make it fit, the chart, each student's
// timetable, and on the day who is late, what is skipped and what is done.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import { Notice as Told } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import { type StepId, WEATHERS } from '../../teaching/bench.schemas.js';
import type { Rota } from '../../teaching/rota.calc.js';
import type { Bench } from '../../teaching/rota-bench.calc.js';
import { RotaChart, RotaLegend } from './rota-chart.pages.js';
import type { Weather } from '../../teaching/rota-presets.calc.js';
import { TurnsTable } from './turns-table.pages.js';
import { peopleColumns, stationColumns, timetableOf } from '../../teaching/rota-timetable.calc.js';
import {
  bottleneckInWords,
  changeInWords,
  clockEnd,
  type NameOf,
  outcomeInWords,
  together,
} from '../../teaching/rota-words.calc.js';
import type { TurnsView } from '../../teaching/turns.service.js';
import { secondsOf } from '../../teaching/turns-bench.calc.js';
import {
  gapInWords,
  noTurnsInWords,
  plateInWords,
  readPlate,
  usualEnd,
  WEATHER_WORDS,
  whereChanged,
} from '../../teaching/turns-words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { OnTheDay } from './turns-day.pages.js';

export const TURNS_DONE = new Map<unknown, Notice>([
  ['kept', { tone: 'good', text: 'These turns are kept. Each student sees their own on their page.' }],
  ['bench', { tone: 'good', text: 'The bench is saved.' }],
  ['late', { tone: 'good', text: 'The rest of the day is planned around it.' }],
  ['skip', { tone: 'good', text: 'It is left out, and the rest of the day is planned anew.' }],
  ['again', { tone: 'good', text: 'It is taken back, and the rest of the day is planned anew.' }],
  ['done', { tone: 'good', text: 'It is done, and what it held is free.' }],
]);

export interface TurnsProps {
  visit: StaffVisit;
  view: TurnsView;
  /** The weather looked at, where it is another than the day's. */
  weather?: Weather | undefined;
  notice?: Notice | undefined;
  sent?: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

/** Students by their names, sizes by theirs; somebody who is not known any more by a word. */
export const namesIn =
  ({ names, sizes }: Pick<TurnsView, 'names' | 'sizes'>): NameOf =>
  (id) =>
    names.get(id) ?? sizes.get(id)?.toLowerCase() ?? 'somebody';

export function TurnsPage({ visit, view, weather, notice, sent }: TurnsProps) {
  const { day, shown, no, kept, stale } = view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${day.session.id}`;
  const owner = visit.account.role === 'owner';
  const nameOf = namesIn(view);
  const looking = weather !== undefined;
  return (
    <DeskPage
      visit={visit}
      at="/teaching"
      title={`Turns, ${dayInWords(day.place.wallStart)}`}
      notice={notice}
      errors={sent?.errors}
      wide
    >
      <p class="lead">
        <a href={own}>{day.session.course.name}</a>: whose plate is where, and when.
      </p>
      {kept && stale && !looking && (
        <Told tone="warn">
          These turns were laid for other people, another course or another bench than the day has now.
          {owner ? ' Lay them again.' : ' The owner can lay them again.'}
        </Told>
      )}
      {!kept && shown && (
        <Told tone="note">These turns are proposed. Nobody sees them until they are kept.</Told>
      )}
      {no && <Told tone="warn">{noTurnsInWords(no, nameOf)}</Told>}
      {no?.reason === 'none of' && (
        <p class="alone">
          <a href={`${own}/bench`}>Change the bench of this day</a>
        </p>
      )}
      {shown && <Outcome {...{ view, shown, nameOf }} />}
      <Remedies {...{ view, own, nameOf, owner, template: templatePath(visit, view) }} />
      {owner && <Keeping {...{ visit, view, own, weather }} />}
      {kept && shown && !looking && <OnTheDay {...{ visit, view, kept, own, nameOf, sent }} />}
      {shown && <Turns {...{ view, shown, nameOf }} />}
    </DeskPage>
  );
}

const templatePath = (visit: StaffVisit, { day }: TurnsView) =>
  `/s/${visit.studio.slug}/desk/teaching/templates/${day.session.templateId}`;

interface ShownProps {
  view: TurnsView;
  shown: { bench: Bench; rota: Rota };
  nameOf: NameOf;
}

function Outcome({ view, shown: { bench, rota }, nameOf }: ShownProps) {
  const { weather, steps } = view.day.session.course.bench;
  const usual = usualEnd(bench, rota, (step) => secondsOf(step as StepId, weather, steps).likely);
  const gap = gapInWords(rota);
  return (
    <Card title={rota.fits ? 'The day fits' : 'The day does not fit'}>
      <p>{outcomeInWords({ ...rota, bound: null })}</p>
      {usual !== null && rota.unplaced.length === 0 && (
        <p>If every step takes its usual time, it is over by {clockEnd(usual)}.</p>
      )}
      {gap && <p>{gap}</p>}
      {rota.bottleneck && <p>{bottleneckInWords(rota.bottleneck, nameOf, bench.teams)}</p>}
      {rota.unplaced.length > 0 && (
        <p>Without a turn: {rota.unplaced.map((one) => plateInWords(readPlate(one), nameOf)).join('; ')}.</p>
      )}
      <p>
        Laid for {counted(bench.students.length, 'student')} with{' '}
        {counted(
          bench.students.reduce((sum, { plates }) => sum + plates.length, 0),
          'plate',
        )}
        ; {bench.teams.length === 1 ? 'together' : 'working together'}:{' '}
        {bench.teams.map((team) => together(team.map(nameOf))).join('; ')}.
      </p>
    </Card>
  );
}

interface RemediesProps {
  view: TurnsView;
  own: string;
  template: string;
  nameOf: NameOf;
  owner: boolean;
}

/** The smallest changes that make the day fit, each with where it is made. */
function Remedies({ view: { remedies, shown, no }, own, template, nameOf, owner }: RemediesProps) {
  if (remedies === null)
    return (
      <p>
        Looking for what would make it fit took too long and was given up. Try a helper, or a plate fewer.
      </p>
    );
  if (remedies.length === 0) {
    const hopeless = shown
      ? !shown.rota.fits
      : no !== null && !['nobody', 'none of', 'time'].includes(no.reason);
    return hopeless ? (
      <p>No small change makes it fit: a longer day, or fewer people and plates, would.</p>
    ) : null;
  }
  const ways = {
    bench: { href: `${own}/bench`, label: 'Change the bench' },
    template: { href: template, label: 'Change what is taught' },
    people: { href: own, label: 'Change who comes' },
  };
  return (
    <Card title="What would make it fit">
      <p>Each of these alone is enough.</p>
      <ul>
        {remedies.map(({ change, rota }) => {
          const way = ways[whereChanged(change)];
          return (
            <li key={JSON.stringify(change)}>
              {changeInWords(change, nameOf)} It would then be over by {clockEnd(rota.end)}.{' '}
              {owner && <a href={way.href}>{way.label}</a>}
            </li>
          );
        })}
      </ul>
    </Card>
  );
}

interface KeepingProps {
  visit: StaffVisit;
  view: TurnsView;
  own: string;
  weather: Weather | undefined;
}

/** Keeping what is shown, or laying it again; looking at another weather. */
function Keeping({ visit, view, own, weather }: KeepingProps) {
  const { shown, basis, kept, stale, day, now } = view;
  const canKeep = basis !== null && (kept ? stale || weather !== undefined : shown !== null);
  const chosen = weather ?? day.session.course.bench.weather;
  return (
    <div class="no-print">
      {canKeep && (
        <Form action={`${own}/turns/keep`} csrf={visit.formToken} label="Keep turns">
          <input type="hidden" name="basis" value={basis} />
          {weather !== undefined && <input type="hidden" name="weather" value={weather} />}
          <Button>{kept ? 'Lay the turns again, and keep them' : 'Keep these turns'}</Button>
        </Form>
      )}
      {(kept === null || now < kept.bench.day.from) && (
        <Form method="get" action={`${own}/turns`} label="Look at the day in another weather">
          <SelectField
            name="weather"
            label="Weather to reckon with"
            empty={null}
            value={chosen}
            options={WEATHERS.map((value) => ({ value, label: WEATHER_WORDS[value] }))}
          />
          <Button kind="quiet">Look</Button>
        </Form>
      )}
      <p class="alone">
        <a href={`${own}/bench`}>The bench of this day: counts, hands, how long each step takes</a>
      </p>
    </div>
  );
}

const SHARED = [
  'teacher',
  'camera',
  'pouring place',
  'tank',
  'darkroom place',
  'holder',
  'sink',
  'fixing tray',
];

function Turns({ view, shown: { bench, rota }, nameOf }: ShownProps) {
  const stations = bench.stations.flatMap(({ units }) => units);
  const stationName = (id: string) => {
    const owner = stations.find((one) => one.id === id)?.owner;
    return owner === undefined ? id : `${nameOf(owner)}’s camera`;
  };
  const chart = { day: bench.day, light: bench.light, breaks: bench.breaks };
  const people = bench.students.filter(({ id }) => !view.kept?.told.gone.includes(id));
  return (
    <>
      <h2>The day as a picture</h2>
      <RotaChart
        {...chart}
        columns={peopleColumns(bench, rota)}
        nameOf={nameOf}
        label="What each student does when; the same stands in words in the tables below"
      />
      <RotaLegend />
      <details class="no-print">
        <summary>What is used when</summary>
        <RotaChart
          {...chart}
          columns={stationColumns(bench, rota, SHARED)}
          nameOf={stationName}
          label="When each camera, tank, holder and place is used"
        />
      </details>
      <h2>Each student’s day</h2>
      <p>Each line ends at the latest time that is planned for; whoever is ready before may rest.</p>
      {people.map(({ id }) => (
        <TurnsTable key={id} name={nameOf(id)} lines={timetableOf(bench, rota, id)} nameOf={nameOf} />
      ))}
    </>
  );
}
