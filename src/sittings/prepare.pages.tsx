// The preparation sheet: how to dress, hold still and arrive, with the seconds of one's own place. Made to be printed.
import { skyCoefficientsConfirmed } from '../daylight/exposure.calc.js';
import { lightWindow } from '../daylight/window.calc.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { Page } from '../platform/html/shell.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { holdStillIn } from '../room/openings.calc.js';
import { studioFrame } from '../studios/frame.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Offer } from '../waiting/offers.schemas.js';
import type { Words } from '../words/words-for.js';
import type { SittingView } from './sittings.schemas.js';
import { wholeSeconds } from './words.calc.js';

interface PrepareProps {
  studio: Studio;
  view: SittingView;
  /** The offer that can be answered now. */
  offer: Offer | null;
  /** The studio's own words, '' where it has none. */
  houseRules: string;
  /** Address of the person's own page. */
  path: string;
  spoken: Spoken;
}

export function PreparePage({ studio, view, offer, houseRules, path, spoken }: PrepareProps) {
  const { words } = spoken;
  const sheet = words.prepareSheet;
  const { access, ...others } = sheet.parts;
  // An offer that has run out is over, though nobody has let it lapse yet.
  const place = view.sitting.state === 'offered' && !offer ? null : view.place;
  return (
    <Page title={sheet.title} {...studioFrame(studio)} spoken={spoken} unlisted>
      <p class="lead">{sheet.lead(studio.name)}</p>
      <p class="small no-print">{sheet.prints}</p>
      <section class="card together">
        <h2>{sheet.place.title}</h2>
        {place ? (
          <>
            <Facts items={factsOf(studio, place, view.plates.length, words)} />
            <p class="small">
              {words.studio.predicted}
              {skyCoefficientsConfirmed ? words.studio.confirmed : words.studio.notConfirmed}{' '}
              {words.studio.weather}
            </p>
          </>
        ) : (
          <p>{sheet.place.noPlace}</p>
        )}
      </section>
      <div class="in-columns">
        {Object.entries(others).map(([name, { title, says }]) => (
          <Part key={name} title={title} says={says} />
        ))}
        <Part title={access.title} says={access.says} />
        <p class="alone no-print">
          <a href={`${path}/details`}>{sheet.help}</a>
        </p>
        {houseRules !== '' && <Part title={sheet.rules} says={houseRules.split('\n')} />}
      </div>
      <p class="alone no-print">
        <a href={path}>{sheet.back}</a>
      </p>
    </Page>
  );
}

/** A heading and its sentences, on one sheet of paper. */
function Part({ title, says }: { title: string; says: Record<string, string> | string[] }) {
  return (
    <section class="together">
      <h2>{title}</h2>
      <ul>
        {Object.entries(says).map(([key, sentence]) => (
          <li key={key}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}

function factsOf(
  studio: Studio,
  place: Occupancy,
  plates: number,
  { prepareSheet: { place: says }, dates }: Words,
): Fact[] {
  const light = lightWindow(studio, place.wallStart.toPlainDate(), studio.lightFloorDegrees);
  const holdStill = holdStillIn(studio, light, place);
  const [from, until] = [dates.time(place.wallStart), dates.time(place.wallEnd)];
  return [
    { term: says.day, detail: dates.day(place.wallStart) },
    { term: says.time, detail: says.hours(from, until, plates) },
    { term: says.where, detail: studio.address },
    { term: says.still, detail: holdStill ? says.seconds(...wholeSeconds(holdStill)) : says.notKnown },
  ];
}
