// The lines of the desk's front page about teaching: who is to be told, to be answered, to be offered places, and days
// that cannot be as they stand.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { teachingToSay } from '../../reminders/teaching-call-words.calc.js';
import { whenInWords } from '../../teaching/words.calc.js';
import type { TeachingLine } from '../inbox.calc.js';
import { momentInWords, shortDay } from '../words.calc.js';

interface LineProps {
  visit: StaffVisit;
  line: TeachingLine;
  /** Why a day cannot be as it stands. */
  reasons: Record<Extract<TeachingLine, { kind: 'teaching-move' }>['one']['reason'], string>;
}

export function TeachingInboxLine({ visit, line, reasons }: LineProps) {
  const { slug, zone } = visit.studio;
  const desk = `/s/${slug}/desk`;
  switch (line.kind) {
    case 'teaching-call': {
      const { view, about, way, openUntil } = line.one;
      const reach = way === 'letter' ? 'by post' : view.contact.telephone || 'no number is known';
      return (
        <Entry href={`${desk}/telephone`} title={`${view.contact.name}, ${reach}`}>
          {teachingToSay(about)[0]}
          {openUntil && ` It runs out ${momentInWords(zone, openUntil)}.`}
        </Entry>
      );
    }
    case 'teaching-asked': {
      const { signUp, contact, course, students } = line.one;
      return (
        <Entry href={`${desk}/teaching#asked`} title={contact.name}>
          {course.name}, {counted(students.length, 'person', 'people')}
          {signUp.wantedOn && `; ${dayInWords(signUp.wantedOn)}`}; asked on{' '}
          {shortDay(instantToWall(zone, signUp.askedAt))}
        </Entry>
      );
    }
    case 'teaching-offer': {
      const { signUp, contact, course, day, students, byRule, mode } = line.one;
      const path = `${desk}/teaching/${day?.session.id ?? ''}#sign-up-${signUp.id}`;
      return (
        <Entry href={path} title={contact.name}>
          {course.name}, {day ? whenInWords(day.place) : ''}; waits for {counted(students.length, 'place')},
          and there {students.length === 1 ? 'is one' : 'are enough'}.
          {byRule && ' Your rule offers it by itself; there is nothing to do.'}
          {!byRule && mode === 'automatic' && ' Your rule has offered it to nobody; offer it yourself.'}
        </Entry>
      );
    }
    case 'teaching-due': {
      const { session, place, enough } = line.one;
      return (
        <Entry href={`${desk}/teaching/${session.id}`} title={session.course.name}>
          {whenInWords(place)}: {counted(session.taken, 'place')} taken of at least {session.least}
          {enough ? '' : ', too few'}; go ahead, or call off, by {dayInWords(session.decideOn)}
        </Entry>
      );
    }
    case 'teaching-move': {
      const { day, reason } = line.one;
      return (
        <Entry
          href={`${desk}/move?from=${day.place.wallStart.toPlainDate()}`}
          title={day.session.course.name}
        >
          {whenInWords(day.place)}: {reasons[reason]}; {counted(day.session.taken, 'place')} taken
        </Entry>
      );
    }
  }
}

export const teachingLineKey = (line: TeachingLine): string => {
  switch (line.kind) {
    case 'teaching-call':
      return line.one.mail.mail_id;
    case 'teaching-due':
      return line.one.session.id;
    case 'teaching-move':
      return line.one.day.session.id;
    case 'teaching-asked':
    case 'teaching-offer':
      return line.one.signUp.id;
  }
};

function Entry({ href, title, children }: { href: string; title: string; children: ComponentChildren }) {
  return (
    <>
      <a href={href}>{title}</a>
      <p class="small">{children}</p>
    </>
  );
}
