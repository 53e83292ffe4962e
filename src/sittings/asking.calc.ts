// What a request asks of a day. Open places depend on plates, people and kind and on nothing else of a request, so
// that those who ask for the same are reckoned once.
import type { SittingView } from './sittings.schemas.js';

export interface Asking {
  plates: number;
  sitters: number;
  kindId: string | null;
}

type Asks = Pick<SittingView, 'plates' | 'sitting'>;

export function askingOf({ plates, sitting }: Asks): Asking {
  const sitters = new Set(plates.flatMap((plate) => plate.sitterIds)).size;
  return { plates: plates.length, sitters, kindId: sitting.kindId };
}

/** The same for two who ask for the same. */
export function askingKey(one: Asks): string {
  const { plates, sitters, kindId } = askingOf(one);
  return `${plates} ${sitters} ${kindId}`;
}

/** Each asking among some requests once, by its key. */
export function askingsOf(all: readonly Asks[]): Map<string, Asking> {
  return new Map(all.map((one) => [askingKey(one), askingOf(one)]));
}
