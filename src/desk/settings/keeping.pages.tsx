// How long what is kept: the rules in words, and what goes tonight by them.
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form, NumberField } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import type { KeepingFound } from '../../privacy/keeping.service.js';
import type { Keeping } from '../../privacy/privacy.schemas.js';
import { type SectionProps, SettingsFrame, settingsPath } from './frame.pages.js';

export const answersOf = (rules: Keeping) =>
  Object.fromEntries(Object.entries(rules).map(([name, value]) => [name, String(value ?? '')]));

export function KeepingPage(props: SectionProps & { found: KeepingFound }) {
  const { visit, sent } = props;
  const { rules, inForce, tonight } = props.found;
  return (
    <SettingsFrame section="keeping" {...props}>
      {!inForce && (
        <Notice tone="note">
          Nothing is erased by itself until you keep these rules. The figures below are a proposal.
        </Notice>
      )}
      <p>
        Names and addresses are kept no longer than you need them. Whoever’s time is over is erased in the
        night; plates with their numbers, days held and stock stay, without a name. Somebody with several
        requests is erased when the time of the last is over; nobody is while a place, an offer or a turn on
        the list stands.
      </p>
      <Form
        action={settingsPath(visit, 'keeping')}
        csrf={visit.formToken}
        values={sent?.answers ?? answersOf(rules)}
        shown={answersOf(rules)}
        errors={sent?.problems ?? []}
        label="Rules of keeping"
      >
        <NumberField
          name="unansweredDays"
          label="Requests that nobody answered go after"
          unit="days"
          hint="Counted from the asking. Empty: never."
          optional
        />
        <NumberField
          name="refusedDays"
          label="Declined, withdrawn, given back or run out: they go after"
          unit="days"
          hint="Empty: never."
          optional
        />
        <NumberField
          name="madeMonths"
          label="Who came to sit or to learn goes after"
          unit="months"
          hint="Counted from their last day. Empty: never."
          optional
        />
        <NumberField
          name="lettersDays"
          label="The words of letters go after"
          unit="days"
          hint="That a letter went, and when, stays. Empty: never."
          optional
        />
        <Button>Keep these rules</Button>
      </Form>
      <h2>{inForce ? 'What goes tonight' : 'What would go tonight'}</h2>
      <p>
        By these rules: {counted(tonight.people.length, 'person', 'people')} and the words of{' '}
        {counted(tonight.letters, 'letter')}.
      </p>
      {tonight.people.length > 0 && (
        <ul>
          {tonight.people.map(({ contactId, name }) => (
            <li key={contactId}>
              <a href={`/s/${visit.studio.slug}/desk/people/${contactId}`}>{name}</a>
            </li>
          ))}
        </ul>
      )}
    </SettingsFrame>
  );
}
