// The turns on the darkroom's red screen: for each student what is on now and what is next, and what is told by buttons
// alone, since hands are black there.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { RedPage } from '../../platform/html/red-page.js';
import { FORM_FIELD } from '../../platform/security/forms.js';
import { clockTime, lineInWords, type NameOf } from '../../teaching/rota-words.calc.js';
import type { Turns } from '../../teaching/turns.schemas.js';
import type { TurnsView } from '../../teaching/turns.service.js';
import { type NowAndNext, nowAndNext, plateInWords, readPlate } from '../../teaching/turns-words.calc.js';

/** So many minutes a tap tells somebody to be late. Assumption. */
const TAP_MINUTES = 10;

interface RedProps {
  visit: StaffVisit;
  view: Pick<TurnsView, 'day' | 'now'> & { kept: Turns };
  nameOf: NameOf;
}

export function RedTurnsPage({ visit, view, nameOf }: RedProps) {
  const { day, kept, now } = view;
  const own = `/s/${visit.studio.slug}/desk/teaching/${day.session.id}/turns`;
  const { bench, rota, told } = kept;
  return (
    <RedPage
      title={`${now > 0 ? `${clockTime(now)} ` : ''}${dayInWords(day.place.wallStart)}`}
      back={{ href: own, label: 'Turns (bright)' }}
    >
      <p>
        <a href={`${own}/red`}>Look again</a>
      </p>
      <ol>
        {nowAndNext(bench, rota, told, now).map((one) => (
          <RedStudent key={one.student} {...{ one, own, nameOf }} formToken={visit.formToken} />
        ))}
      </ol>
      {rota.unplaced.length > 0 && (
        <p>
          No turn is left for: {rota.unplaced.map((one) => plateInWords(readPlate(one), nameOf)).join('; ')}.
        </p>
      )}
    </RedPage>
  );
}

interface RedStudentProps {
  one: NowAndNext;
  own: string;
  formToken: string;
  nameOf: NameOf;
}

function RedStudent({ one: { student, now, next, plate }, own, formToken, nameOf }: RedStudentProps) {
  const name = nameOf(student);
  const tap = (act: string, sent: Record<string, string>, label: string) => (
    <form action={`${own}/${act}`} method="post" aria-label={`${name}: ${label}`}>
      <input type="hidden" name={FORM_FIELD} value={formToken} />
      <input type="hidden" name="from" value="red" />
      {Object.entries(sent).map(([field, value]) => (
        <input key={field} type="hidden" name={field} value={value} />
      ))}
      <button type="submit">{label}</button>
    </form>
  );
  return (
    <li>
      <h2>{name}</h2>
      <p>{now ? `Now, until ${clockTime(now.until)}: ${lineInWords(now, nameOf)}` : 'Nothing now.'}</p>
      <p>{next ? `At ${clockTime(next.from)}: ${lineInWords(next, nameOf)}` : 'Nothing more today.'}</p>
      {plate && tap('plate', { plate: plate.plate, what: 'done' }, `Plate ${plate.round} is done`)}
      {plate && (
        <details>
          <summary>{name}: late, or skip</summary>
          {tap(
            'late',
            { studentId: student, minutes: String(TAP_MINUTES) },
            `${counted(TAP_MINUTES, 'minute')} late`,
          )}
          {tap('plate', { plate: plate.plate, what: 'skip' }, `Skip plate ${plate.round}`)}
        </details>
      )}
    </li>
  );
}
