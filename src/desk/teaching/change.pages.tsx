// What a change of a teaching day does and whom it touches, before it is done.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import type { Changed } from '../../teaching/changes.calc.js';
import type { Preview } from '../../teaching/changes.service.js';
import { minutesOf } from '../../teaching/course.schemas.js';
import { SIGN_UP_WORDS } from '../../teaching/words.calc.js';
import { DeskPage, type Notice } from '../frame.pages.js';

interface ChangeProps {
  visit: StaffVisit;
  shown: Preview;
  fields: Record<string, unknown>;
  notice?: Notice | undefined;
}

export function TeachingChangePage({ visit, shown, fields, notice }: ChangeProps) {
  const { before, change, touched } = shown;
  const own = `/s/${visit.studio.slug}/desk/teaching/${before.session.id}`;
  return (
    <DeskPage visit={visit} at="/teaching" title="What this changes" notice={notice}>
      <Card title="What changes">
        <ul>
          {change.what.map((what) => (
            <li key={what}>{inWords(what, shown)}</li>
          ))}
        </ul>
      </Card>
      <Card title="Whom it touches">
        {touched.length === 0 && (
          <p class="empty">Nobody who has signed up is touched, and nobody is told.</p>
        )}
        <ul>
          {touched.map(({ name, students, state }, at) => (
            <li key={`${at + 1} ${name}`}>
              {name} ({students.join(', ')}): {SIGN_UP_WORDS[state]}; is told
            </li>
          ))}
        </ul>
      </Card>
      <Form action={`${own}/change/confirm`} csrf={visit.formToken} label="Do it">
        {Object.entries(fields).map(([name, value]) =>
          typeof value === 'string' && !name.startsWith('_') && name !== 'hash' ? (
            <input key={name} type="hidden" name={name} value={value} />
          ) : null,
        )}
        <input type="hidden" name="hash" value={shown.hash} />
        <Button>Do this{touched.length > 0 ? ', and tell them' : ''}</Button>
      </Form>
      <p class="alone">
        <a href={own}>Leave it as it is</a>
      </p>
    </DeskPage>
  );
}

function inWords(
  what: Changed,
  { before: { session, place }, change: { after, wallStart } }: Preview,
): string {
  const at = (wall: typeof wallStart) => `${dayInWords(wall)}, ${timeInWords(wall)}`;
  const words: Record<Changed, () => string> = {
    start: () => `It begins on ${at(wallStart)} and not on ${at(place.wallStart)}.`,
    length: () => `It lasts ${minutesOf(after.course)} minutes and not ${minutesOf(session.course)}.`,
    course: () => 'It is taught as the kind of day says now; what it takes of the shelf is set aside anew.',
    places: () => `There are ${after.places} places and not ${session.places}.`,
    least: () => `The least number is ${after.least} and not ${session.least}.`,
    decide: () =>
      `It is decided by ${dayInWords(after.decideOn)} and not by ${dayInWords(session.decideOn)}.`,
    'second adult': () => `The second adult is ${after.secondAdult || 'not named'}.`,
  };
  return words[what]();
}
