// The owner's calendar links: of all, of tasks, for the assistant, of busy times, each as often as it is handed out.
import type { StaffVisit } from '../accounts/visits.service.js';
import { clientInWords } from '../calendar/clients.calc.js';
import { DESK_FEEDS, type DeskFeed } from '../calendar/feeds.calc.js';
import type { FeedLink } from '../calendar/feeds.service.js';
import { Button } from '../platform/html/kit/button.js';
import { CalendarLink, isLoopback } from '../platform/html/kit/calendar-link.js';
import { SelectField } from '../platform/html/kit/choices.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { PhoneSteps } from '../platform/html/kit/phone-steps.js';
import type { FieldProblem } from '../platform/problems.js';
import { FEED_WORDS } from './calendar-words.calc.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { momentInWords } from './words.calc.js';

interface CalendarPageProps {
  visit: StaffVisit;
  links: FeedLink[];
  /** Where anybody follows the open teaching days. */
  publicUrl: string;
  notice?: Notice | undefined;
  /** What was sent of a further link, with what is wrong. */
  sent?: { values: FormValues; errors: FieldProblem[] } | undefined;
}

export function CalendarPage({ visit, links, publicUrl, notice, sent }: CalendarPageProps) {
  const base = `/s/${visit.studio.slug}/desk/calendar`;
  return (
    <DeskPage visit={visit} title="Your calendar link" at="/calendar" notice={notice} errors={sent?.errors}>
      <p class="lead">
        The studio in the calendar you use anyway, and for others as much of it as they need.
      </p>
      <p class="alone">
        <a href={`${base}/phone`}>How to put a link on a phone or into another calendar</a>
      </p>
      {isLoopback(publicUrl) && (
        <p>This studio runs on this computer alone, so other devices cannot reach these addresses.</p>
      )}
      {DESK_FEEDS.map((kind) => (
        <KindOf key={kind} {...{ visit, kind }} links={links.filter((link) => link.kind === kind)} />
      ))}
      <h2>Teaching days, for everybody</h2>
      <p>The days that are open to all, with no name of anybody. It needs no secret and cannot be ended.</p>
      <CalendarLink
        url={publicUrl}
        name="teaching-days"
        label="Address of the teaching days"
        follow="Follow the teaching days"
        picture="The address of the teaching days as a picture to scan"
      />
      <Further {...{ visit, sent }} />
    </DeskPage>
  );
}

function KindOf({ visit, kind, links }: { visit: StaffVisit; kind: DeskFeed; links: FeedLink[] }) {
  const words = FEED_WORDS[kind];
  return (
    <>
      <h2>{words.title}</h2>
      <p>{words.about}</p>
      {links.map((link) => (
        <Link key={link.id} visit={visit} link={link} alone={links.length === 1 && link.name === ''} />
      ))}
      {links.length === 0 && (
        <Form
          action={`/s/${visit.studio.slug}/desk/calendar`}
          csrf={visit.formToken}
          label={`Calendar link: ${words.title}`}
        >
          <input type="hidden" name="of" value={kind} />
          <p>{words.none}</p>
          <Button kind={kind === 'owner' ? 'primary' : 'quiet'} name="do" value="make">
            {words.make}
          </Button>
        </Form>
      )}
    </>
  );
}

interface LinkProps {
  visit: StaffVisit;
  link: FeedLink;
  /** The only one of its kind, and without a name: its kind's title says what it is. */
  alone: boolean;
}

const nameOf = ({ name, kind }: FeedLink) => name || FEED_WORDS[kind].first;

function Link({ visit, link, alone }: LinkProps) {
  const { id, kind, url, fetchedAt, fetchedBy } = link;
  const words = FEED_WORDS[kind];
  return (
    <>
      {!alone && <h3>{nameOf(link)}</h3>}
      <CalendarLink
        url={url}
        name={`feed-${id}`}
        label={alone ? words.address : `${words.address}: ${nameOf(link)}`}
        follow={words.follow}
        picture={`${words.address} as a picture to scan`}
        primary={kind === 'owner'}
      />
      <p>
        {fetchedAt
          ? `A calendar last came for it on ${momentInWords(visit.studio.zone, fetchedAt)}: ${clientInWords(fetchedBy || 'other')}.`
          : 'No calendar has come for it yet.'}
      </p>
      <Leaked visit={visit} link={link} />
    </>
  );
}

/** For an address that fell into wrong hands, or is not wanted any more. */
function Leaked({ visit: { studio, formToken }, link }: Pick<LinkProps, 'visit' | 'link'>) {
  return (
    <details>
      <summary>Stop this link: {nameOf(link)}</summary>
      <p>
        Whoever has the address gets nothing by it any more. With a new link, you follow that one instead.
      </p>
      <Form
        action={`/s/${studio.slug}/desk/calendar`}
        csrf={formToken}
        label={`Stop the link: ${nameOf(link)}`}
      >
        <input type="hidden" name="link" value={link.id} />
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

/** A link for each device or person, so that one can be ended without the others. */
function Further({ visit, sent }: Pick<CalendarPageProps, 'visit' | 'sent'>) {
  return (
    <>
      <h2 id="further">A further link</h2>
      <p>One for each device or person, so that you see which is used, and can end one without the others.</p>
      <Form
        action={`/s/${visit.studio.slug}/desk/calendar`}
        csrf={visit.formToken}
        values={sent?.values}
        errors={sent?.errors}
        label="A further link"
      >
        <SelectField
          name="of"
          label="What it shows"
          options={DESK_FEEDS.map((kind) => ({ value: kind, label: FEED_WORDS[kind].title }))}
        />
        <TextField
          name="name"
          label="A name for it"
          hint="For you only, like “kitchen tablet”."
          width="medium"
        />
        <Button kind="quiet" name="do" value="add">
          Make this link
        </Button>
      </Form>
    </>
  );
}

/** "Put this on my phone", for the desk. */
export function CalendarPhonePage({ visit, local }: { visit: StaffVisit; local: boolean }) {
  return (
    <DeskPage visit={visit} title="A calendar link on a phone" at="/calendar">
      <p class="lead">Each link is an address. What to do with it depends on what it is to stand on.</p>
      <p>
        The button, the picture and the address stand on the page of{' '}
        <a href={`/s/${visit.studio.slug}/desk/calendar`}>your calendar links</a>.
      </p>
      <PhoneSteps local={local} letters={false} />
    </DeskPage>
  );
}
