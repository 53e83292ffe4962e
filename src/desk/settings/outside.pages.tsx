// Other calendars that the owner is busy by: the list, and adding one.
import { counted } from '../../lib/words.js';
import { FAILURE_WORDS } from '../../outside/failure.calc.js';
import type { OutsideCalendar } from '../../outside/outside.schemas.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card } from '../../platform/html/kit/facts.js';
import { FileField, Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { momentInWords } from '../words.calc.js';
import { type SectionProps, SettingsFrame, settingsPath } from './frame.pages.js';

export function OutsidePage(props: SectionProps & { calendars: OutsideCalendar[] }) {
  const { visit, calendars, sent } = props;
  const path = settingsPath(visit, 'outside');
  return (
    <SettingsFrame section="outside" {...props}>
      <p>
        Your own calendar, the school holidays, your helper’s: while something stands there, no place is open
        here. You see what it would close before it does, and whoever has a place keeps it.
      </p>
      {calendars.length === 0 && <p class="empty">No other calendar is here yet.</p>}
      <ul class="lines">
        {calendars.map((one) => (
          <li key={one.id}>
            <a href={`${path}/${one.id}`}>{one.name}</a> <StateTag calendar={one} />
            <p class="small">
              {sourceInWords(one)}; {choiceInWords(one)}; last read{' '}
              {momentInWords(visit.studio.zone, one.readAt)}
              {one.failure !== '' && `. ${FAILURE_WORDS[one.failure]}`}
            </p>
          </li>
        ))}
      </ul>
      <Card title="Add a calendar">
        <Form
          action={path}
          csrf={visit.formToken}
          values={sent?.answers ?? {}}
          errors={sent?.problems ?? []}
          label="Add a calendar"
          files
        >
          <TextField name="name" label="What you call it" hint="Such as: Mine, School holidays." />
          <TextField
            name="address"
            label="Its address"
            type="url"
            autocomplete="off"
            hint="Most calendars give one out to subscribe to; it begins with https:// or webcal://. Where it is secret it stays so: it is shown nowhere again. It is read every hour."
            optional
          />
          <FileField
            name="upload"
            label="Or its file"
            hint="It ends in .ics and has at most 2 MB. It is read this once."
            accept=".ics,.ical,.ifb,text/calendar"
            optional
          />
          <TextArea
            name="file"
            label="Or the text of its file"
            hint="Open the file with any editor and paste all of it. It is read this once."
            rows={5}
            optional
          />
          <Button>Read it</Button>
        </Form>
      </Card>
    </SettingsFrame>
  );
}

export function StateTag({ calendar: { state, failure } }: { calendar: OutsideCalendar }) {
  if (state === 'new') return <Tag tone="warn">not in use yet</Tag>;
  if (state === 'paused') return <Tag tone="warn">paused</Tag>;
  return failure === '' ? <Tag tone="good">in use</Tag> : <Tag tone="warn">could not be read</Tag>;
}

/** The secret part of an address is left out. */
export const sourceInWords = ({ host }: OutsideCalendar): string =>
  host === '' ? 'from a file' : `from ${host}/…`;

export function choiceInWords({ state, choice }: OutsideCalendar): string {
  if (state !== 'on') return 'blocks nothing';
  if (choice.blocks === 'nothing') return 'only shown';
  if (choice.blocks === 'days') return 'blocks whole days';
  const { marginMinutes } = choice;
  return marginMinutes === 0
    ? 'blocks its hours'
    : `blocks its hours and ${counted(marginMinutes, 'minute')} around`;
}
