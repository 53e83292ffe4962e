// From written notes to proposals: the sun's height is reckoned for each, those made alike are put together,
// and each group gets its own proposal. It proposes only; nothing moves by itself.
import type { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../lib/zoned-time.js';
import {
  type ExposureConditions,
  type ExposureNote,
  type Proposal,
  proposeReference,
} from './calibration.calc.js';
import type { StudioLight } from './exposure.calc.js';
import type { WrittenNote } from './notes.schemas.js';
import { type Place, sunAt } from './sun.calc.js';

export interface Group {
  /** Opening and magnification are those of the latest note of the group; others are reckoned over to them. */
  conditions: ExposureConditions;
  proposal: Proposal;
  /** Good plates, the latest first, each with the seconds it implies at the studio's reference altitude. */
  notes: { note: WrittenNote; altitude: number; implied: number }[];
  /** Plates under the same conditions that came out too thin or too dense, and are not counted. */
  under: number;
  over: number;
}

/**
 * The sun's height in degrees when a note was made; null where its wall time was skipped by the clocks. Of an
 * hour that came twice the earlier is taken: clocks change at night.
 */
export function altitudeOf(
  place: Place,
  note: { zone: string; wallAt: Temporal.PlainDateTime },
): number | null {
  const answer = wallToInstant(note.zone, note.wallAt, 'earlier');
  return answer.ok ? sunAt(place, answer.instant).altitude : null;
}

/** Notes (latest first) by lens, framing, bottle and sky; the largest group first, of equals the latest. */
export function groupsOf(studio: StudioLight & Place, notes: readonly WrittenNote[]): Group[] {
  const groups = new Map<string, WrittenNote[]>();
  for (const note of notes) {
    const key = JSON.stringify([note.lens, note.framing, note.bottle, note.weather]);
    groups.set(key, [...(groups.get(key) ?? []), note]);
  }
  return [...groups.values()]
    .map((alike) => groupOf(studio, alike))
    .sort((a, b) => b.notes.length - a.notes.length);
}

function groupOf(studio: StudioLight & Place, alike: WrittenNote[]): Group {
  const [latest] = alike;
  if (!latest) throw new Error('A group has a note.');
  const { lens, framing, bottle, weather, fNumber, magnification } = latest;
  const conditions = { lens, framing, bottle, weather, fNumber, magnification };
  const good = alike.flatMap((note) => {
    const altitude = note.verdict === 'good' ? altitudeOf(studio, note) : null;
    return altitude === null ? [] : [{ note, altitude, made: { ...note, altitude } }];
  });
  const implies = (note: ExposureNote) => {
    const alone = proposeReference(studio, conditions, [note], 1);
    return alone.ok ? alone.referenceSeconds : null;
  };
  return {
    conditions,
    proposal: proposeReference(
      studio,
      conditions,
      good.map(({ made }) => made),
    ),
    notes: good.flatMap(({ note, altitude, made }) => {
      const implied = implies(made);
      return implied === null ? [] : [{ note, altitude, implied }];
    }),
    under: alike.filter(({ verdict }) => verdict === 'under').length,
    over: alike.filter(({ verdict }) => verdict === 'over').length,
  };
}
