// When the room is closed, and days with starts of their own.
import { Temporal } from 'temporal-polyfill';
import { dayInWords } from '../../lib/words.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Card } from '../../platform/html/kit/facts.js';
import { TextField } from '../../platform/html/kit/form.js';
import { isExtraDay } from '../../room/openings.calc.js';
import type { RoomRules } from '../../room/rules.schemas.js';
import { closureInWords, startsInWords } from '../../room/words.calc.js';
import { ChangeForm, type SectionProps, SettingsFrame } from './frame.pages.js';

interface ClosuresPageProps extends SectionProps {
  rules: RoomRules;
  today: Temporal.PlainDate;
}

export function ClosuresPage({ visit, rules, today, notice, sent }: ClosuresPageProps) {
  const { compare } = Temporal.PlainDate;
  const section = 'closures';
  const closures = rules.closures.filter((one) => compare(one.wallUntil.toPlainDate(), today) >= 0);
  const extraDays = rules.rhythms.filter((one) => isExtraDay(one) && compare(one.effectiveFrom, today) >= 0);
  return (
    <SettingsFrame visit={visit} section={section} notice={notice} sent={sent}>
      <h2>Closed</h2>
      <p>
        While the room is closed no place is open. Sittings already confirmed and offers that are open keep
        their place, and stand on your desk as to be moved.
      </p>
      {closures.length === 0 && <p class="empty">The room is not closed at any time to come.</p>}
      {closures.map((one) => (
        <Card key={one.id} title={closureInWords(one)}>
          {one.title !== '' && <p>{one.title}</p>}
          <ChangeForm
            visit={visit}
            section={section}
            doing="reopen"
            about={{ closureId: one.id }}
            label={`Open again: ${closureInWords(one)}`}
            button="Open again"
            danger
          />
        </Card>
      ))}
      <Card title="Close the room">
        <ChangeForm visit={visit} section={section} doing="close" sent={sent} label="Close the room">
          <DateField name="from" label="First day" />
          <DateField name="until" label="Last day" hint="Leave empty for one day." optional />
          <TextField
            name="fromTime"
            label="From what time on the first day"
            hint="Leave both times empty for whole days."
            width="short"
            optional
          />
          <TextField name="untilTime" label="Until what time on the last day" width="short" optional />
          <TextField
            name="title"
            label="A word about it"
            hint="You see it here and in your calendar."
            optional
          />
        </ChangeForm>
      </Card>
      <h2>Days with starts of their own</h2>
      <p>
        A day outside the rhythm on which you take sittings, or a day of it that starts otherwise. Lengths and
        limits are those of the rhythm.
      </p>
      {extraDays.map((one) => (
        <Card key={one.id} title={dayInWords(one.effectiveFrom)}>
          <p>{startsInWords(one.starts)}</p>
          <ChangeForm
            visit={visit}
            section={section}
            doing="drop rhythm"
            about={{ rhythmId: one.id }}
            label={`Remove: ${dayInWords(one.effectiveFrom)}`}
            button="Remove this day"
            danger
          />
        </Card>
      ))}
      <Card title="Add a day">
        <ChangeForm visit={visit} section={section} doing="extra day" sent={sent} label="Add a day">
          <DateField name="date" label="Which day" />
          <TextField
            name="starts"
            label="A sitting may start at"
            hint="Times with commas between: 09:30, 11:15."
          />
        </ChangeForm>
      </Card>
    </SettingsFrame>
  );
}
