// The studio's rules of keeping: shown in words with what would go tonight, and kept to every night. Until the owner has
// kept rules, nothing is erased by itself.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { StudiosService } from '../studios/studios.service.js';
import { ErasureService } from './erasure.service.js';
import { type Asked, erasedFrom } from './keeping.calc.js';
import { KeepingStore } from './keeping.store.js';
import { DEFAULT_KEEPING, type Keeping, keepingForm } from './privacy.schemas.js';

export interface Tonight {
  people: { contactId: string; name: string }[];
  letters: number;
}

export interface KeepingFound {
  rules: Keeping;
  /** The owner has kept them; else they are a proposal and nothing goes by itself. */
  inForce: boolean;
  /** What goes, or would go, tonight. */
  tonight: Tonight;
}

@Injectable()
export class KeepingService {
  private readonly store = new KeepingStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly erasures: ErasureService,
  ) {}

  found(studioId: string): Promise<KeepingFound> {
    return this.db.inStudio(studioId, async (tx) => {
      const kept = await this.store.rules(tx);
      const rules = kept ?? DEFAULT_KEEPING;
      return { rules, inForce: kept !== null, tonight: await this.tonight(tx, rules) };
    });
  }

  /** @throws AppError bad_input */
  async save(
    studioId: string,
    who: { name: string },
    input: unknown,
    check: (rules: Keeping) => void = () => {},
  ): Promise<void> {
    const rules = readInput(keepingForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'keeping');
      check((await this.store.rules(tx)) ?? DEFAULT_KEEPING);
      await this.store.save(tx, rules);
      const about = { aboutKind: 'settings', aboutId: studioId, event: 'keeping' };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  /** The night's work: whoever's time is over, each in a transaction of their own; then letters. */
  async night(studioId: string): Promise<void> {
    const { inForce, rules, tonight } = await this.found(studioId);
    if (inForce) {
      for (const { contactId } of tonight.people)
        await this.db.inStudio(studioId, async (tx) => {
          // somebody may have asked again since
          if (!(await this.tonight(tx, rules)).people.some((one) => one.contactId === contactId)) return;
          await this.erasures.eraseNow(tx, contactId, 'a rule of keeping');
          await this.studios.raiseCalendarCounter(tx);
        });
      await this.db.inStudio(studioId, async (tx) => {
        const until = this.lettersUntil(rules);
        if (until) await this.store.blankLetters(tx, until);
      });
    }
    await this.erasures.afterwards(studioId);
  }

  private async tonight(tx: Tx, rules: Keeping): Promise<Tonight> {
    const now = this.clock.now().epochMilliseconds;
    const asked = new Map<string, { name: string; all: Asked[] }>();
    for (const { contact_id: id, name, how, since } of await this.store.asked(tx)) {
      const one = asked.get(id) ?? { name, all: [] };
      one.all.push({ how, since });
      asked.set(id, one);
    }
    const people = [...asked].flatMap(([contactId, { name, all }]) => {
      const from = erasedFrom(all, rules);
      return from !== null && from.epochMilliseconds <= now ? [{ contactId, name }] : [];
    });
    const until = this.lettersUntil(rules);
    return { people, letters: until ? await this.store.oldLetters(tx, until) : 0 };
  }

  private lettersUntil({ lettersDays }: Keeping) {
    return lettersDays === null ? null : this.clock.now().subtract({ hours: 24 * lettersDays });
  }
}
