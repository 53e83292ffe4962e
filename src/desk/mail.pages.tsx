// The owner's look at the mail: what went, what waits, what failed, and each letter as it reads.
import type { StaffVisit } from '../accounts/visits.service.js';
import { Button } from '../platform/html/kit/button.js';
import { Facts } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import { Tag } from '../platform/html/kit/notices.js';
import { Table } from '../platform/html/kit/table.js';
import { isAboutSitting, type Letter } from '../reminders/letters.schemas.js';
import type { OutboxService } from '../reminders/outbox.service.js';
import { triedOut } from '../reminders/tries.calc.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { LETTER_WORDS, momentInWords } from './words.calc.js';

export type Mail = Awaited<ReturnType<OutboxService['latest']>>[number];

export function MailPage({ visit, mails, most }: { visit: StaffVisit; mails: Mail[]; most: number }) {
  const { studio } = visit;
  const count = (...states: Mail['state'][]) => mails.filter((mail) => states.includes(mail.state)).length;
  return (
    <DeskPage visit={visit} title="Mail" at="/mail" wide>
      <p class="actions">
        <a href={`/s/${studio.slug}/desk/mail/reminders`}>Reminders, and when they go</a>
        <a href={`/s/${studio.slug}/desk/mail/words`}>The words of letters</a>
        <a href={`/s/${studio.slug}/desk/mail/day-letter`}>Your letter of the day</a>
      </p>
      {mails.length > 0 && (
        <p>
          {count('sent')} sent, {count('waiting', 'sending')} waiting, {count('parked', 'dropped')} not sent
          {count('held') > 0 && `, ${count('held')} held back`}
          {mails.length === most && `, of the newest ${most}`}.
        </p>
      )}
      <Table
        caption="Letters, the newest first"
        columns={['About', 'To', 'Written', 'State'].map((head) => ({ head }))}
        rows={mails.map((mail) => [
          <a key="about" href={`/s/${studio.slug}/desk/mail/${mail.mail_id}`}>
            {LETTER_WORDS[mail.kind]}
          </a>,
          <span key="to">
            {mail.recipient_name}
            <br />
            <span class="small">{mail.recipient}</span>
          </span>,
          momentInWords(studio.zone, mail.created_at),
          <State key="state" mail={mail} />,
        ])}
        empty="No letter has been written yet."
      />
    </DeskPage>
  );
}

interface LetterPageProps {
  visit: StaffVisit;
  mail: Mail;
  /** Null for a sign-in link that has run out. */
  letter: Letter | null;
  notice?: Notice | undefined;
}

export function LetterPage({ visit, mail, letter, notice }: LetterPageProps) {
  const { studio } = visit;
  const about = !isAboutSitting(mail.kind) ? null : `/s/${studio.slug}/desk/requests/${mail.about_id}`;
  return (
    <DeskPage visit={visit} title={letter?.subject ?? LETTER_WORDS[mail.kind]} at="/mail" notice={notice}>
      <Facts
        items={[
          { term: 'To', detail: `${mail.recipient_name} <${mail.recipient}>` },
          { term: 'Written', detail: momentInWords(studio.zone, mail.created_at) },
          { term: 'State', detail: <State mail={mail} /> },
          ...(mail.sent_at ? [{ term: 'Sent', detail: momentInWords(studio.zone, mail.sent_at) }] : []),
          { term: 'Tries', detail: mail.attempts },
          ...(mail.last_error === '' ? [] : [{ term: 'What was answered', detail: mail.last_error }]),
        ]}
      />
      {mail.state === 'parked' && about !== null && <SendAgain visit={visit} mail={mail} />}
      {about !== null && (
        <p class="alone">
          <a href={about}>The request it is about</a>
        </p>
      )}
      <h2>The letter</h2>
      {letter ? (
        <LetterText mail={mail} letter={letter} />
      ) : (
        <p class="empty">
          {mail.kind === 'sign-in' ? 'Its link has run out or was used.' : 'Its words are erased.'}
        </p>
      )}
    </DeskPage>
  );
}

function SendAgain({ visit: { studio, formToken }, mail }: { visit: StaffVisit; mail: Mail }) {
  return (
    <>
      <p>
        {triedOut(mail.attempts)
          ? 'The mail server could not take it in many hours of trying. If it takes letters now, send this one again.'
          : 'The mail server would not take it, and it is not tried any more. If that is mended, send it again.'}
      </p>
      <Form action={`/s/${studio.slug}/desk/mail/${mail.mail_id}/send-again`} csrf={formToken}>
        <Button>Send it again</Button>
      </Form>
    </>
  );
}

/** A sign-in link is a key to someone's account, so its address is not shown, not even to the owner. */
export function LetterText({ mail, letter }: { mail?: Mail; letter: Letter }) {
  const { greeting, paragraphs, facts, action, closing, language } = letter;
  return (
    <div class="card" lang={language}>
      {greeting !== '' && <p>{greeting}</p>}
      {paragraphs
        .flatMap((words) => words.split('\n'))
        .map((words, at) => (
          <p key={`paragraph ${at + 1}`}>{words}</p>
        ))}
      {facts.length > 0 && <Facts items={facts} />}
      {action && (
        <p class="alone">
          {mail?.kind === 'sign-in' ? (
            `${action.label} (the address is for ${mail.recipient_name} alone)`
          ) : (
            <a href={action.url}>{action.label}</a>
          )}
        </p>
      )}
      <p>
        {closing.split('\n').map((line) => (
          <span key={line}>
            {line}
            <br />
          </span>
        ))}
      </p>
    </div>
  );
}

function State({ mail: { state, attempts } }: { mail: Mail }) {
  if (state === 'sent') return <Tag tone="good">sent</Tag>;
  if (state === 'parked')
    return (
      <Tag tone="bad">
        {triedOut(attempts) ? `given up after ${attempts} tries` : 'refused by the mail server'}
      </Tag>
    );
  if (state === 'dropped') return <Tag tone="note">not sent, out of date</Tag>;
  if (state === 'held') return <Tag tone="note">held back, a surprise</Tag>;
  if (state === 'sending') return <Tag>being sent</Tag>;
  return attempts === 0 ? <Tag>waits to be sent</Tag> : <Tag tone="warn">did not go; it is tried again</Tag>;
}
