// Copies of the studio: the newest, all that are kept, one tap for a further one, and how to put one back.
import type { KeptCopy } from '../../backup/backup.service.js';
import { KEPT } from '../../backup/rotation.calc.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import { type SectionProps, SettingsFrame, settingsPath } from './frame.pages.js';

interface CopiesProps extends SectionProps {
  copies: KeptCopy[];
  /** Where they are on the machine. */
  folder: string;
  /** The key of all links is in each copy. */
  withKey: boolean;
}

export function CopiesPage(props: CopiesProps) {
  const { visit, copies, folder, withKey } = props;
  const newest = copies[0];
  return (
    <SettingsFrame section="copies" {...props}>
      <p>
        {newest ? `The newest copy was made on ${dayInWords(newest.day)}.` : 'No copy has been made yet.'} One
        is made every night; {counted(KEPT.days, 'day')}, {counted(KEPT.weeks, 'week')} and{' '}
        {counted(KEPT.months, 'month')} back one each is kept. A machine that was asleep makes it when it
        wakes.
      </p>
      <Form action={settingsPath(visit, 'copies')} csrf={visit.formToken} label="Make a copy">
        <Button>Make a copy now</Button>
      </Form>
      <p>
        A copy that lies on the same machine is lost with it: take one home on a stick now and then.
        Everything is in it, names and telephone numbers too
        {withKey && ', and the key that opens everybody’s page'}: keep it as you keep your keys.
      </p>
      <Table
        caption="Copies, the newest first"
        columns={[{ head: 'Made' }, { head: 'Size', figures: true }, { head: 'File' }]}
        rows={copies.map(({ name, day, bytes }) => [
          dayInWords(day),
          sizeInWords(bytes),
          <a key={name} href={`${settingsPath(visit, 'copies')}/${name}`} download>
            Download<span class="unseen"> {name}</span>
          </a>,
        ])}
        empty="None yet."
      />
      <h2>Putting one back</h2>
      <p>
        Into an empty Plateday, of the same version, on this machine or another. The copy is checked whole
        before anything is touched, and either all of it comes back or nothing does.
      </p>
      <p>
        <code>npm run restore -- THE-FILE.tar.gz</code>
      </p>
      <p>
        Its parts can be read without Plateday too: any archive program opens it, and the tables in it any
        spreadsheet. The copies are in <code>{folder}</code>.
      </p>
    </SettingsFrame>
  );
}

/** "12 kB", "3.4 MB". */
const sizeInWords = (bytes: number) =>
  bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
