// What each kind of thing that is brought in answers, so that the steps are the same for all: see bring-in.service.ts.
import type { Tx } from '../../platform/db/tx.js';
import type { Studio } from '../../studios/studios.schemas.js';
import type { Came } from './bring-in.schemas.js';
import type { Choices, NamedLine, ReadLine, Said } from './reading.calc.js';

/** What became of lines when they were entered. */
export interface Entered {
  came: Came[];
  /** What is told of a line before it comes in: the place it gets. */
  tells: Map<number, string>;
  /** Lines that were refused, with the reason. */
  refused: Map<number, Said>;
}

export interface Kind<Value> {
  /** Lines by the rules of the feature they belong to; nothing is written. */
  read(tx: Tx, studio: Studio, lines: NamedLine[], choices: Choices): Promise<ReadLine<Value>[]>;
  /** Enters lines. On trial whatever cannot be refused is passed over, and the caller takes all of it back. */
  enter(
    tx: Tx,
    studio: Studio,
    who: { name: string },
    lines: { line: number; value: Value }[],
    trial: boolean,
  ): Promise<Entered>;
  /** Those of what lines became with which something was done since, with their names. */
  touched(tx: Tx, studio: Studio, ids: string[], upTo: bigint): Promise<Map<string, string>>;
  /** Takes away what lines became; nothing may have been done with it since. */
  remove(tx: Tx, studio: Studio, who: { name: string }, ids: string[]): Promise<void>;
}
