// The lines of the desk's front page: each names what it is about, says what follows from it in a line, and is one
// tap from its act. Of each kind the first few; the others stand on the page they belong to.
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { toSay } from '../reminders/telephone-words.calc.js';
import { Notice } from '../platform/html/kit/notices.js';
import { TOUCHED_WORDS } from '../room/words.calc.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { WaitingRequest } from './glance.calc.js';
import { type Group, isOfTeaching, type Line, type LineKind, type ToMove } from './inbox.calc.js';
import { CameFree } from './freed.pages.js';
import { Entry, WorkLine } from './inbox-work.pages.js';
import { AsksToBeErased } from './privacy/inbox.pages.js';
import { LightNote } from './places.pages.js';
import { AtAGlance } from './request-list.pages.js';
import { TeachingInboxLine, teachingLineKey } from './teaching/inbox.pages.js';
import { momentInWords, platesInWords, shortDay, suitsInShort } from './words.calc.js';

export const MOVE_WORDS: Record<ToMove['reason'], string> = {
  ...TOUCHED_WORDS,
  closed: 'the room is closed',
  'owner away': 'you are away',
  elsewhere: 'you are elsewhere then, by an outside calendar',
  clash: 'another place has the room at that hour',
};

/** Whose day cannot be held; who was only offered it is told apart. */
export const nameToMove = ({ sitting, contact }: SittingView): string =>
  sitting.state === 'offered' ? `${contact.name} (an offer is open)` : contact.name;

interface ShutProps {
  visit: StaffVisit;
  view: SittingView;
  reason: ToMove['reason'];
}

/** Before a yes to a day that was closed after it was offered. */
export function DayIsShut({ visit, view: { place }, reason }: ShutProps) {
  const day = place ? `?from=${place.wallStart.toPlainDate()}` : '';
  return (
    <Notice tone="warn">
      That day cannot be held: {MOVE_WORDS[reason]}. With a yes it is theirs all the same, and has to be
      moved. <a href={`/s/${visit.studio.slug}/desk/move${day}`}>Call the offer back instead.</a>
    </Notice>
  );
}

interface InboxProps {
  visit: StaffVisit;
  groups: Group[];
  /** What is decided today, or done this week. */
  part: 'today' | 'week';
  glances?: Map<string, WaitingRequest>;
  empty: string;
}

export function InboxGroups({ visit, groups, part, glances = new Map(), empty }: InboxProps) {
  if (groups.length === 0) return <p class="empty">{empty}</p>;
  return (
    <>
      {groups.map(({ kind, first, rest }) => (
        <section key={kind} aria-labelledby={`${part}-${kind}`}>
          <h3 id={`${part}-${kind}`}>
            {HEADS[kind][part]} ({first.length + rest.length})
          </h3>
          <Lines visit={visit} lines={first} glances={glances} />
          {kind === 'request' && glances.size > 0 && <LightNote />}
          {rest.length > 0 && <Rest visit={visit} kind={kind} rest={rest} glances={glances} />}
        </section>
      ))}
    </>
  );
}

const HEADS: Record<LineKind, Record<InboxProps['part'], string>> = {
  telephone: { today: 'To telephone now', week: 'To telephone or to post' },
  offer: { today: 'Offers about to run out', week: 'Offers' },
  freed: { today: 'Places that came free, and somebody waits', week: 'Places that came free' },
  request: { today: 'Waiting for your answer', week: 'Waiting for your answer' },
  'teaching-call': {
    today: 'About teaching: to telephone now',
    week: 'About teaching: to telephone or to post',
  },
  'teaching-asked': { today: 'They ask to learn one to one', week: 'They ask to learn one to one' },
  'teaching-offer': {
    today: 'Places to learn are free for who waits',
    week: 'Places for who waits to learn',
  },
  'teaching-due': { today: 'Is this class held? Decide today', week: 'Classes to decide on' },
  'teaching-move': { today: 'Teaching days to be moved', week: 'Teaching days to be moved' },
  wish: { today: 'They ask for a change', week: 'They ask for a change' },
  erase: { today: 'They ask to be erased', week: 'They ask to be erased' },
  move: { today: 'To be moved; nobody has been told', week: 'To be moved' },
  ending: { today: 'How did they end?', week: 'How did they end?' },
  owed: { today: 'A place is owed to them', week: 'A place is owed to them' },
  due: { today: 'The shelf, today', week: 'The shelf' },
  parked: { today: 'Mail that did not go', week: 'Mail that did not go' },
  unread: { today: 'Other calendars that cannot be read', week: 'Other calendars that cannot be read' },
  task: { today: 'To prepare today', week: 'To prepare' },
};

/** Where all of a kind stand; null where they are folded away here. */
const ALL: Record<LineKind, string | null> = {
  telephone: '/telephone',
  offer: '/waiting#offers',
  freed: '/waiting#freed',
  request: '/requests',
  wish: null,
  erase: null,
  move: '/move',
  'teaching-call': '/telephone',
  'teaching-asked': '/teaching#asked',
  'teaching-offer': '/teaching',
  'teaching-due': '/teaching',
  'teaching-move': '/move',
  ending: null,
  owed: '/waiting#list',
  due: '/prepare',
  parked: '/mail',
  unread: '/settings/outside',
  task: '/prepare',
};

