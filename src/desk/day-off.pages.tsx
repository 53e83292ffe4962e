// "The chemistry is off" on the red screen: what, then what was seen, which puts it aside; then who depends on it.
// Three pages of huge targets, nothing to type.
import type { StaffVisit } from '../accounts/visits.service.js';
import { timeInWords } from '../lib/words.js';
import { RedPage } from '../platform/html/red-page.js';
import { FORM_KEY_FIELD } from '../platform/html/kit/form.js';
import { FORM_FIELD } from '../platform/security/forms.js';
import { TEST_PLATE } from '../stock/bath-forms.schemas.js';
import { FAULTS } from '../stock/baths.schemas.js';
import type { Concerned } from './shelf/concerned.service.js';
import { type Suspect, suspectName } from './shelf/faults.pages.js';

interface RedOffProps {
  visit: StaffVisit;
  /** The list of the day in red. */
  red: string;
}

export function RedSuspectsPage({ red, suspects }: RedOffProps & { suspects: Suspect[] }) {
  return (
    <RedPage title="The chemistry is off" back={{ href: red, label: 'No. Back to the day' }}>
      <p>What is it? Nothing happens yet.</p>
      <ul>
        {suspects.map(({ value, label }) => (
          <li key={value}>
            <a href={`${red}/off?what=${encodeURIComponent(value)}`}>{label}</a>
          </li>
        ))}
      </ul>
    </RedPage>
  );
}

export function RedSeenPage({
  visit,
  red,
  suspect,
  formKey,
}: RedOffProps & { suspect: Suspect; formKey: string }) {
  const aside = suspect.value === TEST_PLATE ? 'Write it down' : `Put ${suspect.label} aside`;
  return (
    <RedPage title={suspect.label} back={{ href: `${red}/off`, label: 'No. Choose again' }}>
      <p>What was seen? Nobody is written to.</p>
      <form action={`${red}/off`} method="post" aria-label="What was seen">
        <input type="hidden" name={FORM_FIELD} value={visit.formToken} />
        <input type="hidden" name={FORM_KEY_FIELD} value={formKey} />
        <input type="hidden" name="what" value={suspect.value} />
        {FAULTS.map((seen) => (
          <button key={seen} type="submit" name="seen" value={seen}>
            {seen.charAt(0).toUpperCase() + seen.slice(1)}. {aside}
          </button>
        ))}
      </form>
    </RedPage>
  );
}

export function RedOffPage({ visit, red, found }: RedOffProps & { found: Concerned }) {
  const { whole, thatDay } = found;
  const { fault, bath } = whole;
  const instead = whole.days.find(({ day }) => day.date.equals(fault.day));
  const bottles = [
    ...new Set(whole.concerned.flatMap((one) => (one.day.equals(fault.day) ? one.instead : []))),
  ];
  return (
    <RedPage title={`${suspectName(whole)}: ${fault.seen}`} back={{ href: red, label: 'Back to the day' }}>
      <p>It is written down. Nobody is written to.</p>
      {bath && instead && (
        <p>
          {instead.instead ? `${instead.instead.name} takes today’s plates.` : 'No other bath takes them.'}
        </p>
      )}
      {bottles.length > 0 && <p>Instead: {bottles.join(', ')}</p>}
      {thatDay.length === 0 ? (
        <p>Nobody comes any more today.</p>
      ) : (
        <ul>
          {thatDay.map(({ sitting, contact, place }) => (
            <li key={sitting.id}>
              {place && timeInWords(place.wallStart)} {contact.name}
            </li>
          ))}
        </ul>
      )}
      <p>
        Whoever is here: tell it on the list of the day as came, no plate.
        {visit.account.role === 'owner' && ' Whoever is to come: move or call them off, out in the light.'}
      </p>
      <ul>
        <li>
          <a href={`/s/${visit.studio.slug}/desk/shelf/baths/off/${fault.id}`}>All about it (bright)</a>
        </li>
      </ul>
    </RedPage>
  );
}
