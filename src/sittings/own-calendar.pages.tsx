// The page of somebody's own calendar, and the card that leads there.
import { Card } from '../platform/html/kit/facts.js';
import { OwnCalendar } from '../platform/html/kit/own-calendar.js';
import { webcal } from '../platform/html/kit/calendar-link.js';
import type { Tone } from '../platform/html/kit/notices.js';
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
  notice: { tone: Tone; text: string } | undefined;
}

export function OwnCalendarPage({ studio, notice, ...props }: OwnCalendarPageProps) {
  return (
    <Page title="Your calendar" {...studioFrame(studio)} notice={notice} unlisted>
      <p class="lead">
        Your day at {studio.name} in the calendar you use anyway. It keeps in step by itself.
      </p>
      <OwnCalendar {...props} action={`${props.back}/calendar`} />
    </Page>
  );
}

/** @param path the person's own page */
export function YourCalendar({ feedUrl, path }: { feedUrl: string; path: string }) {
  return (
    <Card title="Your calendar link">
      <p>
        <a href={webcal(feedUrl)}>Put this on my phone</a>, or see{' '}
        <a href={`${path}/calendar`}>how to do it on other devices</a>: with a picture to scan, an address to
        copy, and your journey if you like. Please keep the address to yourself.
      </p>
    </Card>
  );
}
