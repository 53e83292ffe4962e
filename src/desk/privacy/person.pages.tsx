// One person's data at the desk: taking it as a file, and erasing it after seeing what goes and what stays.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import { Notice } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { ErasurePreview } from '../../privacy/privacy.schemas.js';
import { DeskPage, type Notice as Told } from '../frame.pages.js';
import { momentInWords } from '../words.calc.js';

/** What stands in the rows of a table, for a person. */
const WHAT: Record<string, string> = {
  contact: 'Name, how to reach them, where they come from',
  sitter: 'Names of who sits',
  sitting: 'Requests: what they hope for, what helps them, guardians, marks',
  sitting_day: 'Notes on how a day ended',
  plan_wish: 'What they asked to change',
  sign_up: 'Sign-ups: what they told you',
  student: 'Students: names, gear, what helps them, whom to ring',
  plate_made: 'Plates: names and notes',
  record_entry: 'What stands on the backs of plates',
  voucher: 'Vouchers: who bought them and for whom',
  mail: 'Letters, the words and the address',
  history: 'Words in the record of what was done',
  sitting_act: 'What could be undone',
};

export function PersonPage({
  visit,
  found,
  notice,
}: {
  visit: StaffVisit;
  found: ErasurePreview;
  notice?: Told | undefined;
}) {
  const path = `/s/${visit.studio.slug}/desk/people/${found.contactId}`;
  const { zone } = visit.studio;
  return (
    <DeskPage visit={visit} title={`Data of ${found.name}`} at="" notice={notice}>
      {found.erasedAt ? (
        <Notice tone="note">Erased {momentInWords(zone, found.erasedAt)}. What is left names nobody.</Notice>
      ) : (
        found.askedAt && (
          <Notice tone="note">
            They asked on their own page to be erased: {momentInWords(zone, found.askedAt)}. In Europe and
            Britain the answer is due within a month.
          </Notice>
        )
      )}
      <h2>As a file</h2>
      <p>Everything kept about them, for whoever asks for it. Nothing of other people is in it.</p>
      <Form action={`${path}/file`} csrf={visit.formToken} label="As a file">
        <p class="actions">
          <Button kind="quiet" name="as" value="json">
            Download as one file (JSON)
          </Button>
          <Button kind="quiet" name="as" value="csv">
            Download as a table (CSV)
          </Button>
        </p>
      </Form>
      {found.erasedAt === null && <Erasing path={path} visit={visit} found={found} />}
    </DeskPage>
  );
}

function Erasing({ path, visit, found }: { path: string; visit: StaffVisit; found: ErasurePreview }) {
  return (
    <>
      <h2>Erase</h2>
      <Table
        caption="What goes"
        columns={[{ head: 'What' }, { head: 'Entries', figures: true }]}
        rows={found.goes.map(({ table, rows }) => [WHAT[table] ?? table, String(rows)])}
      />
      <p>
        A request that nobody has answered is withdrawn. Their links and calendars stop, letters that wait are
        not sent, files of letters are deleted, and where your own notes name them in full the name goes.
      </p>
      <p>
        What stays, without a name: that a day was held, its hour in the calendar, the plates with their
        running numbers, what was used of the shelf, and which yes was given and taken back. Your books and
        your stock need them. Older copies keep the person until they are thinned out; a copy put back is
        erased again at once. Letters that a mail server has taken are out of our hands.
      </p>
      {found.standing > 0 ? (
        <Notice tone="warn">
          Still standing: {counted(found.standing, 'place')} of theirs, ahead or offered. Please give it back,
          call it off or call the offer back first.
        </Notice>
      ) : (
        <Form action={`${path}/erase`} csrf={visit.formToken} label="Erase">
          <p>It cannot be undone.</p>
          <Button kind="danger">Erase {found.name} for good</Button>
        </Form>
      )}
    </>
  );
}
