// The day sheet on the phone and on paper: who comes, when, on which plates, and what helps them. What they wrote to
// the owner in confidence ("anything we should know") stands on the owner's sheet only.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { ForOne, OnTheBench } from './day-bench.pages.js';
import { HowItWent, type OneProps, type SentWrong } from './day-endings.pages.js';
import { MadePlates } from './plates/made.pages.js';
import { BenchRows } from './day-paper.pages.js';
import type { DaySheet } from './day-sheets.service.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { platesInWords, shortDay } from './words.calc.js';
import { TeachingOnSheet } from './teaching/on-sheet.pages.js';

interface SheetProps {
  visit: StaffVisit;
  sheet: DaySheet;
  notice?: Notice | undefined;
  sent?: SentWrong | undefined;
}

export function DaySheetPage({ visit, sheet, notice, sent }: SheetProps) {
  const day = `/s/${visit.studio.slug}/desk/days`;
  const { date, sittings } = sheet;
  return (
    <DeskPage visit={visit} title={dayInWords(date)} at="" notice={notice} errors={sent?.errors}>
      <p>
        {sittings.length === 0
          ? 'Nobody sits on this day.'
          : `${capital(counted(sittings.length, 'sitting'))}.`}{' '}
        {sheet.window &&
          `Good light from ${timeInWords(instantToWall(sheet.zone, sheet.window.start))} to ${timeInWords(instantToWall(sheet.zone, sheet.window.end))}.`}{' '}
        <a href={`${day}/${date}/red`}>The red screen for the darkroom</a>
      </p>
      <OnTheBench visit={visit} sheet={sheet} />
      {sittings.map((one) => (
        <OneSitting key={one.view.sitting.id} visit={visit} sheet={sheet} one={one} sent={sent} />
      ))}
      <TeachingOnSheet visit={visit} days={sheet.teaching} />
      {Temporal.PlainDate.compare(date, sheet.today) <= 0 && (
        <p class="actions no-print">
          <a class="button quiet" href={`${day}/${date}/plates`}>
            Type in the day
          </a>
        </p>
      )}
      <MadePlates made={sheet.made.filter((one) => one.sittingId === null)} title="Test plates made" />
      <nav class="actions no-print" aria-label="Studio days">
        {sheet.before && (
          <a href={`${day}/${sheet.before}`}>The studio day before, {shortDay(sheet.before)}</a>
        )}
        {sheet.after && <a href={`${day}/${sheet.after}`}>The studio day after, {shortDay(sheet.after)}</a>}
      </nav>
    </DeskPage>
  );
}

function OneSitting(props: OneProps) {
  const { visit, sheet, one } = props;
  const { view, place } = one;
  const { sitting } = view;
  return (
    <article class="sitting" id={`sitting-${sitting.id}`}>
      <h2>
        {timeInWords(place.wallStart)} to {timeInWords(place.wallEnd)}: {view.contact.name}
      </h2>
      <p>{capital(platesInWords(view))}</p>
      {view.plates.length > 1 && (
        <ul>
          {view.plates.map((plate) => (
            <li key={plate.id}>
              {plate.sizeName}: {plate.names.join(', ')}
            </li>
          ))}
        </ul>
      )}
      {sitting.state === 'confirmed' && <ForOne sheet={sheet} one={one} />}
      <AboutThem view={view} />
      {visit.account.role === 'owner' && sitting.anything !== '' && <p>They told you: {sitting.anything}</p>}
      <HowItWent {...props} />
      <MadePlates made={sheet.made.filter((made) => made.sittingId === sitting.id)} title="Plates made" />
      <BenchRows view={view} />
    </article>
  );
}

function AboutThem({ view: { sitting, contact } }: { view: SittingView }) {
  const { access, brings, guardian } = sitting.details;
  return (
    <>
      {access !== '' && (
        <p class="lead">
          <strong>What helps them: {access}</strong>
        </p>
      )}
      {brings !== '' && <p>They bring: {brings}</p>}
      {guardian && (
        <p>
          {guardian.name}
          {guardian.relation !== '' && ` (${guardian.relation})`} answers for who is under 18:{' '}
          {guardian.reach}
        </p>
      )}
      {contact.telephone !== '' && (
        <p class="alone">
          <a href={`tel:${contact.telephone.replace(/[^+\d]/g, '')}`}>Telephone {contact.telephone}</a>
        </p>
      )}
      {sitting.hopes !== '' && <p>They hope for: {sitting.hopes}</p>}
    </>
  );
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
