// One day for the owner: the sun's way, good light, the places with who sits, and seconds in each weather.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import type { DayOfLight } from '../daylight/day.calc.js';
import {
  exposureHeads,
  exposureRows,
  highestSun,
  lightOnTheWall,
  sunPath,
} from '../daylight/drawing.calc.js';
import { degreesInWords, predictionNote, RECKONING } from '../daylight/words.calc.js';
import { dayInWords, monthInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Facts } from '../platform/html/kit/facts.js';
import { LightLegend } from '../platform/html/kit/light-bar.js';
import { SunCurve } from '../platform/html/kit/sun-curve.js';
import { Table } from '../platform/html/kit/table.js';
import { CLOSED_WORDS } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { DeskPage } from './frame.pages.js';
import { HELD_WORDS, inReach, lightInHours } from './light.pages.js';
import type { LitDay, LitPlace } from './light.service.js';
import { holdStillInShort, platesInWords, shortDay } from './words.calc.js';

interface LightDayPageProps {
  visit: StaffVisit;
  studio: Studio;
  lit: LitDay;
  day: DayOfLight;
}

export function LightDayPage({ visit, studio, lit, day }: LightDayPageProps) {
  const { date } = lit;
  const { zone } = studio;
  const home = `/s/${studio.slug}/desk`;
  const others = [date.subtract({ days: 1 }), date.add({ days: 1 })].filter(inReach);
  return (
    <DeskPage visit={visit} title={dayInWords(date)} at="/light">
      <nav class="actions" aria-label="Other days">
        {others.map((one) => (
          <a key={one.toString()} href={`${home}/light/${one.toString()}`}>
            {shortDay(one)}
          </a>
        ))}
        <a href={`${home}/light/${date.toPlainYearMonth().toString()}`}>{monthInWords(date)}</a>
      </nav>
      <LightLegend states={['open', 'held', 'taken']} held={HELD_WORDS} />
      <SunCurve
        points={sunPath(zone, day)}
        floor={studio.lightFloorDegrees}
        light={lightOnTheWall(zone, day.window)}
        places={lit.places}
        noon={highestSun(zone, day)}
      />
      <SunFacts zone={zone} lit={lit} day={day} />
      <h2>Places</h2>
      {lit.closed && <p>The room is closed.</p>}
      <Table
        caption="Who sits when"
        columns={[{ head: 'Time' }, { head: 'Place' }]}
        rows={lit.places.map((place) => [
          `${timeInWords(place.from)} to ${timeInWords(place.until)}`,
          whoSits(place, home),
        ])}
        empty="No place that day."
      />
      {lit.closedSlots.length > 0 && (
        <p class="small">
          Not open:{' '}
          {lit.closedSlots
            .map(
              ({ wallStart, closed }) => `${timeInWords(wallStart)}, ${closed ? CLOSED_WORDS[closed] : ''}`,
            )
            .join('; ')}
          .
        </p>
      )}
      <Table
        caption="Seconds of exposure"
        columns={exposureHeads()}
        rows={exposureRows(zone, day)}
        empty="The sun does not rise that day."
        steady
      />
      <p class="small">
        {predictionNote()} The studio’s reference is {studio.referenceSeconds} seconds under a clear sky with
        the sun {studio.referenceAltitudeDegrees} degrees high.{' '}
        <a href={`${home}/light/notes`}>Exposure notes</a>
      </p>
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </DeskPage>
  );
}

function SunFacts({ zone, lit, day: { times } }: { zone: string; lit: LitDay; day: DayOfLight }) {
  const clock = (at: Temporal.Instant | null) =>
    at ? timeInWords(instantToWall(zone, at.round('minute'))) : 'none';
  const highest = `${clock(times.solarNoon)}, at ${degreesInWords(times.noonAltitude)}`;
  return (
    <Facts
      items={[
        { term: 'Good light', detail: lightInHours(lit, zone) },
        { term: 'Sunrise', detail: clock(times.sunrise) },
        { term: 'Highest', detail: highest },
        { term: 'Sunset', detail: clock(times.sunset) },
      ]}
    />
  );
}

function whoSits({ state, slot, view, title }: LitPlace, home: string) {
  if (view) {
    const names = view.sitters.map((one) => one.name).join(', ');
    return (
      <span>
        <a href={`${home}/requests/${view.sitting.id}`}>{names}</a>, {platesInWords(view)}
        {state === 'held' ? ', offered' : ''}
      </span>
    );
  }
  if (!slot) return title || 'taken';
  const hold = slot.holdStill ? `: ${holdStillInShort(slot.holdStill)}` : '';
  return `${state === 'held' ? 'Kept back from the public' : 'Open'}${hold}`;
}
