// The page of somebody's own calendar, and the card that leads there.
import { Card } from '../platform/html/kit/facts.js';
import { OwnCalendar } from '../platform/html/kit/own-calendar.js';
import { webcal } from '../platform/html/kit/calendar-link.js';
import { type Spoken, useWords } from '../platform/html/kit/spoken.js';
import { calendarDone } from '../people/own-calendar.schemas.js';
import { Page } from '../platform/html/shell.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';

interface OwnCalendarPageProps {
  studio: Studio;
  feedUrl: string;
  formToken: string;
  /** The person's own page; this one lies under it. */
  back: string;
  travel: boolean;
  homeKnown: boolean;
  /** What was just done, from the address: anything may stand there. */
  done: unknown;
  spoken: Spoken;
}

export function OwnCalendarPage({ studio, done, spoken, ...props }: OwnCalendarPageProps) {
  const { ownCalendar: words } = spoken.words;
  return (
    <Page
      title={words.title}
      {...studioFrame(studio)}
      spoken={spoken}
      notice={calendarDone(done, spoken.words)}
      unlisted
    >
      <p class="lead">{spoken.words.student.calendarLead(studio.name)}</p>
      <OwnCalendar {...props} action={`${props.back}/calendar`} />
    </Page>
  );
}

/** @param path the person's own page */
export function YourCalendar({ feedUrl, path }: { feedUrl: string; path: string }) {
  const { card } = useWords().ownCalendar;
  return (
    <Card title={card.title}>
      <p>
        <a href={webcal(feedUrl)}>{card.follow}</a>
        {card.or}
        <a href={`${path}/calendar`}>{card.other}</a>
        {card.more}
      </p>
    </Card>
  );
}
