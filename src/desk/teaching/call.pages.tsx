// One of those to telephone or to write to about a day of teaching: the number, what to say, a tick.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { teachingToSay, teachingWasToSay } from '../../reminders/teaching-call-words.calc.js';
import type { TeachingToTell } from '../../reminders/teaching-calls.calc.js';
import { Letters, telephonePath, ToRing, WHY_WORDS } from '../telephone-parts.pages.js';
import { momentInWords } from '../words.calc.js';

export function TeachingCall({ visit, entry }: { visit: StaffVisit; entry: TeachingToTell }) {
  const { view, why, mail, about, before, openUntil, way } = entry;
  const { contact, signUp, day } = view;
  const [first, second] = teachingToSay(about);
  const teaching = `/s/${visit.studio.slug}/desk/teaching`;
  const path = day ? `${teaching}/${day.session.id}` : teaching;
  return (
    <article class="day">
      <h3>
        <a href={path}>{contact.name}</a>
      </h3>
      <p>
        {way === 'letter' ? contact.postalAddress.replace(/\s*\n\s*/g, ', ') : <ToRing contact={contact} />}
        {openUntil && (
          <>
            {' '}
            <Tag tone={entry.now ? 'warn' : undefined}>
              {`runs out ${momentInWords(visit.studio.zone, openUntil)}`}
            </Tag>
          </>
        )}
      </p>
      <p>{first}</p>
      {second !== '' && <p>{second}</p>}
      {(why !== 'no e-mail' || before.length > 0) && (
        <p class="small">
          {WHY_WORDS[why]}
          {before.length > 0 && ` Not told before either: ${before.map(teachingWasToSay).join(' ')}`}
        </p>
      )}
      <p class="print-only">Told on ................ by ................</p>
      <div class="actions">
        <Form
          action={telephonePath(visit, `/${signUp.id}/told`)}
          csrf={visit.formToken}
          label={`Tick ${contact.name}, teaching`}
        >
          <Letters mails={[...before, mail]} />
          <Button kind="quiet">{way === 'letter' ? 'Posted' : 'Told'}</Button>
        </Form>
        {about.change === 'offered' && (
          <a class="no-print" href={`${path}#sign-up-${signUp.id}`}>
            Note their answer
          </a>
        )}
      </div>
    </article>
  );
}
