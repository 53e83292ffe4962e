// What the desk did last with a request: undone with one tap while nobody was told, with what undoing does; after
// that it says so, and what is honest instead.
import type { StaffVisit } from '../accounts/visits.service.js';
import { timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Notice } from '../platform/html/kit/notices.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { Undoable } from '../sittings/undo.schemas.js';
import type { LastAct } from './undo-acts.service.js';

interface LastActProps {
  visit: StaffVisit;
  view: SittingView;
  act: LastAct | null;
}

export function LastActNotice({ visit, view, act }: LastActProps) {
  if (!act) return null;
  const { studio, formToken } = visit;
  const home = `/s/${studio.slug}/desk`;
  if (act.told)
    return (
      <p class="small">
        They have been told, so this is not undone any more. {INSTEAD[act.event]}
        {act.event === 'approve' && view.place && (
          <a href={`${home}/move?from=${view.place.wallStart.toPlainDate()}`}>Move it or call it off.</a>
        )}
      </p>
    );
  return (
    <Notice tone="note">
      <p>
        {act.event !== 'mark' && `${waits(visit, view, act)} `}
        {WILL[act.event]}
      </p>
      <Form action={`${home}/requests/${view.sitting.id}/undo`} csrf={formToken} label="Undo">
        <input type="hidden" name="act" value={act.id} />
        <Button kind="quiet">{BUTTON[act.event]}</Button>
      </Form>
    </Notice>
  );
}

function waits({ studio: { zone } }: StaffVisit, { contact }: SittingView, { until }: LastAct): string {
  const from = until && timeInWords(instantToWall(zone, until));
  if (contact.reachBy !== 'email')
    return 'They have no e-mail and nobody has told them yet; they stand on your list to telephone and to post.';
  return from
    ? `Nobody has been told yet; the letter goes at ${from}.`
    : 'Nobody has been told yet; the letter is about to go.';
}

/** What undoing does. */
const WILL: Record<Undoable, string> = {
  approve:
    'Undo takes the place back as if it had not been given: room and shelf are free again, and no letter goes.',
  decline: 'Undo puts the request back where it was, and no letter goes.',
  wait: 'Undo takes it off the list to where it was, and no letter goes.',
  mark: 'Undo puts the marks back as they were before.',
  release: 'Undo gives them the place again, with what is set aside for it, and no letter goes.',
};

const BUTTON: Record<Undoable, string> = {
  approve: 'Undo: take the place back',
  decline: 'Undo: do not decline',
  wait: 'Undo: not on the list',
  mark: 'Undo: the marks as before',
  release: 'Undo: the place is theirs again',
};

/** What is honest once they know. */
const INSTEAD: Record<Undoable, string> = {
  approve: 'To take the place back, they have to be told: ',
  decline: 'If you can give them a place after all, telephone them and let them ask again.',
  wait: 'Below you can give or offer them a place, or decline.',
  mark: '',
  release: 'If they want a place after all, let them ask again.',
};
