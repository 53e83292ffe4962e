// A year of light and a month of it: one picture each, the same facts as a table beneath, and ways onward.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { FIRST_DATE, LAST_DATE } from '../daylight/day.calc.js';
import { lightOnTheWall } from '../daylight/drawing.calc.js';
import { counted, monthInWords, monthName, timeInWords, weekdayName } from '../lib/words.js';
import { type ChartDay, LightChart } from '../platform/html/kit/light-chart.js';
import { LightLegend } from '../platform/html/kit/light-bar.js';
import { Table } from '../platform/html/kit/table.js';
import { DeskPage } from './frame.pages.js';
import type { Light, LitDay } from './light.service.js';

export const HELD_WORDS = 'offered, or kept back';

interface LightYearPageProps {
  visit: StaffVisit;
  light: Light;
  /** A calendar year; null for the twelve months from this one on. */
  year: number | null;
}

export function LightYearPage({ visit, light: { studio, today, days }, year }: LightYearPageProps) {
  const home = `/s/${studio.slug}/desk/light`;
  const around = year ?? today.year;
  const years = [around - 1, around, around + 1].filter(
    (one) => one !== year && one >= FIRST_DATE.year && one <= LAST_DATE.year,
  );
  const title = year === null ? `The light of ${monthsInWords(days)}` : `The light of ${year}`;
  return (
    <DeskPage visit={visit} title={title} at="/light" wide>
      <p class="lead">{summary(days)}</p>
      <nav class="actions" aria-label="Other years">
        {year !== null && <a href={home}>Twelve months from this one on</a>}
        {years.map((one) => (
          <a key={one} href={`${home}/${one}`}>
            {one}
          </a>
        ))}
        <a href={`${home}/notes`}>Exposure notes</a>
      </nav>
      <LightLegend states={['open', 'held', 'taken']} held={HELD_WORDS} />
      <div class="chart-and-table">
        <LightChart
          days={days.map((day) => chartDay(day, studio.zone))}
          today={today}
          names="months"
          label={`${title}: months downwards, hours across. ${summary(days)} The table beside it tells each month.`}
        />
        <Table
          caption="Month by month"
          columns={[
            { head: 'Month' },
            { head: 'Light on the 15th' },
            { head: 'Open', figures: true },
            { head: 'Held', figures: true },
            { head: 'Taken', figures: true },
          ]}
          rows={byMonth(days).map((month) => monthRow(month, studio.zone, home))}
          steady
        />
      </div>
    </DeskPage>
  );
}

export function LightMonthPage({ visit, light }: { visit: StaffVisit; light: Light }) {
  const { studio, today, days } = light;
  const home = `/s/${studio.slug}/desk/light`;
  const first = days[0]?.date ?? today;
  const others = [first.subtract({ months: 1 }), first.add({ months: 1 })].filter(inReach);
  const title = `The light of ${monthInWords(first)}`;
  return (
    <DeskPage visit={visit} title={title} at="/light" wide>
      <p class="lead">{summary(days)}</p>
      <nav class="actions" aria-label="Other months">
        {others.map((one) => (
          <a key={one.toString()} href={`${home}/${one.toPlainYearMonth().toString()}`}>
            {monthInWords(one)}
          </a>
        ))}
        <a href={`${home}/${first.year}`}>All of {first.year}</a>
      </nav>
      <LightLegend states={['open', 'held', 'taken']} held={HELD_WORDS} />
      <div class="chart-and-table">
        <LightChart
          days={days.map((day) => chartDay(day, studio.zone))}
          today={today}
          names="days"
          label={`${title}: days downwards, hours across. ${summary(days)} The table beside it tells each day.`}
        />
        <Table
          caption="Day by day"
          columns={[{ head: 'Day' }, { head: 'Good light' }, { head: 'Places' }]}
          rows={days.map((day) => [
            <a key="day" href={`${home}/${day.date.toString()}`}>
              <span class="nowrap">
                {weekdayName(day.date.dayOfWeek).slice(0, 3)} {day.date.day}
              </span>
              <span class="unseen"> {monthInWords(day.date)}</span>
            </a>,
            <LightHours key="light" day={day} zone={studio.zone} />,
            day.closed ? 'closed' : placesInWords(day) || '–',
          ])}
          steady
        />
      </div>
    </DeskPage>
  );
}

/** Whether a date can be looked at. */
export const inReach = (date: Temporal.PlainDate) =>
  date.year >= FIRST_DATE.year && date.year <= LAST_DATE.year;

function chartDay({ date, light, places, closed }: LitDay, zone: string): ChartDay {
  return { date, light: lightOnTheWall(zone, light), places, closed };
}

const count = (days: LitDay[], state: 'open' | 'held' | 'taken') =>
  days.flatMap(({ places }) => places.filter((place) => place.state === state)).length;

/** "November 2026 to October 2027": whole months, the past days of the first as well. */
function monthsInWords(days: LitDay[]): string {
  const ends = [days[0], days.at(-1)].flatMap((day) => (day ? [monthInWords(day.date)] : []));
  return ends.join(' to ');
}

/** "41 places are open, 12 are taken. On 63 days there is no good light." */
function summary(days: LitDay[]): string {
  const [open, held, taken] = [count(days, 'open'), count(days, 'held'), count(days, 'taken')];
  const dark = days.filter(({ light }) => light === null).length;
  const places = `${counted(open, 'place')} open, ${held > 0 ? `${held} held, ` : ''}${taken} taken.`;
  const sentence = places.charAt(0).toUpperCase() + places.slice(1);
  return dark === 0 ? sentence : `${sentence} No good light on ${counted(dark, 'day')}.`;
}

function byMonth(days: LitDay[]): LitDay[][] {
  const months = new Map<string, LitDay[]>();
  for (const day of days) {
    const key = day.date.toPlainYearMonth().toString();
    months.set(key, [...(months.get(key) ?? []), day]);
  }
  return [...months.values()];
}

function monthRow(days: LitDay[], zone: string, home: string) {
  const [first] = days;
  if (!first) return [];
  const { date } = first;
  return [
    <a key="month" href={`${home}/${date.toPlainYearMonth().toString()}`}>
      <span class="nowrap">
        {monthName(date.month).slice(0, 3)} {date.year}
      </span>
    </a>,
    days[14] ? <LightHours key="light" day={days[14]} zone={zone} /> : '',
    ...(['open', 'held', 'taken'] as const).map((state) => count(days, state)),
  ];
}

/** "07:10 to 17:02", "none". */
export function lightInHours({ light }: LitDay, zone: string): string {
  const wall = lightOnTheWall(zone, light);
  return wall ? `${timeInWords(wall.from)} to ${timeInWords(wall.until)}` : 'none';
}

/** "07:10 to 17:02" in one line of a narrow column. */
function LightHours({ day, zone }: { day: LitDay; zone: string }) {
  return <span class="nowrap">{lightInHours(day, zone).replace(' to ', '–')}</span>;
}

/** "3 open, 1 taken"; '' for none. */
function placesInWords(day: LitDay): string {
  return (['open', 'held', 'taken'] as const)
    .flatMap((state) => {
      const number = count([day], state);
      return number > 0 ? [`${number} ${state}`] : [];
    })
    .join(', ');
}
