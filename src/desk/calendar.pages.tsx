// The owner's calendar links, of all sittings and of tasks, and how to use them in plain words.
import type { StaffVisit } from '../accounts/visits.service.js';
import type { DeskFeed, FeedLink } from '../calendar/feeds.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { momentInWords } from './words.calc.js';

interface CalendarPageProps {
  visit: StaffVisit;
  /** Null before there is one. */
  links: Record<DeskFeed, FeedLink | null>;
  notice?: Notice | undefined;
}

export function CalendarPage({ visit, links, notice }: CalendarPageProps) {
  const any = links.owner ?? links.tasks ?? links.assistant;
  return (
    <DeskPage visit={visit} title="Your calendar link" at="/calendar" notice={notice}>
      <p class="lead">
        All sittings, teaching days and closed days of the studio, in the calendar you use anyway.
      </p>
      <LinkOf visit={visit} link={links.owner} of="owner" />
      <h2>Tasks</h2>
      <p>
        What must be prepared and by when, with the care of the baths: in a calendar of its own. It names no
        sitter, so you can hand it to whoever helps you.
      </p>
      <LinkOf visit={visit} link={links.tasks} of="tasks" />
      <h2>For your assistant</h2>
      <p>
        Who comes on which day, for which plates, and what would help them; of teaching days who learns. No
        telephone numbers, and nothing that people told you only.
      </p>
      <LinkOf visit={visit} link={links.assistant} of="assistant" />
      {any && <GoodToKnow local={isLoopback(any.url)} />}
    </DeskPage>
  );
}

const WORDS: Record<
  DeskFeed,
  {
    follow: string;
    name: string;
    address: string;
    stop: string;
    stopForm: string;
    none: string;
    make: string;
  }
> = {
  owner: {
    follow: 'Follow this calendar',
    name: 'calendar',
    address: 'Address of your calendar',
    stop: 'Stop this link',
    stopForm: 'Stop the calendar link',
    none: 'You have no calendar link yet.',
    make: 'Make my calendar link',
  },
  tasks: {
    follow: 'Follow the tasks',
    name: 'tasks',
    address: 'Address of the calendar of tasks',
    stop: 'Stop this link to the tasks',
    stopForm: 'Stop the link to the tasks',
    none: 'There is no link to the tasks yet.',
    make: 'Make a link to the tasks',
  },
  assistant: {
    follow: 'Follow the day sheets',
    name: 'day-sheets',
    address: 'Address of the calendar for your assistant',
    stop: 'Stop this link for the assistant',
    stopForm: 'Stop the link for the assistant',
    none: 'There is no link for an assistant yet.',
    make: 'Make a link for my assistant',
  },
};

function LinkOf({ visit, link, of }: { visit: StaffVisit; link: FeedLink | null; of: DeskFeed }) {
  return link === null ? <NoLink visit={visit} of={of} /> : <Link visit={visit} link={link} of={of} />;
}

interface LinkProps {
  visit: StaffVisit;
  link: FeedLink;
  of: DeskFeed;
}

function Link({ visit, link: { url, fetchedAt }, of }: LinkProps) {
  return (
    <>
      <p>
        On a phone or tablet:{' '}
        <a class="button primary" href={url.replace(/^https?:/, 'webcal:')}>
          {WORDS[of].follow}
        </a>
      </p>
      <p>
        Elsewhere, look in your calendar for a way to add or subscribe to a calendar by its address, and give
        it this one:
      </p>
      <CopyField name={WORDS[of].name} label={WORDS[of].address} value={url} />
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
      <summary>{WORDS[of].stop}</summary>
      <p>
        Whoever has the address gets nothing by it any more. With a new link, you follow that one instead.
      </p>
      <Form action={`/s/${studio.slug}/desk/calendar`} csrf={formToken} label={WORDS[of].stopForm}>
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

function NoLink({ visit: { studio, formToken }, of }: { visit: StaffVisit; of: DeskFeed }) {
  return (
    <Form action={`/s/${studio.slug}/desk/calendar`} csrf={formToken} label={`Calendar link: ${of}`}>
      <input type="hidden" name="of" value={of} />
      <p>{WORDS[of].none}</p>
      <Button kind={of === 'owner' ? 'primary' : 'quiet'} name="do" value="make">
        {WORDS[of].make}
      </Button>
    </Form>
  );
}

function isLoopback(url: string): boolean {
  const { hostname } = new URL(url);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
