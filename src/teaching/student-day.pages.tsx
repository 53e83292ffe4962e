// The day on the page of who signed up: when and where, who learns, what to bring, and its parts.
import { Card, Facts } from '../platform/html/kit/facts.js';
import { useWords } from '../platform/html/kit/spoken.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { OwnView } from './day-views.schemas.js';
import { mayOweDeposit } from './states.calc.js';
import { partsWithTimes, platesInWords, whenInWords } from './words.calc.js';

const told = (term: string, detail: string) => (detail === '' ? [] : [{ term, detail }]);

interface TheDayProps {
  view: OwnView;
  studio: Studio;
  sizes: PlateSize[];
  /** Over or given up: no card tells the way, so the address stands here. */
  known: boolean;
}

export function TheDay({ view, studio, sizes, known }: TheDayProps) {
  const { signUp, course, day, students } = view;
  const words = useWords();
  const { day: own } = words.student;
  const { day: of } = words.teaching;
  const owesNothing = signUp.deposit === 'due' && !mayOweDeposit(signUp.state);
  return (
    <Card title={of.title}>
      <Facts
        items={[
          {
            term: own.when,
            detail: day
              ? own.atStudio(whenInWords(day.place, words))
              : own.askedFor(signUp.wantedOn ? words.dates.day(signUp.wantedOn) : own.aDay),
          },
          ...(known ? [{ term: own.where, detail: studio.address }] : []),
          { term: own.who, detail: students.map(({ name }) => name).join(', ') },
          ...told(of.makes, platesInWords(course.plates, sizes, words)),
          ...told(of.bring, course.bring),
          ...told(of.wear, course.wear),
          ...told(of.reading, course.reading),
          ...told(of.fee, course.fee),
          ...(course.deposit === '' || owesNothing
            ? []
            : [
                {
                  term: of.deposit,
                  detail: own.depositIs(course.deposit, own.deposit[signUp.deposit]),
                },
              ]),
          ...told(of.release, course.release),
        ]}
      />
      {day && (
        <ol>
          {partsWithTimes(course.parts, day.place.wallStart, words).map(({ at, title, where }) => (
            <li key={`${at} ${title}`}>
              {at} {title} ({where})
            </li>
          ))}
        </ol>
      )}
    </Card>
  );
}
