// When a teaching day does not fit: the smallest change that would make it fit, each one found by planning the changed
// day. It changes nothing itself, and knows nothing of what a tank or a student costs.
import { type Bench, plateOf, turnsOf } from './rota-bench.calc.js';
import { workOf } from './rota-board.calc.js';
import { boundsOf } from './rota-bounds.calc.js';
import { planRota, refusal, type Rota, rotaOf } from './rota.calc.js';

export type Change =
  | { what: 'more'; stations: string[] }
  | { what: 'smaller'; from: string; to: string }
  /** The last turns left out, by plates. */
  | { what: 'without plates'; plates: string[] }
  | { what: 'fewer each'; by: number }
  /** Those who were last in the list. */
  | { what: 'without students'; students: string[] };

export interface Remedy {
  change: Change;
  /** The day as it would then be; it fits. */
  rota: Rota;
}

/** Layings that each changed day may take. */
const LAYINGS = 3_000;
/** So many stations, plates or students more or fewer are looked at before it is given up. */
const MOST = 4;

/**
 * All changes of the least number of things that make the day fit: stations first (those that hold it up most before
 * the others), then smaller plates, fewer plates, fewer students. Empty where the day fits, or no change does it.
 */
export function smallestChanges(bench: Bench): Remedy[] {
  const now = planRota(bench);
  if (now.ok && now.rota.fits) return [];
  for (let size = 1; size <= MOST; size++) {
    const found = changesOf(bench, size).flatMap((change): Remedy[] => {
      const rota = fitting(changed(bench, change));
      return rota ? [{ change, rota }] : [];
    });
    if (found.length > 0) return found;
  }
  return [];
}

/** A rota that fits, if one is found. */
function fitting(bench: Bench): Rota | null {
  const turns = turnsOf(bench);
  if (turns.flat().length === 0 || refusal(bench, turns)) return null;
  const work = workOf(bench, turns);
  if ((boundsOf(work, bench.day.from)[0]?.end ?? 0) > bench.day.until) return null;
  const rota = rotaOf(work, { from: bench.day.from, kept: [], layings: LAYINGS, upTo: 'in time' });
  return rota.fits ? rota : null;
}

/** The changes of so many things, in the order in which they are told. */
function changesOf(bench: Bench, size: number): Change[] {
  const stations = byLoad(bench);
  const more = combinations(stations, size).map((some): Change => ({ what: 'more', stations: some }));
  const smaller = size === 1 ? smallerSizes(bench) : [];
  const plates = lastTurns(bench, size);
  const students = bench.students.slice(-size).map(({ id }) => id);
  const most = Math.max(0, ...bench.students.map((one) => one.plates.length));
  return [
    ...more,
    ...smaller,
    ...(plates.length === size ? [{ what: 'without plates', plates } as const] : []),
    ...(most > size ? [{ what: 'fewer each', by: size } as const] : []),
    ...(bench.students.length > size ? [{ what: 'without students', students } as const] : []),
  ];
}

/** Stations that plates are held at, those of the greatest bounds first; at most six, since they are combined. */
function byLoad(bench: Bench): string[] {
  const held = new Set(bench.holds.map(({ station }) => station));
  const turns = turnsOf(bench);
  const bounds = refusal(bench, turns) ? [] : boundsOf(workOf(bench, turns), bench.day.from);
  const ordered = new Set(bounds.flatMap(({ by }) => (by.what === 'stations' ? by.stations : [])));
  return [...ordered].filter((station) => held.has(station)).slice(0, 6);
}

/** All ways to choose so many, one more than once too, in the order of the list. */
function combinations(all: string[], size: number): string[][] {
  if (size === 0) return [[]];
  return all.flatMap((one, at) => combinations(all.slice(at), size - 1).map((rest) => [one, ...rest]));
}

/** Each size in use as the next smaller one. */
function smallerSizes(bench: Bench): Change[] {
  const used = new Set(bench.students.flatMap(({ plates }) => plates));
  const sizes = [...bench.sizes].sort((a, b) => b.area - a.area);
  return sizes.flatMap(({ id }, at): Change[] => {
    const next = sizes[at + 1];
    return used.has(id) && next ? [{ what: 'smaller', from: id, to: next.id }] : [];
  });
}

function lastTurns(bench: Bench, count: number): string[] {
  const turns = turnsOf(bench)
    .flat()
    .map((turn, at) => ({ ...turn, at }))
    .sort((a, b) => b.round - a.round || b.at - a.at);
  return turns.slice(0, count).map(({ plate }) => plate);
}

/** The bench after a change. Whoever is left out leaves their team; one who is then alone stays alone. */
export function changed(bench: Bench, change: Change): Bench {
  const { students } = bench;
  if (change.what === 'more') return { ...bench, stations: moreStations(bench, change.stations) };
  if (change.what === 'without students') {
    const left = students.filter(({ id }) => !change.students.includes(id));
    const teams = bench.teams.map((team) => team.filter((id) => !change.students.includes(id)));
    return { ...bench, students: left, teams: teams.filter((team) => team.length > 0) };
  }
  const plates = (student: string, own: string[]): string[] => {
    if (change.what === 'fewer each') return own.slice(0, Math.max(0, own.length - change.by));
    if (change.what === 'smaller') return own.map((size) => (size === change.from ? change.to : size));
    return own.filter((_, at) => !change.plates.includes(plateOf(student, at + 1)));
  };
  return { ...bench, students: students.map((one) => ({ ...one, plates: plates(one.id, one.plates) })) };
}

/** A further unit is like the largest of its station. */
function moreStations({ stations }: Bench, more: string[]): Bench['stations'] {
  return stations.map((station) => {
    const count = more.filter((id) => id === station.id).length;
    const largest = station.units.some((unit) => unit.largest === null)
      ? null
      : Math.max(0, ...station.units.map((unit) => unit.largest ?? 0));
    const added = Array.from({ length: count }, (_, at) => ({
      id: `${station.id} ${station.units.length + at + 1}`,
      largest,
    }));
    return { ...station, units: [...station.units, ...added] };
  });
}
