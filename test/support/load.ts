// Many clients at once, taking places and giving them back, each remembering what it was told. Like people
// before the same page, they try for starts that nobody is known to have, and so meet at the same ones.
import { AppError } from '../../src/platform/problems.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import type { TestHouse } from './house.js';
import type { Entered } from './many-sittings.js';
import { approve, type TestStudio } from './studio.js';

export interface Load {
  clients: number;
  attempts: number;
  /** Requests that wait, to be given places; more than can be won. */
  waiting: Entered[];
  /** The starts that are fought over. */
  starts: string[];
  /** From 0 to 1, to choose by; seeded, so that a run can be told again. */
  chance: () => number;
  /** What was looked for has been seen: the attempts that are left are not made. */
  enough?: () => boolean | Promise<boolean>;
}

export interface Told {
  taken: number;
  givenBack: number;
  refused: Map<string, number>;
  /** Failures that no client should ever see. */
  broken: unknown[];
  /** Sittings that their client was told are confirmed, and not given back since. */
  confirmed: Set<string>;
}

/** 60 % of attempts take, 40 % give back; a client with nothing to give back takes. */
export async function fight(house: TestHouse, studio: TestStudio, load: Load): Promise<Told> {
  const told: Told = { taken: 0, givenBack: 0, refused: new Map(), broken: [], confirmed: new Set() };
  const held: (Entered & { start: string })[] = [];
  const known = new Set<string>();
  let left = load.attempts;
  const client = async () => {
    while (left-- > 0 && !(await load.enough?.())) {
      const gives =
        load.chance() < 0.4 ? held.splice(Math.floor(load.chance() * held.length), 1)[0] : undefined;
      const one = gives ?? load.waiting.pop();
      if (!one) throw new Error('The load ran out of requests.');
      try {
        if (gives) {
          known.delete(gives.start);
          await house.app.get(RequestsService).giveUp(studio.id, one.token);
          told.givenBack++;
          told.confirmed.delete(one.sittingId);
        } else {
          const open = load.starts.filter((start) => !known.has(start));
          const start = open[Math.floor(load.chance() * open.length)] ?? load.starts[0] ?? '';
          await approve(house, studio, one.sittingId, start);
          told.taken++;
          told.confirmed.add(one.sittingId);
          known.add(start);
          held.push({ ...one, start });
        }
      } catch (error) {
        if (!gives) load.waiting.unshift(one);
        if (!(error instanceof AppError)) told.broken.push(error);
        else told.refused.set(error.code, (told.refused.get(error.code) ?? 0) + 1);
      }
    }
  };
  await Promise.all(Array.from({ length: load.clients }, client));
  return told;
}

/** A small generator of chances from a seed (Mulberry32, by Tommy Ettinger, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
