// The studio's public page: who they are, and every open place up to the booking horizon.
import type { Temporal } from 'temporal-polyfill';
import { studioFrame } from '../studios/frame.calc.js';
import { skyCoefficientsConfirmed } from '../daylight/exposure.calc.js';
import { calculatorHref } from '../daylight/words.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import { DayList, type DayPlace, type ListedDay } from '../platform/html/kit/day-list.js';
import { Page } from '../platform/html/shell.js';
import { openToPublic, type Slot } from '../room/openings.calc.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { noPlaceInWords } from './no-place.calc.js';
import { holdStillInWords } from './words.calc.js';

interface StudioPageProps {
  studio: Studio;
  days: DayOfPlaces[];
  signedIn: boolean;
}

export function StudioPage({ studio, days, signedIn }: StudioPageProps) {
  const home = `/s/${studio.slug}`;
  const listed = days.map((day) => toListed(day, studio)).filter((day) => day.places.length > 0);
  const open = listed.some((day) => day.places.some((place) => place.href !== undefined));
  const nav = [
    { href: home, label: 'Open places', current: true },
    { href: `${home}/ask`, label: 'Ask for a sitting' },
    { href: `${home}/teaching`, label: 'Learn' },
    signedIn ? { href: `${home}/desk`, label: 'Your desk' } : { href: `${home}/sign-in`, label: 'Sign in' },
  ];
  return (
    <Page
      title="Open places"
      heading={studio.name}
      {...studioFrame(studio)}
      studioName={studio.name}
      nav={nav}
    >
      {studio.welcome !== '' && <p class="lead">{studio.welcome}</p>}
      <p>
        <a class="button primary" href={`${home}/ask`}>
          Ask for a sitting
        </a>
      </p>
      <p>
        {open
          ? 'These places are open. Tap one to ask for its day, or ask for any day that suits: times are those at the studio.'
          : `${noPlaceInWords(days)} You can still ask: places are given back, and the studio keeps a list.`}
      </p>
      <DayList days={listed} />
      <p class="small">
        How long one holds still is a prediction from the height of the sun
        {skyCoefficientsConfirmed ? '.' : '; its figures for the sky are not confirmed.'} The weather decides
        on the day. <a href={calculatorHref(studio)}>Look at the light of a day</a>
      </p>
      <p>
        <a href={`${home}/journey`}>How long is the way here, and when to leave?</a>
      </p>
    </Page>
  );
}

/** A day as the list shows it: open places as links, taken ones as marks; other closed starts are left out. */
function toListed(day: DayOfPlaces, studio: Studio): ListedDay {
  const wall = (at: Temporal.Instant) => instantToWall(studio.zone, at);
  return {
    date: day.date,
    light: day.light && { from: wall(day.light.start), until: wall(day.light.end) },
    places: day.openings.flatMap((slot) => toPlace(slot, day, studio) ?? []),
  };
}

function toPlace(slot: Slot, day: DayOfPlaces, studio: Studio): DayPlace | null {
  const times = { from: slot.wallStart, until: slot.wallEnd };
  if (slot.closed === 'room taken') return { ...times, state: 'taken' };
  if (!openToPublic(slot) || !slot.holdStill) return null;
  const href = `/s/${studio.slug}/ask?day=${day.date.toString()}`;
  return { ...times, state: 'open', href, hold: holdStillInWords(slot.holdStill) };
}
