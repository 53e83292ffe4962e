// Whom to telephone or to write to this week: the number, what to say in two lines, a tick; and the letters on paper.
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import type { Contact } from '../people/people.schemas.js';
import type { TeachingToTell } from '../reminders/teaching-calls.calc.js';
import type { ToTell } from '../reminders/telephone.calc.js';
import type { PrintedLetter, ToldTo } from '../reminders/telephone.service.js';
import { toSay, wasToSay } from '../reminders/telephone-words.calc.js';
import { TeachingCall } from './teaching/call.pages.js';
import { Letters, telephonePath, ToRing, WHY_WORDS } from './telephone-parts.pages.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { LETTER_WORDS, momentInWords } from './words.calc.js';

interface TelephoneProps {
  visit: StaffVisit;
  entries: ToTell[];
  /** About days of teaching. */
  teaching: TeachingToTell[];
  told: ToldTo[];
  notice?: Notice | undefined;
}

export function TelephonePage({ visit, entries, teaching, told, notice }: TelephoneProps) {
  const calls = [...entries, ...teaching].filter((one) => one.way === 'telephone').length;
  const letters = entries.length + teaching.length - calls;
  const some = (way: ToTell['way'], now: boolean | null) => {
    const these = (one: Pick<ToTell, 'way' | 'now'>) => one.way === way && (now === null || one.now === now);
    return { entries: entries.filter(these), teaching: teaching.filter(these) };
  };
  return (
    <DeskPage visit={visit} title="To telephone" at="" notice={notice}>
      <p class="lead">
        {calls + letters === 0
          ? 'Everybody has been told what there is to tell.'
          : `What mail does not tell them: ${counted(calls, 'person', 'people')} to telephone, ${counted(letters, 'letter')} to post.`}
      </p>
      <Calls visit={visit} title="Now" {...some('telephone', true)} />
      <Calls visit={visit} title="This week" {...some('telephone', false)} />
      {letters > 0 && (
        <p class="alone no-print">
          <a href={telephonePath(visit, '/letters')}>
            {letters === 1 ? 'The letter, to print' : `All ${letters} letters, to print`}
          </a>
        </p>
      )}
      <Calls visit={visit} title="By post" {...some('letter', null)} />
      {told.length > 0 && (
        <details class="no-print">
          <summary>Told in the last seven days: {told.length}</summary>
          <h2 class="unseen">Told lately</h2>
          {told.map((one) => (
            <Told key={`${one.aboutId} ${one.at}`} visit={visit} one={one} />
          ))}
        </details>
      )}
    </DeskPage>
  );
}

interface CallsProps extends Pick<TelephoneProps, 'visit' | 'entries' | 'teaching'> {
  title: string;
}

function Calls({ visit, title, entries, teaching }: CallsProps) {
  if (entries.length + teaching.length === 0) return null;
  return (
    <>
      <h2>{title}</h2>
      {entries.map((one) => (
        <Call key={one.view.sitting.id} visit={visit} entry={one} />
      ))}
      {teaching.map((one) => (
        <TeachingCall key={one.view.signUp.id} visit={visit} entry={one} />
      ))}
    </>
  );
}

function Call({ visit, entry }: { visit: StaffVisit; entry: ToTell }) {
  const { view, why, mail, kind, about, before, openUntil, way } = entry;
  const { contact, sitting } = view;
  const [first, second] = toSay(kind, about);
  return (
    <article class="day">
      <h3>
        <a href={`/s/${visit.studio.slug}/desk/requests/${sitting.id}`}>{contact.name}</a>
      </h3>
      <p>
        {way === 'letter' ? contact.postalAddress.replace(/\s*\n\s*/g, ', ') : <ToRing contact={contact} />}
        {openUntil && (
          <>
            {' '}
            <Tag tone={entry.now ? 'warn' : undefined}>
              {`runs out ${momentInWords(visit.studio.zone, openUntil)}`}
            </Tag>
          </>
        )}
      </p>
      <p>{first}</p>
      {second !== '' && <p>{second}</p>}
      {(why !== 'no e-mail' || before.length > 0) && (
        <p class="small">
          {WHY_WORDS[why]}
          {before.length > 0 && ` Not told before either: ${before.map(wasToSay).join(' ')}`}
        </p>
      )}
      <p class="print-only">Told on ................ by ................</p>
      <div class="actions">
        <Form
          action={telephonePath(visit, `/${sitting.id}/told`)}
          csrf={visit.formToken}
          label={`Tick ${contact.name}`}
        >
          <Letters mails={[...before, mail]} />
          <Button kind="quiet">{way === 'letter' ? 'Posted' : 'Told'}</Button>
        </Form>
        {kind === 'offered' && (
          <a class="no-print" href={`/s/${visit.studio.slug}/desk/requests/${sitting.id}`}>
            Note their answer
          </a>
        )}
      </div>
    </article>
  );
}

function Told({ visit, one }: { visit: StaffVisit; one: ToldTo }) {
  const { aboutId, contact, at, who, mails } = one;
  return (
    <article class="day">
      <h3>{contact.name}</h3>
      <p>
        {mails.map((mail) => LETTER_WORDS[mail.kind]).join('; ')}. Told by {who},{' '}
        {momentInWords(visit.studio.zone, at)}.
      </p>
      <Form
        action={telephonePath(visit, `/${aboutId}/not-told`)}
        csrf={visit.formToken}
        label={`Take the tick of ${contact.name} back`}
      >
        <Letters mails={mails} />
        <Button kind="quiet">Not told after all</Button>
      </Form>
    </article>
  );
}

/** One letter a sheet of paper. */
export function LettersPage({ visit, letters }: { visit: StaffVisit; letters: PrintedLetter[] }) {
  return (
    <DeskPage visit={visit} title="Letters to post" at="">
      <p class="no-print">
        {letters.length === 0
          ? 'No letter is to be posted.'
          : 'Each letter stands on a sheet of its own when you print this page. Once posted, tick it: '}
        <a href={telephonePath(visit)}>to telephone and to post</a>.
      </p>
      {letters.map(({ contact, mail, letter }) => (
        <section
          class="posted card"
          key={mail.mail_id}
          lang={letter.language}
          aria-label={`To ${contact.name}`}
        >
          <p class="to">
            {addressOf(contact).map((line) => (
              <span key={line}>
                {line}
                <br />
              </span>
            ))}
          </p>
          <p>
            <strong>{letter.subject}</strong>
          </p>
          <p>{letter.greeting}</p>
          {letter.paragraphs.map((words) => (
            <p key={words}>{words}</p>
          ))}
          <ul>
            {letter.facts.map(({ term, detail }) => (
              <li key={term}>
                {term}: {detail}
              </li>
            ))}
          </ul>
          {letter.action && (
            <p class="small">
              {letter.action.label}: <span class="address">{letter.action.url}</span>
            </p>
          )}
          <p>
            {letter.closing.split('\n').map((line) => (
              <span key={line}>
                {line}
                <br />
              </span>
            ))}
          </p>
        </section>
      ))}
    </DeskPage>
  );
}

/** The lines of an envelope; whoever wrote their name into the address has it there once. */
function addressOf({ name, postalAddress }: Contact): string[] {
  const lines = postalAddress.split('\n').map((line) => line.trim());
  return postalAddress.startsWith(name) ? lines : [name, ...lines];
}
