// What every page shows of a journey, and the boxes in which people tell of their own.
import type { ComponentChildren } from 'preact';
import type { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { type Option, RadioGroup, SelectField } from '../platform/html/kit/choices.js';
import { type Fact, Facts } from '../platform/html/kit/facts.js';
import { NumberField, PlaceField, TextField } from '../platform/html/kit/form.js';
import { Table } from '../platform/html/kit/table.js';
import { type Journey, type Travel, USUAL_MARGIN_MINUTES } from './journey.calc.js';
import { MODES, type Way } from './modes.calc.js';
import type { Place } from './place.calc.js';
import { placeLabel } from './place-label.calc.js';
import {
  clocksInWords,
  crossingInWords,
  durationInWords,
  JOURNEY_RECKONING,
  kmInWords,
  leaveByInWords,
  MODE_LABELS,
  nightInWords,
} from './words.calc.js';

/** Where they start from; where several places are called so, which of them. */
export function HomeFields({ places, zoneOpen }: { places: Place[]; zoneOpen: boolean }) {
  return (
    <>
      {places.length === 0 ? (
        <PlaceField
          name="place"
          idName="placeId"
          label="Where do you travel from?"
          hint="A town or village; or coordinates, such as 54.49, -0.61."
          placesUrl="/api/v1/places"
        />
      ) : (
        <>
          <TextField
            name="place"
            label="Where do you travel from?"
            hint="Not among those below? Add the region or the country: Springfield, Illinois."
          />
          <RadioGroup
            name="placeId"
            label="Which of these is it?"
            options={places.map((place): Option => ({ value: String(place.id), label: placeLabel(place) }))}
          />
        </>
      )}
      <details open={zoneOpen}>
        <summary>Your clocks go by another time zone?</summary>
        <TextField
          name="zone"
          label="Time zone"
          hint="Taken from the town, unless you give a name such as Europe/London."
          width="medium"
          optional
        />
      </details>
    </>
  );
}

/** What they know better than any guess. */
export function PlanFields({ open }: { open: boolean }) {
  return (
    <details open={open}>
      <summary>You know your journey better?</summary>
      <SelectField
        name="mode"
        label="How do you travel?"
        options={MODES.map((mode) => ({ value: mode, label: MODE_LABELS[mode] }))}
        empty="Leave it to us"
        optional
      />
      <TextField
        name="hours"
        label="How many hours does it take?"
        hint="From your door to the studio’s, one way: 6.5 or 6:30."
        width="short"
        optional
      />
      <SelectField
        name="night"
        label="Do you stay the night before?"
        options={[
          { value: 'yes', label: 'Yes, near the studio' },
          { value: 'no', label: 'No, I come on the day' },
        ]}
        empty="Leave it to us"
        optional
      />
      <NumberField
        name="margin"
        label="How long before the start do you want to be there?"
        hint={`We reckon with ${USUAL_MARGIN_MINUTES}.`}
        unit="minutes"
        optional
      />
    </details>
  );
}

interface ToldProps {
  travel: Travel | Journey;
  home: { name: string; zone: string };
  /** The zone of the studio. */
  zone: string;
}

/** The journey in facts, and how it was reckoned. */
export function JourneyTold({ travel, home, zone }: ToldProps) {
  const journey = 'leaveBy' in travel ? travel : null;
  const items: Fact[] = [
    ...(journey ? [{ term: 'Leave home by', detail: <LeaveBy journey={journey} zone={home.zone} /> }] : []),
    { term: 'From', detail: home.name },
    {
      term: 'How',
      detail: `${MODE_LABELS[travel.mode]}${travel.own.mode ? ', as you say' : ''}: ${durationInWords(travel.minutes)} from door to door${travel.own.minutes ? ', as you say' : ''}`,
    },
    { term: 'Night', detail: nightInWords(travel) },
    ...(journey ? dayFacts(journey, home.zone, zone) : []),
    ...told('Water', crossingInWords(travel.crossing)),
    { term: 'Straight line', detail: `${kmInWords(travel.km)} over the earth` },
  ];
  return (
    <>
      <Facts items={items} />
      {travel.ways.length > 1 && <Ways ways={travel.ways} />}
      <details>
        <summary>How was this reckoned?</summary>
        <ul>
          {JOURNEY_RECKONING.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function LeaveBy({ journey, zone }: { journey: Journey; zone: string }) {
  return (
    <>
      <strong>{leaveByInWords(journey)}</strong>, by your clocks ({zone})
    </>
  );
}

function dayFacts(journey: Journey, homeZone: string, zone: string): Fact[] {
  const at = (moment: Temporal.Instant, where: string) => {
    const wall = instantToWall(where, moment);
    return `${dayInWords(wall)}, ${timeInWords(wall)}`;
  };
  const clocks = clocksInWords(journey);
  return [
    ...(journey.nightsOnTheWay > 0
      ? [
          {
            term: 'On the way',
            detail: `${journey.nightsOnTheWay} more nights: no day has over eight hours at the wheel`,
          },
        ]
      : []),
    ...(journey.night
      ? [{ term: 'Near the studio by', detail: `${at(journey.thereBy, zone)}, time there` }]
      : []),
    { term: 'At the studio by', detail: `${at(journey.atStudioBy, zone)}, time there` },
    {
      term: 'Home again by',
      detail: `${at(journey.homeBy, homeZone)}${journey.nightAfter ? ': a night’s stay after it is wise as well' : ''}`,
    },
    ...told('Clocks', clocks),
  ];
}

const told = (term: string, detail: ComponentChildren): Fact[] => (detail === null ? [] : [{ term, detail }]);

function Ways({ ways }: { ways: Way[] }) {
  return (
    <Table
      caption="From door to door, one way"
      columns={[{ head: 'By' }, { head: 'Time' }, { head: 'Length of the way' }]}
      rows={ways.map(({ mode, minutes, km }) => [
        MODE_LABELS[mode],
        durationInWords(minutes),
        km === null ? 'not known' : `${km.from} to ${km.to} km`,
      ])}
    />
  );
}
