// Whom to telephone or to write to this week: the number, what to say in two lines, a tick; and the letters on paper.
import type { StaffVisit } from '../accounts/visits.service.js';
import { counted } from '../lib/words.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import type { ToTell, Why } from '../reminders/telephone.calc.js';
import type { PrintedLetter, ToldTo } from '../reminders/telephone.service.js';
import { toSay, wasToSay } from '../reminders/telephone-words.calc.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { LETTER_WORDS, momentInWords } from './words.calc.js';

const WHY_WORDS: Record<Why, string> = {
  'no e-mail': '',
  'mail refused': 'Their mail was refused.',
  'too near': 'A letter went by mail, and may come too late.',
};

interface TelephoneProps {
  visit: StaffVisit;
  entries: ToTell[];
  told: ToldTo[];
  notice?: Notice | undefined;
}

export function TelephonePage({ visit, entries, told, notice }: TelephoneProps) {
  const calls = entries.filter((one) => one.way === 'telephone');
  const letters = entries.filter((one) => one.way === 'letter');
  const now = calls.filter((one) => one.now);
  const later = calls.filter((one) => !one.now);
  return (
    <DeskPage visit={visit} title="To telephone" at="" notice={notice}>
      <p class="lead">
        {entries.length === 0
          ? 'Everybody has been told what there is to tell.'
          : `What mail does not tell them: ${counted(calls.length, 'person', 'people')} to telephone, ${counted(letters.length, 'letter')} to post.`}
      </p>
      <Calls visit={visit} title="Now" entries={now} />
      <Calls visit={visit} title="This week" entries={later} />
      {letters.length > 0 && (
        <p class="alone no-print">
          <a href={telephonePath(visit, '/letters')}>
            {letters.length === 1 ? 'The letter, to print' : `All ${letters.length} letters, to print`}
          </a>
        </p>
      )}
      <Calls visit={visit} title="By post" entries={letters} />
      {told.length > 0 && (
        <details class="no-print">
          <summary>Told in the last seven days: {told.length}</summary>
          <h2 class="unseen">Told lately</h2>
          {told.map((one) => (
            <Told key={`${one.view.sitting.id} ${one.at}`} visit={visit} one={one} />
          ))}
        </details>
      )}
    </DeskPage>
  );
}

function Calls({ visit, title, entries }: { visit: StaffVisit; title: string; entries: ToTell[] }) {
  if (entries.length === 0) return null;
  return (
    <>
      <h2>{title}</h2>
      {entries.map((one) => (
        <Call key={one.view.sitting.id} visit={visit} entry={one} />
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
        {way === 'letter' ? contact.postalAddress.replace(/\s*\n\s*/g, ', ') : <ToRing view={view} />}
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

function ToRing({ view: { contact } }: { view: SittingView }) {
  if (contact.telephone === '') return <>No number is known; {contact.email || 'no address either'}.</>;
  return (
    <a class="number" href={`tel:${contact.telephone.replace(/[^\d+]/g, '')}`}>
      {contact.telephone}
    </a>
  );
}

function Told({ visit, one: { view, at, who, mails } }: { visit: StaffVisit; one: ToldTo }) {
  const { contact, sitting } = view;
  return (
    <article class="day">
      <h3>{contact.name}</h3>
      <p>
        {mails.map((mail) => LETTER_WORDS[mail.kind]).join('; ')}. Told by {who},{' '}
        {momentInWords(visit.studio.zone, at)}.
      </p>
      <Form
        action={telephonePath(visit, `/${sitting.id}/not-told`)}
        csrf={visit.formToken}
        label={`Take the tick of ${contact.name} back`}
      >
        <Letters mails={mails} />
        <Button kind="quiet">Not told after all</Button>
      </Form>
    </article>
  );
}

const Letters = ({ mails }: { mails: { mail_id: string }[] }) => (
  <input type="hidden" name="letters" value={mails.map((one) => one.mail_id).join(' ')} />
);

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
      {letters.map(({ entry: { view, mail }, letter }) => (
        <section class="posted card" key={mail.mail_id} aria-label={`To ${view.contact.name}`}>
          <p class="to">
            {addressOf(view).map((line) => (
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
              Your page: <span class="address">{letter.action.url}</span>
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
function addressOf({ contact: { name, postalAddress } }: SittingView): string[] {
  const lines = postalAddress.split('\n').map((line) => line.trim());
  return postalAddress.startsWith(name) ? lines : [name, ...lines];
}

export const telephonePath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/telephone${rest}`;
