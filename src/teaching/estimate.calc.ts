// What a student, and a whole teaching day, takes: plates, solutions, silver, gear. The chemistry estimate with the
// tries of people who learn; a day's figures are the sums of its students' and of the teacher's demonstration.
import {
  estimateNeeds,
  FIGURES,
  type Needs,
  quantitiesToReserve,
  type ReserveChoice,
  type Spread,
  type WantedPlates,
} from '../chemistry/estimate.calc.js';
import type { OwnFigures } from '../chemistry/learning.calc.js';
import { type AttemptRule, SOLUTION_KINDS, type SolutionKind } from '../chemistry/use-per-area.calc.js';
import type { Item, Need, PlateSize } from '../stock/stock.schemas.js';
import { usualOf } from '../stock/usual.calc.js';
import type { Course, CoursePlates } from './course.schemas.js';

export const EXPERIENCES = ['none', 'some', 'practised'] as const;
/** What somebody has done before: nothing; a plate or a class; plates of their own, often. */
export type Experience = (typeof EXPERIENCES)[number];

/** What of a student the estimate asks. */
export interface Learner {
  experience: Experience;
  /** Another size than the day's. */
  plateSizeId: string | null;
}

/** What is on the shelf and known of it. */
export interface ShelfFacts {
  sizes: readonly PlateSize[];
  items: readonly Item[];
  figures: Pick<OwnFigures, 'use' | 'attempts'>;
  choice: ReserveChoice;
}

/**
 * The tries of a student. Who never poured a plate keeps the share of beginners (the studio's own figure, or the one
 * of the course); who practises, that of sittings, if it is higher; who poured some, halfway between. Beginners go on
 * until a plate is kept. Assumption: no figures of people with some experience were found published.
 */
export function triesOf(
  experience: Experience,
  attempts: OwnFigures['attempts'],
  keeperShare: number | null,
): AttemptRule {
  const beginner = { ...attempts.beginners, ...(keeperShare !== null && { keeperShare }) };
  if (experience === 'none') return beginner;
  const practised = Math.max(beginner.keeperShare, attempts.sittings.keeperShare);
  const share = experience === 'practised' ? practised : (beginner.keeperShare + practised) / 2;
  return { ...beginner, keeperShare: share };
}

/** What one student's plates take; the plates are those of the course, in the student's own size where they have one. */
export function studentEstimate(course: Course, learner: Learner, facts: ShelfFacts): Needs {
  const plates = course.plates.map((one) => ({
    ...one,
    plateSizeId: learner.plateSizeId ?? one.plateSizeId,
  }));
  const rule = triesOf(learner.experience, facts.figures.attempts, course.keeperShare);
  return pouredOnly(estimateNeeds(wantedOf(plates, facts.sizes), facts.figures.use, rule), course);
}

/** What the teacher's demonstration takes, made as for sittings. */
export const demonstrationEstimate = (course: Course, { sizes, figures }: ShelfFacts): Needs =>
  pouredOnly(
    estimateNeeds(wantedOf(course.demonstration, sizes), figures.use, figures.attempts.sittings),
    course,
  );

/** What is set aside for a student: plates and solutions by the studio's choice, and supplies they use up. */
export function studentNeeds(course: Course, learner: Learner, facts: ShelfFacts): Need[] {
  const gear = course.gear.flatMap(({ itemId, each }) => {
    const item = facts.items.find((one) => one.id === itemId && one.kind === 'supply' && !one.archived);
    return item ? [{ itemId: item.id, quantity: BigInt(each) }] : [];
  });
  return together([...onShelf(studentEstimate(course, learner, facts), course, facts), ...gear]);
}

/** What is set aside for the demonstration. */
export const demonstrationNeeds = (course: Course, facts: ShelfFacts): Need[] =>
  onShelf(demonstrationEstimate(course, facts), course, facts);

/** The sum of several estimates, figure by figure: the whole of a day. */
export function sumOf(all: readonly Needs[]): Needs {
  return all.reduce(
    (sum, one) => ({
      glass: addGlass(sum.glass, one.glass),
      solutions: Object.fromEntries(
        SOLUTION_KINDS.map((kind) => [kind, add(sum.solutions[kind], one.solutions[kind])]),
      ) as Needs['solutions'],
      silverNitrate: {
        total: add(sum.silverNitrate.total, one.silverNitrate.total),
        inFilm: add(sum.silverNitrate.inFilm, one.silverNitrate.inFilm),
      },
    }),
    NOTHING,
  );
}

