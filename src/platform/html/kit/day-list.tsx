// The days one can sit, month by month: each with its light drawn and its open places as large links.
import type { ComponentChildren } from 'preact';
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../../../lib/words.js';
import {
  type Hours,
  hoursAround,
  LightBar,
  LightLegend,
  type PlaceInLight,
  type Stretch,
} from './light-bar.js';
import { useWords } from './spoken.js';

export interface DayPlace extends PlaceInLight {
  /** Where to ask for this place; open places only. */
  href?: string | undefined;
  /** "hold still for 3 to 5 seconds" */
  hold?: string | undefined;
}

export interface ListedDay {
  date: Temporal.PlainDate;
  light: Stretch | null;
  places: DayPlace[];
  /** Why there are few places or none, or what else to know about the day. */
  note?: ComponentChildren;
}

interface DayListProps {
  /** In the order of their dates. */
  days: ListedDay[];
  /** Said when there are no days. */
  empty?: string | undefined;
}

/** Months are h2, days h3. With many months there are links to each at the top. */
export function DayList({ days, empty }: DayListProps) {
  const { light: words } = useWords();
  if (days.length === 0) return <p class="empty">{empty ?? words.noDays}</p>;
  const hours = hoursAround(
    days.flatMap(({ light, places }) => (light === null ? places : [light, ...places])),
  );
  const states = (['open', 'held', 'taken'] as const).filter((state) =>
    days.some(({ places }) => places.some((place) => place.state === state)),
  );
  const months = byMonth(days, words.month);
  return (
    <div class="day-list">
      {months.length > 3 && (
        <nav class="actions" aria-label={words.months}>
          {months.map(([month]) => (
            <a key={month} href={`#${idOf(month)}`}>
              {month}
            </a>
          ))}
        </nav>
      )}
      <LightLegend states={states} />
      {months.map(([month, ofMonth]) => (
        <section key={month} id={idOf(month)}>
          <h2>{month}</h2>
          {ofMonth.map((day) => (
            <Day key={day.date.toString()} day={day} hours={hours} />
          ))}
        </section>
      ))}
    </div>
  );
}

function Day({ day: { date, light, places, note }, hours }: { day: ListedDay; hours: Hours }) {
  const { light: words } = useWords();
  const [weekday, dayOfMonth] = [words.weekday(date), words.dayOfMonth(date)];
  const open = places.flatMap((place) => (place.href === undefined ? [] : [{ ...place, href: place.href }]));
  return (
    <article class="day">
      <h3>
        {weekday} <span class="nowrap">{dayOfMonth}</span>
      </h3>
      <div class="day-light">
        <p class="small">
          {light === null ? words.none : words.good(timeInWords(light.from), timeInWords(light.until))}
        </p>
        <LightBar window={light} slots={places} hours={hours} />
      </div>
      {note !== undefined && <p class="day-note">{note}</p>}
      {open.length > 0 && (
        <ul class="places">
          {open.map((place) => (
            <li key={place.href}>
              <a href={place.href}>
                <span class="unseen">{words.dayAt(weekday, dayOfMonth)}</span>
                <strong>{timeInWords(place.from)}</strong>
                {place.hold !== undefined && <span class="hold">{place.hold}</span>}
              </a>
            </li>
          ))}
        </ul>
      )}
    </article>
  );
}

/** "March-2027" */
const idOf = (month: string) => month.replace(' ', '-');

function byMonth(
  days: ListedDay[],
  monthInWords: (date: Temporal.PlainDate) => string,
): [string, ListedDay[]][] {
  const months = new Map<string, ListedDay[]>();
  for (const day of days) {
    const month = monthInWords(day.date);
    months.set(month, [...(months.get(month) ?? []), day]);
  }
  return [...months];
}
