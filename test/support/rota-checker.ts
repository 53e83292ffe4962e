// Says what is wrong with a bench rota, from the bench and the rota alone. Follows every plate through its day with all
// steps at their shortest, at their longest, and mixed, by its own arithmetic; shares no code with the planner.
import type { Bench, Step, Stretch, Turn } from '../../src/teaching/rota-bench.calc.js';
import type { PlacedPlate, Rota } from '../../src/teaching/rota.calc.js';

interface Taken extends Stretch {
  key: string;
  plate: string;
}

/** Every breach as a sentence beginning with the rule's name; none for a rota that holds. */
export function breachesOf(
  bench: Bench,
  rota: Rota,
  turns: Turn[][],
  kept: readonly string[] = [],
): string[] {
  const said = new Set<string>();
  const taken: Taken[] = [];
  const missing = new Set(rota.unplaced);
  const wanted = turns.flat();
  for (const turn of wanted) {
    const own = rota.plates.filter(({ plate }) => plate === turn.plate);
    if (own.length + (missing.has(turn.plate) ? 1 : 0) !== 1) said.add(`plates: ${turn.plate} not once`);
    for (const one of own)
      if (one.student !== turn.student || one.sitter !== turn.sitter || one.size !== turn.size)
        said.add(`roles: ${turn.plate} is not as its turn says`);
  }
  const known = new Set(wanted.map(({ plate }) => plate));
  for (const { plate } of rota.plates) if (!known.has(plate)) said.add(`plates: ${plate} is nobody’s`);
  for (const plate of rota.plates) {
    for (const one of plateBreaches(bench, plate)) said.add(one);
    taken.push(...takenBy(bench, plate));
  }
  for (const one of overlaps(taken)) said.add(one);
  for (const one of turnBreaches(bench, rota, turns, kept)) said.add(one);
  for (const one of endBreaches(bench, rota)) said.add(one);
  for (const one of varnishBreaches(bench, rota, taken)) said.add(one);
  return [...said];
}

type Pace = (step: Step) => 'low' | 'high';

/** Starts and ends of all steps when each takes its shortest or longest as told, following the rota's own starts. */
function follow(bench: Bench, plate: PlacedPlate, pace: Pace): Map<string, Stretch> {
  const times = new Map<string, Stretch>();
  const size = bench.sizes.find(({ id }) => id === plate.size);
  const runs = [...plate.runs];
  let now = Number.NEGATIVE_INFINITY;
  let planned = new Map<string, number>();
  bench.steps.forEach((step, at) => {
    if (at === 0 || step.follows === 'waits') {
      const run = runs.shift();
      planned = new Map(run?.steps.map((one) => [one.step, one.latestStart]) ?? []);
      now = run?.start ?? Number.NaN;
    } else if (step.follows === 'on time') now = Math.max(now, planned.get(step.id) ?? Number.NaN);
    const took = (size?.seconds[step.id] ?? step.seconds)[pace(step)];
    times.set(step.id, { from: now, until: now + took });
    now += took;
  });
  return times;
}

