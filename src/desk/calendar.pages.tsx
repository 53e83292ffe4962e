// The owner's calendar links, of all sittings and of tasks, and how to use them in plain words.
import type { StaffVisit } from '../accounts/visits.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';
import { DeskPage, type Notice } from './frame.pages.js';

interface CalendarPageProps {
  visit: StaffVisit;
  /** The whole address of the calendar; null before there is one. */
  url: string | null;
  /** That of the calendar of tasks. */
  tasksUrl: string | null;
  notice?: Notice | undefined;
}

export function CalendarPage({ visit, url, tasksUrl, notice }: CalendarPageProps) {
  return (
    <DeskPage visit={visit} title="Your calendar link" at="/calendar" notice={notice}>
      <p class="lead">All sittings and closed days of the studio, in the calendar you use anyway.</p>
      {url === null ? (
        <NoLink visit={visit} of="owner" />
      ) : (
        <Link url={url} name="calendar" label="Address of your calendar" />
      )}
      <h2>Tasks</h2>
      <p>
        What must be prepared and by when, with the care of the baths: in a calendar of its own. It names no
        sitter, so you can hand it to whoever helps you.
      </p>
      {tasksUrl === null ? (
        <NoLink visit={visit} of="tasks" />
      ) : (
        <Link url={tasksUrl} name="tasks" label="Address of the calendar of tasks" />
      )}
      {(url ?? tasksUrl) !== null && <GoodToKnow local={isLoopback(url ?? tasksUrl ?? '')} />}
    </DeskPage>
  );
}

function Link({ url, name, label }: { url: string; name: string; label: string }) {
  return (
    <>
      <p>
        On a phone or tablet:{' '}
        <a class="button primary" href={url.replace(/^https?:/, 'webcal:')}>
          {name === 'tasks' ? 'Follow the tasks' : 'Follow this calendar'}
        </a>
      </p>
      <p>
        Elsewhere, look in your calendar for a way to add or subscribe to a calendar by its address, and give
        it this one:
      </p>
      <CopyField name={name} label={label} value={url} />
    </>
  );
}

function GoodToKnow({ local }: { local: boolean }) {
  return (
    <>
      <h2>Good to know</h2>
      <ul>
        {local && (
          <li>This studio runs on this computer alone, so other devices cannot reach these addresses.</li>
        )}
        <li>
          It keeps in step by itself. How often is for your calendar to say: some look every few hours, some
          once a day.
        </li>
        <li>
          It is for reading. What you change in your calendar stays there; places are given, and tasks ticked,
          at this desk.
        </li>
        <li>
          The first holds names and what people told you. Whoever has the address can read it, so please keep
          it to yourself.
        </li>
      </ul>
    </>
  );
}

function NoLink({ visit: { studio, formToken }, of }: { visit: StaffVisit; of: 'owner' | 'tasks' }) {
  return (
    <Form action={`/s/${studio.slug}/desk/calendar`} csrf={formToken} label={`Calendar link: ${of}`}>
      <input type="hidden" name="of" value={of} />
      <p>{of === 'tasks' ? 'There is no link to the tasks yet.' : 'You have no calendar link yet.'}</p>
      <Button kind={of === 'tasks' ? 'quiet' : 'primary'}>
        {of === 'tasks' ? 'Make a link to the tasks' : 'Make my calendar link'}
      </Button>
    </Form>
  );
}

function isLoopback(url: string): boolean {
  const { hostname } = new URL(url);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
