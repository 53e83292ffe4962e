// The day on the page of who signed up: when and where, who learns, what to bring, and its parts.
import { dayInWords } from '../lib/words.js';
import { Card, Facts } from '../platform/html/kit/facts.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { OwnView } from './day-views.schemas.js';
import { DEPOSIT_WORDS, partsWithTimes, platesInWords, whenInWords } from './words.calc.js';

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
  return (
    <Card title="The day">
      <Facts
        items={[
          {
            term: 'When',
            detail: day
              ? `${whenInWords(day.place)}, time at the studio`
              : `Asked for ${signUp.wantedOn ? dayInWords(signUp.wantedOn) : 'a day'}`,
          },
          ...(known ? [{ term: 'Where', detail: studio.address }] : []),
          { term: 'Who learns', detail: students.map(({ name }) => name).join(', ') },
          ...told('Each of you makes', platesInWords(course.plates, sizes)),
          ...told('Bring', course.bring),
          ...told('Wear', course.wear),
          ...told('Before you come', course.reading),
          ...told('Fee', course.fee),
          ...(course.deposit === ''
            ? []
            : [{ term: 'Deposit', detail: `${course.deposit}: ${DEPOSIT_WORDS[signUp.deposit]}` }]),
          ...told('If you cannot come', course.release),
        ]}
      />
      {day && (
        <ol>
          {partsWithTimes(course.parts, day.place.wallStart).map(({ at, title, where }) => (
            <li key={`${at} ${title}`}>
              {at} {title} ({where})
            </li>
          ))}
        </ol>
      )}
    </Card>
  );
}
