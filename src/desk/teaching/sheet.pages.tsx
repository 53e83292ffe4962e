// The sheet of a teaching day, made for print and readable on the phone; or, where it may not be printed, a page with
// what is missing and nothing of the sheet. Whom to ring stands on its last page, for the owner only.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords } from '../../lib/words.js';
import { fieldId } from '../../platform/html/kit/errors.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import { BLANKS } from '../../teaching/sheet-check.calc.js';
import type { SessionSheet } from '../../teaching/sheets.service.js';
import type { Student } from '../../teaching/teaching.schemas.js';
import { EXPERIENCE_WORDS, partsWithTimes, platesInWords, whenInWords } from '../../teaching/words.calc.js';
import { DeskPage } from '../frame.pages.js';
import { BenchOfDay } from './sheet-bench.pages.js';
import { SafetyOfDay } from './sheet-safety.pages.js';
import { type KeptTurns, SheetTurns } from './sheet-turns.pages.js';
import { BLANK_WORDS, missingInWords, WORK_WORDS } from './sheet-words.calc.js';

export interface SheetProps {
  visit: StaffVisit;
  sheet: SessionSheet;
  /** Null where none are kept. */
  turns: KeptTurns;
}

/** To be written in by hand. */
const BLANK = '______________________________';

export const SheetPage = (props: SheetProps) =>
  props.sheet.missing.length > 0 ? <RefusedPage {...props} /> : <PrintedPage {...props} />;

function RefusedPage({ visit, sheet }: SheetProps) {
  const { session } = sheet.view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  return (
    <DeskPage visit={visit} at="/teaching" title="This sheet cannot be printed yet">
      <p class="lead">
        {session.course.name}, {whenInWords(sheet.view.place)}. Nobody goes to the bench before this is put
        right:
      </p>
      <ul>
        {sheet.missing.map((one) => {
          const { words, field } = missingInWords(one, session.course.parts);
          return (
            <li key={words}>
              {words}{' '}
              {field === null ? (
                <ToAgree {...{ visit, sheet, own }} />
              ) : (
                <a href={`${own}/briefing#${fieldId(field)}`}>Fill it in</a>
              )}
            </li>
          );
        })}
      </ul>
    </DeskPage>
  );
}

/** Nobody agrees for another: each on their own page, which the owner may open with them. */
function ToAgree({ visit, sheet, own }: Omit<SheetProps, 'turns'> & { own: string }) {
  if (visit.account.role !== 'owner') return <a href={own}>See who comes</a>;
  return (
    <>
      {sheet.toAgree.map(({ name, token }) => (
        <a key={name} href={token === null ? own : `/s/${visit.studio.slug}/student/${token}`}>
          {name} agrees here{' '}
        </a>
      ))}
    </>
  );
}