/** Without the solutions that a course does not pour: plates that are taken home unvarnished, say. */
function pouredOnly(needs: Needs, { uses }: Pick<Course, 'uses'>): Needs {
  const poured = SOLUTION_KINDS.map((kind) => [
    kind,
    usedOf(uses, kind) === 'none' ? NONE : needs.solutions[kind],
  ]);
  return { ...needs, solutions: Object.fromEntries(poured) };
}

const usedOf = (uses: Course['uses'], kind: SolutionKind): string =>
  (uses as Partial<Record<SolutionKind, string>>)[kind] ?? 'usual';

/** The bottle a course pours of a kind; null for none of it. A cyanide fixer serves only where it is named. */
export function bottleOf(
  kind: SolutionKind,
  { uses }: Pick<Course, 'uses'>,
  items: readonly Item[],
): Item | null {
  const chosen = usedOf(uses, kind);
  if (chosen === 'none') return null;
  if (chosen !== 'usual') return items.find((item) => item.id === chosen && !item.archived) ?? null;
  return (
    usualOf(
      items.filter((item) => !isCyanide(item)),
      kind,
    ) ?? null
  );
}

/** Known by its substance or what its label says: poisonous gas with acid (EUH032). */
export const isCyanide = (item: Pick<Item, 'substance' | 'hCodes' | 'name'>): boolean =>
  /cyanide/i.test(item.substance ?? '') || /cyanide/i.test(item.name) || item.hCodes.includes('EUH032');

function onShelf(needs: Needs, course: Course, { items, choice }: ShelfFacts): Need[] {
  const reserve = quantitiesToReserve(needs, choice);
  const glass = reserve.glass.flatMap(({ sizeId, sheets }) => {
    const item = usualOf(items, 'glass', sizeId ?? null);
    return item ? [{ itemId: item.id, quantity: sheets }] : [];
  });
  const solutions = SOLUTION_KINDS.flatMap((kind) => {
    const item = bottleOf(kind, course, items);
    const quantity = reserve.solutions[kind];
    if (!item || quantity === 0n) return [];
    // old and slow collodion is good enough for teaching; common practice, no source
    return [{ itemId: item.id, quantity, ...(kind === 'collodion' && { class: 'old' as const }) }];
  });
  return [...glass, ...solutions];
}

function together(needs: readonly Need[]): Need[] {
  const byItem = new Map<string, Need>();
  for (const need of needs) {
    const known = byItem.get(need.itemId);
    byItem.set(need.itemId, known ? { ...known, quantity: known.quantity + need.quantity } : need);
  }
  return [...byItem.values()];
}

const NONE: Spread = { low: 0n, likely: 0n, ninety: 0n, high: 0n };
const NOTHING: Needs = {
  glass: [],
  solutions: { collodion: NONE, developer: NONE, fixer: NONE, varnish: NONE },
  silverNitrate: { total: NONE, inFilm: NONE },
};

const wantedOf = (plates: readonly CoursePlates[], sizes: readonly PlateSize[]): WantedPlates[] =>
  plates.flatMap(({ plateSizeId, count }) => {
    const size = sizes.find((one) => one.id === plateSizeId);
    return size ? [{ sizeId: size.id, widthMm: size.widthMm, heightMm: size.heightMm, keepers: count }] : [];
  });

const add = (a: Spread, b: Spread): Spread =>
  Object.fromEntries(FIGURES.map((figure) => [figure, a[figure] + b[figure]])) as unknown as Spread;

function addGlass(sum: Needs['glass'], more: Needs['glass']): Needs['glass'] {
  const bySize = new Map(sum.map((one) => [one.sizeId, one]));
  for (const one of more) {
    const known = bySize.get(one.sizeId);
    const both = known && {
      ...known,
      keepers: known.keepers + one.keepers,
      sheets: add(known.sheets, one.sheets),
    };
    bySize.set(one.sizeId, both ?? one);
  }
  return [...bySize.values()];
}
