// Teaching days on the sheet of their date, and on its red screen: who comes, what would help them, when each part
// begins. What is owed for it, and how it went, stands on the day's own page.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { timeInWords } from '../../lib/words.js';
import type { DayView, DayWithPeople } from '../../teaching/day-views.schemas.js';
import { EXPERIENCE_WORDS, partsWithTimes, SESSION_WORDS } from '../../teaching/words.calc.js';

export type TeachingOnDay = DayView & DayWithPeople;

interface OnDayProps {
  visit: StaffVisit;
  days: TeachingOnDay[];
}

const pathOf = ({ studio }: StaffVisit, { session }: TeachingOnDay) =>
  `/s/${studio.slug}/desk/teaching/${session.id}`;

export function TeachingOnSheet({ visit, days }: OnDayProps) {
  return (
    <>
      {days.map((day) => (
        <article class="day" key={day.session.id} id={`teaching-${day.session.id}`}>
          <h2>
            {timeInWords(day.place.wallStart)} to {timeInWords(day.place.wallEnd)}: teaching,{' '}
            {day.session.course.name}
          </h2>
          <p>
            {day.session.taken} of {day.session.places} places taken; {SESSION_WORDS[day.session.state]}.{' '}
            <a href={pathOf(visit, day)}>Everything about this day</a>
          </p>
          <Students day={day} />
          <ol>
            {partsWithTimes(day.session.course.parts, day.place.wallStart).map(({ at, title, where }) => (
              <li key={`${at} ${title}`}>
                {at} {title} ({where})
              </li>
            ))}
          </ol>
          {day.session.secondAdult !== '' && <p>Second adult: {day.session.secondAdult}</p>}
        </article>
      ))}
    </>
  );
}

function Students({ day: { signUps } }: { day: TeachingOnDay }) {
  if (signUps.length === 0) return <p>Nobody has signed up.</p>;
  return (
    <ul>
      {signUps.flatMap(({ signUp, students }) =>
        students.map((one) => (
          <li key={one.id}>
            {one.name}
            {signUp.state === 'offered' && ' (offered, not answered)'}: {EXPERIENCE_WORDS[one.experience]}
            {one.brings !== '' && `; brings ${one.brings}`}
            {Object.entries(one.gear)
              .filter(([, size]) => size !== '')
              .map(([name, size]) => `; ${name} ${size}`)}
            {one.access !== '' && (
              <>
                {' '}
                <strong>What helps: {one.access}</strong>
              </>
            )}
          </li>
        )),
      )}
    </ul>
  );
}

/** In red on black: names, what helps, the parts; nothing else. */
export function TeachingOnRed({ days }: Pick<OnDayProps, 'days'>) {
  return (
    <>
      {days.map((day) => (
        <section key={day.session.id}>
          <h2>
            {timeInWords(day.place.wallStart)} {day.session.course.name}
          </h2>
          <ul>
            {day.signUps.flatMap(({ students }) =>
              students.map(({ id, name, access }) => (
                <li key={id}>
                  {name}
                  {access !== '' && `. What helps: ${access}`}
                </li>
              )),
            )}
          </ul>
          <ol>
            {partsWithTimes(day.session.course.parts, day.place.wallStart).map(({ at, title }) => (
              <li key={`${at} ${title}`}>
                {at} {title}
              </li>
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}