function plateBreaches(bench: Bench, plate: PlacedPlate): string[] {
  const said: string[] = [];
  const say = (rule: string, what: string) => said.push(`${rule}: ${plate.plate} ${what}`);
  const fast = follow(bench, plate, () => 'low');
  const slow = follow(bench, plate, () => 'high');
  let before: Step | null = null;
  for (const step of bench.steps) {
    const [early, late] = [fast.get(step.id), slow.get(step.id)];
    const told = plate.runs.flatMap(({ steps }) => steps).find((one) => one.step === step.id);
    if (!early || !late || !told || Number.isNaN(early.from + late.until)) {
      say('steps', `lacks ${step.id}`);
      break;
    }
    if (told.from !== early.from || told.until !== late.until) say('spans', `tells ${step.id} wrongly`);
    if (early.from < bench.day.from) say('day', `begins ${step.id} before the day`);
    const [ended, soonest] = [slow.get(before?.id ?? ''), fast.get(before?.id ?? '')];
    if (ended && late.from < ended.until) say('order', `begins ${step.id} before ${before?.id} ends`);
    if (soonest && step.follows === 'waits' && step.within !== null)
      if (late.from > soonest.until + step.within) say('wait', `waits too long for ${step.id}`);
    if (soonest && step.follows === 'at once' && early.from !== soonest.until)
      say('wait', `waits before ${step.id}`);
    if (step.lit && !(bench.light && early.from >= bench.light.from && late.until <= bench.light.until))
      say('light', `is exposed without light`);
    const hands = step.busy !== 'nobody';
    for (const pause of bench.breaks)
      if (hands && late.until > early.from && early.from < pause.until && late.until > pause.from)
        say('break', `has ${step.id} in a break`);
    before = step;
  }
  for (const clock of bench.clocks) {
    const [first, last] = [clock.from, clock.until].map(({ step }) =>
      bench.steps.findIndex(({ id }) => id === step),
    ) as [number, number];
    // the worst: whatever was before took its shortest, whatever is on the clock its longest; or all their longest
    for (const onward of [first, first + 1, 0]) {
      const times = follow(bench, plate, (step) => (bench.steps.indexOf(step) >= onward ? 'high' : 'low'));
      const at = ({ step, edge }: { step: string; edge: 'start' | 'end' }) =>
        times.get(step)?.[edge === 'start' ? 'from' : 'until'] ?? Number.NaN;
      if (last < first || !(at(clock.until) - at(clock.from) <= clock.most))
        say('clock', `passes ${clock.id}`);
    }
  }
  return said;
}

/** What a plate takes for as long as it may, by the bench's holds and by the units that the rota tells. */
function takenBy(bench: Bench, plate: PlacedPlate): Taken[] {
  const fast = follow(bench, plate, () => 'low');
  const slow = follow(bench, plate, () => 'high');
  const span = (from: string, until: string): Stretch => ({
    from: fast.get(from)?.from ?? Number.NaN,
    until: slow.get(until)?.until ?? Number.NaN,
  });
  const all: Taken[] = [];
  const add = (key: string, stretch: Stretch) => {
    if (stretch.until > stretch.from) all.push({ key, plate: plate.plate, ...stretch });
  };
  for (const { id, busy } of bench.steps) {
    const alone = plate.sitter === null && busy === 'sitter';
    if (busy === 'maker' || busy === 'both' || alone) add(`@${plate.student}`, span(id, id));
    if (plate.sitter !== null && (busy === 'sitter' || busy === 'both'))
      add(`@${plate.sitter}`, span(id, id));
  }
  for (const { station, from, until } of bench.holds) {
    const held = span(from, until);
    if (!(held.until > held.from)) continue;
    const use = plate.runs
      .flatMap(({ uses }) => uses)
      .find((one) => one.station === station && one.from <= held.from && one.until >= held.until);
    add(`${station}/${use?.unit ?? 'nowhere'}`, held);
  }
  return all;
}

function overlaps(taken: Taken[]): string[] {
  const said: string[] = [];
  const byKey = new Map<string, Taken[]>();
  for (const one of taken) byKey.set(one.key, [...(byKey.get(one.key) ?? []), one]);
  for (const [key, own] of byKey) {
    const sorted = own.sort((a, b) => a.from - b.from);
    sorted.forEach((one, at) => {
      for (const other of sorted.slice(at + 1))
        if (other.from < one.until && other.plate !== one.plate)
          said.push(`overlap: ${key} has ${one.plate} and ${other.plate}`);
    });
    if (key.endsWith('/nowhere')) said.push(`stations: ${own[0]?.plate} has no ${key}`);
  }
  return said;
}

