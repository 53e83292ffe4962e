// The lines of the front page about the shelf, preparation, letters and outside calendars.
import type { ComponentChildren } from 'preact';
import { Tag } from '../platform/html/kit/notices.js';
import { FAILURE_WORDS } from '../outside/failure.calc.js';
import type { Line } from './inbox.calc.js';
import { LETTER_WORDS, momentInWords, shortDay } from './words.calc.js';

type Work = Extract<Line, { kind: 'due' | 'parked' | 'unread' | 'task' }>;

export function WorkLine({ at, zone, line }: { at: string; zone: string; line: Work }) {
  switch (line.kind) {
    case 'due': {
      const { what, by, why, alarm, path } = line.one;
      return (
        <Entry href={`${at}${path}`} title={what}>
          {alarm ? <Tag tone="warn">not ready</Tag> : `by ${shortDay(by)}`}. {why}
        </Entry>
      );
    }
    case 'parked': {
      const { mail_id, kind, recipient, last_error } = line.one;
      return (
        <Entry href={`${at}/mail/${mail_id}`} title={LETTER_WORDS[kind]}>
          to {recipient}: {last_error || 'refused'}
        </Entry>
      );
    }
    case 'unread': {
      const { id, name, failure, readAt } = line.one;
      return (
        <Entry href={`${at}/settings/outside/${id}`} title={name}>
          {failure !== '' && FAILURE_WORDS[failure]} Until it can be read again, it stands as it was on{' '}
          {momentInWords(zone, readAt)}.
        </Entry>
      );
    }
    case 'task': {
      const { rule, day, ahead, free } = line.one;
      return (
        <Entry href={`${at}/prepare`} title={rule.what}>
          {shortDay(day)}, for {shortDay(ahead.date)}
          {!free && '; no free day was found for it'}
        </Entry>
      );
    }
  }
}

export function Entry({
  href,
  title,
  children,
}: {
  href: string;
  title: string;
  children: ComponentChildren;
}) {
  return (
    <>
      <a href={href}>{title}</a>
      <p class="small">{children}</p>
    </>
  );
}
