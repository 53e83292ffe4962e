// The owner's calendar links, of all sittings and of tasks, and how to use them in plain words.
import type { StaffVisit } from '../accounts/visits.service.js';
import type { FeedLink } from '../calendar/feeds.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { momentInWords } from './words.calc.js';

interface CalendarPageProps {
  visit: StaffVisit;
  /** Null before there is one. */
  links: Record<'owner' | 'tasks', FeedLink | null>;
  notice?: Notice | undefined;
}

export function CalendarPage({ visit, links, notice }: CalendarPageProps) {
  const any = links.owner ?? links.tasks;
  return (
    <DeskPage visit={visit} title="Your calendar link" at="/calendar" notice={notice}>
      <p class="lead">All sittings and closed days of the studio, in the calendar you use anyway.</p>
      {links.owner === null ? (
        <NoLink visit={visit} of="owner" />
      ) : (
        <Link visit={visit} link={links.owner} of="owner" label="Address of your calendar" />
      )}
      <h2>Tasks</h2>
      <p>
        What must be prepared and by when, with the care of the baths: in a calendar of its own. It names no
        sitter, so you can hand it to whoever helps you.
      </p>
      {links.tasks === null ? (
        <NoLink visit={visit} of="tasks" />
      ) : (
        <Link visit={visit} link={links.tasks} of="tasks" label="Address of the calendar of tasks" />
      )}
      {any && <GoodToKnow local={isLoopback(any.url)} />}
    </DeskPage>
  );
}

interface LinkProps {
  visit: StaffVisit;
  link: FeedLink;
  of: 'owner' | 'tasks';
  label: string;
}

function Link({ visit, link: { url, fetchedAt }, of, label }: LinkProps) {
  return (
    <>
      <p>
        On a phone or tablet:{' '}
        <a class="button primary" href={url.replace(/^https?:/, 'webcal:')}>
          {of === 'tasks' ? 'Follow the tasks' : 'Follow this calendar'}
        </a>
      </p>
      <p>
        Elsewhere, look in your calendar for a way to add or subscribe to a calendar by its address, and give
        it this one:
      </p>
      <CopyField name={of === 'tasks' ? 'tasks' : 'calendar'} label={label} value={url} />
      <p>
        {fetchedAt
          ? `A calendar last came for it on ${momentInWords(visit.studio.zone, fetchedAt)}.`
          : 'No calendar has come for it yet.'}
      </p>
      <Leaked visit={visit} of={of} />
    </>
  );
}

/** For an address that fell into wrong hands, or is not wanted any more. */
function Leaked({ visit: { studio, formToken }, of }: Pick<LinkProps, 'visit' | 'of'>) {
  return (
    <details>
      <summary>{of === 'tasks' ? 'Stop this link to the tasks' : 'Stop this link'}</summary>
      <p>
        Whoever has the address gets nothing by it any more. With a new link, you follow that one instead.
      </p>
      <Form
        action={`/s/${studio.slug}/desk/calendar`}
        csrf={formToken}
        label={of === 'tasks' ? 'Stop the link to the tasks' : 'Stop the calendar link'}
      >
        <input type="hidden" name="of" value={of} />
        <Button kind="danger" name="do" value="replace">
          Make a new link in its place
        </Button>
        <Button kind="danger" name="do" value="end">
          End it
        </Button>
      </Form>
    </details>
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
      <Button kind={of === 'tasks' ? 'quiet' : 'primary'} name="do" value="make">
        {of === 'tasks' ? 'Make a link to the tasks' : 'Make my calendar link'}
      </Button>
    </Form>
  );
}

function isLoopback(url: string): boolean {
  const { hostname } = new URL(url);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
