// Teaching days among the days that cannot be held: whom each touches, what is done, how it went.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { RadioGroup } from '../../platform/html/kit/choices.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { type CalledOff, seenOf, type TeachingToCallOff } from '../../teaching/moving-days.service.js';
import { SESSION_WORDS, SIGN_UP_WORDS, whenInWords } from '../../teaching/words.calc.js';
import { moveField, seenField } from './move-form.calc.js';

interface MoveProps {
  visit: StaffVisit;
  days: TeachingToCallOff[];
  /** What was chosen before, when the form is shown again. */
  chosen: Record<string, unknown>;
}

export function TeachingToMove({ visit, days, chosen }: MoveProps) {
  return (
    <>
      {days.map((day) => (
        <OneDay key={day.session.id} visit={visit} day={day} chosen={chosen[moveField(day.session.id)]} />
      ))}
    </>
  );
}

function OneDay({ visit, day, chosen }: { visit: StaffVisit; day: TeachingToCallOff; chosen: unknown }) {
  const { session, place, signUps, waiting } = day;
  const touched = signUps.length + waiting;
  return (
    <Card title={`Teaching: ${session.course.name}`}>
      <p>
        {whenInWords(place)} <Tag>{SESSION_WORDS[session.state]}</Tag>
      </p>
      {signUps.length > 0 && (
        <ul>
          {signUps.map(({ signUp, contact, students }) => (
            <li key={signUp.id}>
              {contact.name}: {students.map(({ name }) => name).join(', ')} ({SIGN_UP_WORDS[signUp.state]});{' '}
              {contact.reachBy === 'email'
                ? 'by e-mail'
                : 'has no e-mail: will stand on the list to telephone'}
            </li>
          ))}
        </ul>
      )}
      {waiting > 0 && <p>On its waiting list: {waiting}.</p>}
      {touched === 0 && <p>Nobody has signed up, so nobody is told.</p>}
      <input type="hidden" name={seenField(session.id)} value={seenOf(session)} />
      <RadioGroup
        name={moveField(session.id)}
        label={`What is done with ${session.course.name}?`}
        value={typeof chosen === 'string' ? chosen : 'off'}
        options={[
          {
            value: 'off',
            label: 'Call it off: places, room and all that is set aside are free',
            hint:
              touched === 0
                ? undefined
                : `${counted(touched, 'sign-up')} ${touched === 1 ? 'is' : 'are'} told, once you confirm`,
          },
          { value: 'leave', label: 'Leave it as it is' },
        ]}
      />
      <p class="small">
        Another date instead? Leave it here and{' '}
        <a href={`/s/${visit.studio.slug}/desk/teaching/${session.id}`}>change the day itself</a>.
      </p>
    </Card>
  );
}

/** How it went with each; what could not be done is told with the reason. */
export function CalledOffDays({ visit, outcomes }: { visit: StaffVisit; outcomes: CalledOff[] }) {
  if (outcomes.length === 0) return null;
  return (
    <ul>
      {outcomes.map(({ sessionId, name, problem }) => (
        <li key={sessionId}>
          <a href={`/s/${visit.studio.slug}/desk/teaching/${sessionId}`}>{name}</a>:{' '}
          {problem ?? 'called off; who signed up is told'}
        </li>
      ))}
    </ul>
  );
}
