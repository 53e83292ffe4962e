// The studio's public page: who they are, and every open place up to the booking horizon.
import type { Temporal } from 'temporal-polyfill';
import { studioFrame } from '../studios/frame.calc.js';
import { skyCoefficientsConfirmed } from '../daylight/exposure.calc.js';
import { calculatorHref } from '../daylight/words.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import { DayList, type DayPlace, type ListedDay } from '../platform/html/kit/day-list.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { Words } from '../words/words-for.js';
import { openToPublic, type Slot } from '../room/openings.calc.js';
import type { DayOfPlaces } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { noPlaceInWords } from './no-place.calc.js';
import { holdStillInWords } from './words.calc.js';

interface StudioPageProps {
  studio: Studio;
  days: DayOfPlaces[];
  signedIn: boolean;
  spoken: Spoken;
}

export function StudioPage({ studio, days, signedIn, spoken }: StudioPageProps) {
  const { words } = spoken;
  const { ways } = words.frame;
  const home = `/s/${studio.slug}`;
  const listed = days.map((day) => toListed(day, studio, words)).filter((day) => day.places.length > 0);
  const open = listed.some((day) => day.places.some((place) => place.href !== undefined));
  const nav = [
    { href: home, label: ways.open, current: true },
    { href: `${home}/ask`, label: ways.ask },
    { href: `${home}/teaching`, label: ways.learn },
    signedIn ? { href: `${home}/desk`, label: ways.desk } : { href: `${home}/sign-in`, label: ways.signIn },
  ];
  return (
    <Page
      title={words.studio.title}
      heading={studio.name}
      {...studioFrame(studio)}
      studioName={studio.name}
      nav={nav}
      spoken={spoken}
    >
      {studio.welcome !== '' && <p class="lead">{studio.welcome}</p>}
      <p class="alone">
        <a class="button primary" href={`${home}/ask`}>
          {words.studio.ask}
        </a>
      </p>
      <p>{open ? words.studio.open : `${noPlaceInWords(days, words)} ${words.studio.stillAsk}`}</p>
      <DayList days={listed} />
      <p class="small">
        {words.studio.predicted}
        {skyCoefficientsConfirmed ? words.studio.confirmed : words.studio.notConfirmed} {words.studio.weather}{' '}
        <a href={calculatorHref(studio)}>{words.studio.lookAtLight}</a>
      </p>
      <p class="alone">
        <a href={`${home}/journey`}>{words.studio.journey}</a>
      </p>
    </Page>
  );
}

/** A day as the list shows it: open places as links, taken ones as marks; other closed starts are left out. */
function toListed(day: DayOfPlaces, studio: Studio, words: Words): ListedDay {
  const wall = (at: Temporal.Instant) => instantToWall(studio.zone, at);
  return {
    date: day.date,
    light: day.light && { from: wall(day.light.start), until: wall(day.light.end) },
    places: day.openings.flatMap((slot) => toPlace(slot, day, studio, words) ?? []),
  };
}

function toPlace(slot: Slot, day: DayOfPlaces, studio: Studio, words: Words): DayPlace | null {
  const times = { from: slot.wallStart, until: slot.wallEnd };
  if (slot.closed === 'room taken') return { ...times, state: 'taken' };
  if (!openToPublic(slot) || !slot.holdStill) return null;
  const href = `/s/${studio.slug}/ask?day=${day.date.toString()}`;
  return { ...times, state: 'open', href, hold: holdStillInWords(slot.holdStill, words) };
}