function turnBreaches(bench: Bench, rota: Rota, turns: Turn[][], kept: readonly string[]): string[] {
  const said: string[] = [];
  for (const team of turns) {
    let last = Number.NEGATIVE_INFINITY;
    for (const { plate } of team) {
      const placed = rota.plates.find((one) => one.plate === plate);
      if (!placed) continue;
      const begins = placed.runs.find(({ steps }) =>
        steps.some(({ step }) => step === bench.turnStep),
      )?.start;
      if (begins === undefined || begins < last) said.push(`turns: ${plate} is out of turn`);
      last = Math.max(last, begins ?? last);
    }
  }
  for (const { id, from } of bench.students)
    for (const plate of rota.plates)
      for (const { uses } of plate.runs)
        if (from !== null && uses.some((use) => use.station === null && use.unit === id && use.from < from))
          if (!kept.includes(plate.plate)) said.push(`late: ${id} is not there for ${plate.plate}`);
  const units = new Map(
    bench.stations.flatMap(({ id, units: all }) => all.map((unit) => [`${id}/${unit.id}`, unit.largest])),
  );
  for (const plate of rota.plates)
    for (const { station, unit } of plate.runs.flatMap(({ uses }) => uses)) {
      if (station === null) continue;
      const largest = units.get(`${station}/${unit}`);
      const area = bench.sizes.find(({ id }) => id === plate.size)?.area ?? Number.NaN;
      if (largest === undefined && !kept.includes(plate.plate)) said.push(`stations: no ${station} ${unit}`);
      if (largest !== null && largest !== undefined && largest < area)
        said.push(`size: ${plate.plate} is too large for ${unit}`);
    }
  return said;
}

function endBreaches(bench: Bench, rota: Rota): string[] {
  const said: string[] = [];
  let end = 0;
  for (const plate of rota.plates) {
    const slow = follow(bench, plate, () => 'high');
    for (const { id, outlasts } of bench.steps)
      if (!outlasts) end = Math.max(end, slow.get(id)?.until ?? Number.NaN);
  }
  if (rota.unplaced.length === 0 && rota.plates.length > 0 && end !== rota.end)
    said.push(`end: ${end} and not ${rota.end}`);
  if (rota.unplaced.length === 0 && !(rota.bound !== null && rota.bound <= rota.end))
    said.push(`bound: ${rota.bound} after ${rota.end}`);
  const fits = rota.unplaced.length === 0 && rota.end <= bench.day.until;
  if (fits !== rota.fits) said.push('end: says wrongly whether it fits');
  return said;
}

function varnishBreaches(bench: Bench, rota: Rota, taken: Taken[]): string[] {
  const said: string[] = [];
  const { varnish } = bench;
  const all = rota.plates.flatMap((plate) => (plate.varnish ? [{ plate, on: plate.varnish }] : []));
  if (!varnish) return all.length > 0 ? ['varnish: nobody asked for it'] : [];
  const poured = rota.plates.map(
    (plate) => follow(bench, plate, () => 'high').get(varnish.ether)?.until ?? 0,
  );
  for (const { plate, on } of all) {
    const dry = follow(bench, plate, () => 'high').get(varnish.after)?.until ?? Number.NaN;
    const name = plate.plate;
    if (on.until - on.from !== varnish.seconds.high) said.push(`varnish: ${name} has another time`);
    if (!(on.from >= dry)) said.push(`varnish: ${name} is not dry`);
    if (!(on.from >= Math.max(...poured) + varnish.airing))
      said.push(`varnish: ${name} while ether is about`);
    if (on.until > bench.day.until) said.push(`varnish: ${name} after the day`);
    if (bench.breaks.some((pause) => on.from < pause.until && on.until > pause.from))
      said.push(`varnish: ${name} in a break`);
    for (const other of all)
      if (other.plate !== plate && on.from < other.on.until && other.on.from < on.until)
        if (other.on.unit === on.unit || other.plate.student === plate.student)
          said.push(`varnish: ${name} and ${other.plate.plate} at once`);
    const hands = taken.filter(
      ({ key }) => key === `@${plate.student}` || key === `${varnish.station}/${on.unit}`,
    );
    if (hands.some((one) => on.from < one.until && on.until > one.from))
      said.push(`varnish: ${name} while its maker is elsewhere`);
  }
  return said;
}
