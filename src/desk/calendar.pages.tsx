// The owner's calendar link, and how to use it in plain words.
import type { StaffVisit } from '../accounts/visits.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CopyField } from '../platform/html/kit/copy-field.js';
import { Form } from '../platform/html/kit/form.js';
import { DeskPage, type Notice } from './frame.pages.js';

interface CalendarPageProps {
  visit: StaffVisit;
  /** The whole address of the calendar; null before there is one. */
  url: string | null;
  notice?: Notice | undefined;
}

export function CalendarPage({ visit, url, notice }: CalendarPageProps) {
  return (
    <DeskPage visit={visit} title="Your calendar link" at="/calendar" notice={notice}>
      <p class="lead">All sittings and closed days of the studio, in the calendar you use anyway.</p>
      {url === null ? <NoLink visit={visit} /> : <Link url={url} />}
    </DeskPage>
  );
}

function Link({ url }: { url: string }) {
  return (
    <>
      <p>
        On a phone or tablet:{' '}
        <a class="button primary" href={url.replace(/^https?:/, 'webcal:')}>
          Follow this calendar
        </a>
      </p>
      <p>
        Elsewhere, look in your calendar for a way to add or subscribe to a calendar by its address, and give
        it this one:
      </p>
      <CopyField name="calendar" label="Address of your calendar" value={url} />
      {isLoopback(url) && (
        <p>This studio runs on this computer alone, so other devices cannot reach that address.</p>
      )}
      <h2>Good to know</h2>
      <ul>
        <li>
          It keeps in step by itself. How often is for your calendar to say: some look every few hours, some
          once a day.
        </li>
        <li>
          It is for reading. What you change in your calendar stays there; places are given at this desk.
        </li>
        <li>
          It holds names and what people told you. Whoever has the address can read it, so please keep it to
          yourself.
        </li>
      </ul>
    </>
  );
}

function NoLink({ visit: { studio, formToken } }: { visit: StaffVisit }) {
  return (
    <Form action={`/s/${studio.slug}/desk/calendar`} csrf={formToken}>
      <p>You have no calendar link yet.</p>
      <Button>Make my calendar link</Button>
    </Form>
  );
}

function isLoopback(url: string): boolean {
  const { hostname } = new URL(url);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