function PrintedPage({ visit, sheet, turns }: SheetProps) {
  const { session, place } = sheet.view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${session.id}`;
  const owner = visit.account.role === 'owner';
  return (
    <DeskPage visit={visit} at="/teaching" title={`Sheet: ${session.course.name}`} wide>
      <p class="no-print">
        Print this page with your browser. <a href={own}>The day</a>
        {owner && (
          <>
            {' · '}
            <a href={`${own}/briefing`}>Fill in help and names</a>
          </>
        )}
      </p>
      <p class="lead">
        {whenInWords(place)}. Each makes{' '}
        {platesInWords(session.course.plates, sheet.view.sizes) || 'no plates'}.
      </p>
      <Help sheet={sheet} />
      <Roster sheet={sheet} />
      <Timetable sheet={sheet} turns={turns} />
      <BenchOfDay sheet={sheet} />
      <GearEach sheet={sheet} />
      <SafetyOfDay sheet={sheet} />
      {owner && <ForTheTeacher students={sheet.students} day={dayInWords(place.wallStart)} />}
    </DeskPage>
  );
}

/** Where help is. Without cyanide on the bench it may be written in by hand, and stands out until then. */
function Help({ sheet }: Pick<SheetProps, 'sheet'>) {
  const said = { ...sheet.briefing, secondAdult: sheet.view.session.secondAdult };
  const blank = BLANKS.filter((what) => said[what] === '' && what !== 'secondAdult');
  return (
    <section class="together">
      <h2>If something happens</h2>
      <Facts items={BLANKS.map((what) => ({ term: BLANK_WORDS[what], detail: said[what] || BLANK }))} />
      {blank.length > 0 && (
        <Notice tone="warn">
          Write in what is blank, by your local rules, before anybody goes to the bench.
        </Notice>
      )}
    </section>
  );
}

function Roster({ sheet: { students, view } }: Pick<SheetProps, 'sheet'>) {
  const sized = view.session.course.gear.filter(({ sized: is }) => is).map(({ name }) => name);
  const size = (one: Student) => view.sizes.find(({ id }) => id === one.plateSizeId)?.name;
  return (
    <section class="together">
      <h2>Who comes</h2>
      <Table
        caption="Names, experience, sizes"
        columns={[
          { head: 'Name' },
          { head: 'Has done' },
          ...sized.map((head) => ({ head })),
          { head: 'Brings' },
        ]}
        rows={students.map((one) => [
          <strong key={one.id}>{one.name}</strong>,
          EXPERIENCE_WORDS[one.experience],
          ...sized.map((name) => one.gear[name] || 'not said'),
          [one.brings, size(one)].filter(Boolean).join('; ') || 'nothing',
        ])}
        empty="Nobody has a place."
      />
      {students
        .filter(({ access }) => access !== '')
        .map((one) => (
          <p key={one.id} class="access">
            {one.name}: {one.access}
          </p>
        ))}
    </section>
  );
}

function Timetable({ sheet: { view }, turns }: Pick<SheetProps, 'sheet' | 'turns'>) {
  const { parts } = view.session.course;
  const timed = partsWithTimes(parts, view.place.wallStart);
  return (
    <section class="together">
      <h2>The day</h2>
      <Table
        caption="Parts of the day"
        columns={[{ head: 'From' }, { head: 'What' }, { head: 'Where' }, { head: 'Open or burning' }]}
        rows={timed.map(({ at, title, where }, index) => [
          at,
          title,
          where,
          (parts[index]?.work ?? []).map((work) => WORK_WORDS[work]).join('; ') || 'nothing',
        ])}
      />
      <SheetTurns kept={turns} />
    </section>
  );
}

function GearEach({ sheet: { students, view } }: Pick<SheetProps, 'sheet'>) {
  const { gear } = view.session.course;
  if (gear.length === 0) return null;
  const total = (each: number) => String(each * students.length);
  return (
    <section class="together">
      <h2>To give out</h2>
      <Table
        caption="For each person"
        columns={[{ head: 'Name' }, ...gear.map(({ name }) => ({ head: name }))]}
        rows={[
          ...students.map((one) => [
            one.name,
            ...gear.map(({ name, each }) => [each, one.gear[name]].filter(Boolean).join(', size ')),
          ]),
          ['All', ...gear.map(({ each }) => total(each))],
        ]}
      />
    </section>
  );
}

/** A page of its own, for the teacher's pocket. */
function ForTheTeacher({ students, day }: { students: Student[]; day: string }) {
  const known = students.filter(({ emergency }) => emergency.name !== '' || emergency.telephone !== '');
  return (
    <section class="own-page">
      <h2>For the teacher only: whom to ring</h2>
      {known.length === 0 ? (
        <p>Nobody has named anyone, or it is erased already.</p>
      ) : (
        <Facts
          items={known.map(({ id, name, emergency }) => ({
            term: name,
            detail: <span key={id}>{[emergency.name, emergency.telephone].filter(Boolean).join(', ')}</span>,
          }))}
        />
      )}
      <p>Private. Destroy this page after {day}; here it is erased then.</p>
    </section>
  );
}
