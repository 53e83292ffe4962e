// Whether the sheet of a teaching day may be printed, and what is missing where it may not. Judged by what is on the
// bench and in the room, not by names of products. Pure; the rules are common practice, no source, and stricter local
// rules go before them.
import type { Kept } from '../chemistry/incompatible.calc.js';
import type { Briefing } from './briefing.schemas.js';
import type { Course, Where, Work } from './course.schemas.js';
import { hasAgreed, type SafetyWording } from './safety.calc.js';

/** With cyanide on the bench nobody in the room is younger. */
export const CYANIDE_AGE = 18;
/** Vapour is not gone when its bottle is closed. Assumption: within an hour nothing burns in the same room. */
export const APART_MINUTES = 60;

export const BLANKS = ['emergencyNumber', 'hospital', 'eyewash', 'teacher', 'secondAdult'] as const;
export type Blank = (typeof BLANKS)[number];

export type Missing =
  | { reason: 'blank'; what: Blank }
  | { reason: 'one name twice' }
  | { reason: 'age not said' }
  | { reason: 'under 18 with cyanide'; youngest: number }
  | { reason: 'under the least age'; youngest: number; leastAge: number }
  | { reason: 'not agreed'; names: string[] }
  /** Parts by their place in the day, from 0; the same one where both are in it. */
  | { reason: 'fire near vapour'; fire: Burning; vapour: Burning }
  /** Something burns, and nobody said when collodion and ether are open. */
  | { reason: 'vapour not said'; fire: Burning };

export interface Burning {
  part: number;
  work: Work;
}

export interface SheetFacts {
  /** Everything poured, with all it brings. */
  bench: readonly Kept[];
  briefing: Briefing;
  secondAdult: string;
  leastAge: number;
  parts: Course['parts'];
  /** Those who have a place. */
  students: readonly { name: string; safetyVersion: number | null }[];
  safety: Pick<SafetyWording, 'version'>;
}

export const hasCyanide = (bench: readonly Kept[]): boolean =>
  bench.some(({ has }) => has.includes('cyanide'));

/** Nothing where the sheet may be printed; else all that is missing, cyanide first. */
export function missingFor(facts: SheetFacts): Missing[] {
  const { briefing, leastAge, students, safety } = facts;
  const { youngest } = briefing;
  const names = students.filter((one) => !hasAgreed(one, safety)).map(({ name }) => name);
  return [
    ...(hasCyanide(facts.bench) ? missingForCyanide(facts) : []),
    ...(youngest !== null && youngest < leastAge
      ? [{ reason: 'under the least age' as const, youngest, leastAge }]
      : []),
    ...(names.length > 0 ? [{ reason: 'not agreed' as const, names }] : []),
    ...fires(facts),
  ];
}

function missingForCyanide({ briefing, secondAdult }: SheetFacts): Missing[] {
  const said: Record<Blank, string> = { ...briefing, secondAdult };
  const blanks = BLANKS.filter((what) => said[what].trim() === '').map((what) => ({
    reason: 'blank' as const,
    what,
  }));
  const name = (text: string) => text.trim().replace(/\s+/g, ' ').toLowerCase();
  const twice = name(said.teacher) !== '' && name(said.teacher) === name(said.secondAdult);
  const { youngest } = briefing;
  return [
    ...blanks,
    ...(twice ? [{ reason: 'one name twice' as const }] : []),
    ...(youngest === null ? [{ reason: 'age not said' as const }] : []),
    ...(youngest !== null && youngest < CYANIDE_AGE
      ? [{ reason: 'under 18 with cyanide' as const, youngest }]
      : []),
  ];
}

const FIRE: readonly Work[] = ['flame', 'heater'];
const VAPOUR: readonly Work[] = ['mixing', 'ether'];

/** Studio and table are one room, and a break is taken there: assumption, on the safe side. */
const roomOf = (where: Where): 'darkroom' | 'outside' | 'studio' =>
  where === 'darkroom' || where === 'outside' ? where : 'studio';

/** Whatever burns in a room within the hour of vapour in it; each fire once. */
function fires({ parts, bench }: Pick<SheetFacts, 'parts' | 'bench'>): Missing[] {
  let minute = 0;
  const timed = parts.map((part, at) => {
    const from = minute;
    minute += part.minutes;
    return { ...part, at, from, until: minute };
  });
  const doing = (works: readonly Work[]) =>
    timed.flatMap((part) =>
      part.work.flatMap((work) => (works.includes(work) ? [{ part: part.at, work, ...spanOf(part) }] : [])),
    );
  const vapours = doing(VAPOUR);
  return doing(FIRE).flatMap((fire): Missing[] => {
    const one = { part: fire.part, work: fire.work };
    if (vapours.length === 0)
      return bench.some(({ has }) => has.includes('makes peroxides') || has.includes('flammable vapour'))
        ? [{ reason: 'vapour not said', fire: one }]
        : [];
    const near = vapours.find(
      (vapour) =>
        vapour.room === fire.room &&
        vapour.from < fire.until + APART_MINUTES &&
        fire.from < vapour.until + APART_MINUTES,
    );
    return near
      ? [{ reason: 'fire near vapour', fire: one, vapour: { part: near.part, work: near.work } }]
      : [];
  });
}

const spanOf = ({ where, from, until }: { where: Where; from: number; until: number }) => ({
  room: roomOf(where),
  from,
  until,
});
