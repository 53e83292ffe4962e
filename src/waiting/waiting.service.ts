// Offers and the rule of the waiting list, for whatever can be waited for: it is told ids and times, and knows no
// sitting. Whoever makes or settles an offer holds and frees the place itself, in the same transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import type { Expiry } from './expiry.calc.js';
import type { Freed, Offer, OfferAnswer } from './offers.schemas.js';
import { DEFAULT_WAITING_RULES, rulesAsFields, type WaitingRules } from './rules.schemas.js';
import type { Experience } from './wait.calc.js';
import { WaitingStore } from './waiting.store.js';

/** What the studio has seen counts for so long. Assumption. */
const EXPERIENCE_DAYS = 730;
/** A place that came free stays proposed for so long. Assumption. */
const FREED_DAYS = 60;
/** Once it can be undone no more, the rule has offered it within so long. Assumption. */
const RULE_SECONDS = 120;

/** Which job lets an offer lapse: of a sitting, or of a day of teaching. */
type Lapses = 'offer.lapsed' | 'teaching.lapsed';

@Injectable()
export class WaitingService {
  private readonly store = new WaitingStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly config: Config,
  ) {}

  async rules(tx: Tx): Promise<WaitingRules> {
    return (await this.store.rules(tx)) ?? DEFAULT_WAITING_RULES;
  }

  /**
   * Changes the rule; every change is a line of history.
   * @param check is asked about the rule as it stands before it is overwritten
   */
  saveRules(
    studioId: string,
    who: { name: string },
    rules: WaitingRules,
    check: (stands: WaitingRules) => void = () => {},
  ): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'waiting rules');
      const stands = await this.rules(tx);
      check(stands);
      const before = rulesAsFields(stands);
      const changed = Object.entries(rulesAsFields(rules)).filter(([name, value]) => before[name] !== value);
      if (changed.length === 0) return;
      await this.store.saveRules(tx, rules);
      const note = changed.map(([name, value]) => `${name}: ${before[name]} -> ${value}`).join('; ');
      const about = { aboutKind: 'waiting rules', aboutId: studioId, event: 'change' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note });
    });
  }

  /**
   * Enters an offer over a place that its maker holds, and has it looked at when it runs out.
   * @throws AppError wrong_state when another offer is open for the same
   */
  async make(
    tx: Tx,
    one: { forId: string; occupancyId: string | null; expiry: Extract<Expiry, { ok: true }>; who: string },
    lapses: Lapses = 'offer.lapsed',
  ): Promise<Offer> {
    const { expiresAt, byTelephone } = one.expiry;
    const offer: Offer = {
      id: this.random.id(),
      forId: one.forId,
      occupancyId: one.occupancyId,
      madeAt: this.clock.now(),
      expiresAt,
      byTelephone,
      who: one.who,
      answer: null,
      answeredAt: null,
      answeredBy: '',
    };
    if (!(await this.store.insert(tx, offer)))
      throw new AppError('wrong_state', 'Another place is offered to them already.');
    await this.watch(tx, offer, lapses);
    return offer;
  }

  byId(tx: Tx, id: string): Promise<Offer | null> {
    return this.store.byId(tx, id);
  }

  /** Offers nobody has answered, those that ran out a moment ago included; of all, or for some. */
  unanswered(tx: Tx, forIds: string[] | null = null): Promise<Offer[]> {
    return this.store.unanswered(tx, forIds);
  }

  /** The offer nobody has answered yet for one, or null. */
  async openFor(tx: Tx, forId: string): Promise<Offer | null> {
    return (await this.store.unanswered(tx, [forId]))[0] ?? null;
  }

  /** Those that ran out by an instant; whoever takes a place lets them lapse first. */
  expired(tx: Tx, by: Temporal.Instant): Promise<Offer[]> {
    return this.store.expired(tx, by);
  }

  /** Lets an offer lapse that has run out; false when it was settled meanwhile. */
  lapse(tx: Tx, offerId: string, at: Temporal.Instant): Promise<boolean> {
    return this.store.settle(tx, offerId, 'lapsed', at, '');
  }

  /** The newest offer made for one, or null. */
  async newest(tx: Tx, forId: string): Promise<Offer | null> {
    return (await this.newestOf(tx, [forId])).get(forId) ?? null;
  }

  /** The newest offer made for each, by whom it is for. */
  async newestOf(tx: Tx, forIds: string[]): Promise<Map<string, Offer>> {
    return new Map((await this.store.newest(tx, forIds)).map((offer) => [offer.forId, offer]));
  }

  /** Has an offer looked at again when it runs out. */
  async watch(tx: Tx, { id, expiresAt }: Offer, lapses: Lapses = 'offer.lapsed'): Promise<void> {
    await this.jobs.enqueue(tx, lapses, { offerId: id }, { key: id, runAt: expiresAt });
  }

  /** Settles an open offer. @throws AppError wrong_state when somebody was faster */
  async settle(
    tx: Tx,
    offerId: string,
    answer: OfferAnswer,
    at: Temporal.Instant,
    by: string,
  ): Promise<void> {
    if (!(await this.store.settle(tx, offerId, answer, at, by)))
      throw new AppError('wrong_state', 'This offer was answered already, or has run out.');
  }

  /** The starts to come that people had or were offered and did not keep, in epoch ms, by whom. */
  passedOver(tx: Tx): Promise<Map<string, Set<number>>> {
    return this.store.passedOver(tx, this.clock.now());
  }

  experience(tx: Tx): Promise<Experience> {
    return this.store.experience(tx, this.clock.now().subtract({ hours: 24 * EXPERIENCE_DAYS }));
  }

  /** Places that came free lately and that nothing holds now, in order of time. */
  freed(tx: Tx): Promise<Freed[]> {
    const now = this.clock.now();
    return this.store.freed(tx, now, now.subtract({ hours: 24 * FREED_DAYS }));
  }

  /** Whether the studio's rule offers by itself what came free at an instant, and may not have come to it yet. */
  passesOn({ mode }: Pick<WaitingRules, 'mode'>, freedAt: Temporal.Instant | null): boolean {
    if (mode !== 'automatic' || freedAt === null) return false;
    const done = freedAt.add({ seconds: this.config.undoSeconds + RULE_SECONDS });
    return this.clock.now().epochMilliseconds < done.epochMilliseconds;
  }
}
