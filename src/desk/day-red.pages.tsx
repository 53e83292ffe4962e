// The list of the day in red for the darkroom: who comes, ticks and endings as huge targets. Nothing is typed here.
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { RedPage } from '../platform/html/red-page.js';
import { FORM_FIELD } from '../platform/security/forms.js';
import { ENDED, ENDINGS, mayTell } from './day-endings.pages.js';
import { TeachingOnRed } from './teaching/on-sheet.pages.js';
import type { DaySheet, OnSheet } from './day-sheets.service.js';
import { platesInWords } from './words.calc.js';

interface RedProps {
  visit: StaffVisit;
  sheet: DaySheet;
}

export function RedDayPage({ visit, sheet }: RedProps) {
  const day = `/s/${visit.studio.slug}/desk/days/${sheet.date}`;
  return (
    <RedPage title={dayInWords(sheet.date)} back={{ href: day, label: 'Day sheet (bright)' }}>
      {sheet.sittings.length === 0 && <p>Nobody sits on this day.</p>}
      <ol>
        {sheet.sittings.map((one) => (
          <RedSitting key={one.view.sitting.id} visit={visit} sheet={sheet} one={one} />
        ))}
      </ol>
      <TeachingOnRed days={sheet.teaching} />
      {sheet.date.equals(sheet.today) && <a href={`${day}/red/off`}>The chemistry is off</a>}
    </RedPage>
  );
}

function RedSitting({ visit, sheet, one }: RedProps & { one: OnSheet }) {
  const { view, place, day: went } = one;
  const act = `/s/${visit.studio.slug}/desk/days/${sheet.date}/${view.sitting.id}`;
  const may = mayTell(sheet, one);
  const who = view.contact.name;
  return (
    <li>
      <h2>
        {timeInWords(place.wallStart)} {who}
      </h2>
      <p>{platesInWords(view)}</p>
      {view.sitting.details.access !== '' && <p>What helps them: {view.sitting.details.access}</p>}
      {ENDED[view.sitting.state] && <p>{ENDED[view.sitting.state]}</p>}
      {may.arrival && (
        <form action={`${act}/arrived`} method="post" aria-label={`${who} is here`}>
          <input type="hidden" name={FORM_FIELD} value={visit.formToken} />
          <input type="hidden" name="from" value="red" />
          <button type="submit" name="here" value={went.arrivedAt ? 'no' : 'yes'}>
            {went.arrivedAt ? 'Here. Take it back' : 'They are here'}
          </button>
        </form>
      )}
      {may.ending && (
        <details>
          <summary>How it ended</summary>
          <form action={`${act}/end`} method="post" aria-label={`How it ended for ${who}`}>
            <input type="hidden" name={FORM_FIELD} value={visit.formToken} />
            <input type="hidden" name="from" value="red" />
            {ENDINGS.map(({ value, label }) => (
              <button key={value} type="submit" name="ending" value={value}>
                {label}
              </button>
            ))}
          </form>
        </details>
      )}
    </li>
  );
}