function Rest(props: { visit: StaffVisit; kind: LineKind; rest: Line[]; glances: InboxProps['glances'] }) {
  const { visit, kind, rest, glances } = props;
  const all = ALL[kind];
  if (all !== null)
    return (
      <p class="alone">
        <a class="all" href={`${desk(visit)}${all}`}>
          {rest.length} more: {HEADS[kind].week.toLowerCase()}
        </a>
      </p>
    );
  return (
    <details>
      <summary>{rest.length} more</summary>
      <Lines visit={visit} lines={rest} glances={glances} />
    </details>
  );
}

function Lines({
  visit,
  lines,
  glances,
}: {
  visit: StaffVisit;
  lines: Line[];
  glances: InboxProps['glances'];
}) {
  return (
    <ul class="lines">
      {lines.map((line) => (
        <li key={keyOf(line)}>
          <OneLine visit={visit} line={line} glances={glances} />
        </li>
      ))}
    </ul>
  );
}

interface OneLineProps {
  visit: StaffVisit;
  line: Line;
  glances: InboxProps['glances'];
}

function OneLine({ visit, line, glances }: OneLineProps) {
  const [at, { zone }] = [desk(visit), visit.studio];
  if (isOfTeaching(line)) return <TeachingInboxLine visit={visit} line={line} reasons={MOVE_WORDS} />;
  if (line.kind === 'erase') return <AsksToBeErased visit={visit} one={line.one} />;
  if (line.kind === 'freed') return <CameFree at={at} one={line.one} />;
  switch (line.kind) {
    case 'telephone': {
      const { view, kind, about, way, openUntil } = line.one;
      const reach = way === 'letter' ? 'by post' : view.contact.telephone || 'no number is known';
      return (
        <Entry href={`${at}/telephone`} title={`${view.contact.name}, ${reach}`}>
          {toSay(kind, about)[0]}
          {openUntil && ` It runs out ${momentInWords(zone, openUntil)}.`}
        </Entry>
      );
    }
    case 'offer': {
      const { view, offer } = line.one;
      return (
        <Entry href={requestPath(visit, view)} title={view.contact.name}>
          {placeWords(view)}, until {momentInWords(zone, offer.expiresAt)}
        </Entry>
      );
    }
    case 'request': {
      const glance = glances?.get(line.one.sitting.id);
      const asked = shortDay(instantToWall(zone, line.one.sitting.askedAt));
      return (
        <Entry href={requestPath(visit, line.one)} title={line.one.contact.name}>
          {platesInWords(line.one)}; {suitsInShort(line.one.sitting.suits)}; asked on {asked}
          {glance && (
            <>
              <br />
              <AtAGlance {...glance} />
            </>
          )}
        </Entry>
      );
    }
    case 'wish': {
      const { view, wish } = line.one;
      return (
        <Entry href={`${requestPath(visit, view)}#wish`} title={view.contact.name}>
          “{inShort(wish.words)}”
        </Entry>
      );
    }
    case 'move': {
      const { view, reason } = line.one;
      const from = view.place ? `?from=${view.place.wallStart.toPlainDate()}` : '';
      return (
        <Entry href={`${at}/move${from}`} title={nameToMove(view)}>
          {placeWords(view)}: {MOVE_WORDS[reason]}
        </Entry>
      );
    }
    case 'ending': {
      const { sitting, contact, place } = line.one;
      const day = place?.wallStart.toPlainDate().toString() ?? '';
      return (
        <Entry href={`${at}/days/${day}#sitting-${sitting.id}`} title={contact.name}>
          {placeWords(line.one)}; what was set aside is neither used nor free
        </Entry>
      );
    }
    case 'owed': {
      const { sitting, contact } = line.one;
      return (
        <Entry href={requestPath(visit, line.one)} title={contact.name}>
          asked on {shortDay(instantToWall(zone, sitting.askedAt))}; {suitsInShort(sitting.suits)}
        </Entry>
      );
    }
    case 'due':
    case 'parked':
    case 'unread':
    case 'task':
      return <WorkLine at={at} zone={zone} line={line} />;
  }
}

function keyOf(line: Line): string {
  if (isOfTeaching(line)) return teachingLineKey(line);
  switch (line.kind) {
    case 'telephone':
      return line.one.mail.mail_id;
    case 'offer':
      return line.one.offer.id;
    case 'freed':
      return line.one.wallStart.toString();
    case 'wish':
    case 'move':
      return line.one.view.sitting.id;
    case 'erase':
      return line.one.contactId;
    case 'due':
      return `${line.one.key} ${line.one.by}`;
    case 'parked':
      return line.one.mail_id;
    case 'unread':
      return line.one.id;
    case 'task':
      return `${line.one.rule.id} ${line.one.ahead.date}`;
    case 'request':
    case 'ending':
    case 'owed':
      return line.one.sitting.id;
  }
}

const inShort = (words: string) => (words.length > 120 ? `${words.slice(0, 119)}…` : words);

function placeWords({ place }: SittingView): string {
  return place ? `${dayInWords(place.wallStart)}, ${timeInWords(place.wallStart)}` : 'no place';
}

const desk = ({ studio }: StaffVisit) => `/s/${studio.slug}/desk`;
const requestPath = (visit: StaffVisit, { sitting }: SittingView) => `${desk(visit)}/requests/${sitting.id}`;
