// Places that came free, and who on the waiting list could be asked for each. Some statements for all of them together;
// it offers nothing. Methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { noticeNeeded, offerExpiry } from '../waiting/expiry.calc.js';
import { type PassOn, passOn } from '../waiting/pass-on.calc.js';
import type { WaitingRules } from '../waiting/rules.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { askingKey, askingsOf } from './asking.calc.js';
import type { FreedPlace, Listed } from './list.schemas.js';
import { type SittingView, suitsOn } from './sittings.schemas.js';

/** So many places that came free are looked at, the nearest first. */
const MOST_FREED = 12;

@Injectable()
export class FreedService {
  constructor(
    private readonly clock: Clock,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
  ) {}

  /** Those somebody could be asked for, in order of time. `listed` is asked for only where a place came free. */
  async of(
    tx: Tx,
    studio: Studio,
    rules: WaitingRules,
    listed: () => Promise<Listed[]>,
  ): Promise<FreedPlace[]> {
    const freed = (await this.waiting.freed(tx)).slice(0, MOST_FREED);
    if (freed.length === 0) return [];
    const starts = freed.map(({ wallStart }) => wallStart);
    const each = await this.candidates(tx, studio, rules, await listed(), starts);
    return freed.flatMap(({ wallStart, freedAt }, at) => {
      const candidates = each[at];
      const byRule = this.waiting.passesOn(rules, freedAt);
      return candidates && candidates.order.length > 0 ? [{ wallStart, candidates, byRule }] : [];
    });
  }

  /** For each start, in their order, who could be asked, the next first. */
  async candidates(
    tx: Tx,
    studio: Studio,
    rules: WaitingRules,
    listed: Listed[],
    starts: Temporal.PlainDateTime[],
  ): Promise<PassOn[]> {
    const dates = starts.map((one) => one.toPlainDate()).sort(Temporal.PlainDate.compare);
    const [from, until] = [dates[0], dates.at(-1)];
    if (!from || !until || listed.length === 0) return starts.map(() => ({ order: [], notAsked: [] }));
    const passedOver = await this.waiting.passedOver(tx);
    const askings = askingsOf(listed.map(({ view }) => view));
    const days = await this.room.daysForEach(tx, studio, { from, until }, [...askings.values()]);
    const found = new Map([...askings.keys()].map((key, at) => [key, days[at] ?? []]));
    const now = this.clock.now();
    return starts.map((wallStart) => {
      const date = wallStart.toPlainDate();
      const start = wallToInstant(studio.zone, wallStart, 'earlier');
      if (!start.ok) return { order: [], notAsked: [] };
      const startsAt = start.instant;
      const fits = (view: SittingView) =>
        found
          .get(askingKey(view))
          ?.find((day) => day.date.equals(date))
          ?.openings.some((one) => one.closed === null && one.wallStart.equals(wallStart)) === true;
      return passOn(
        listed.map(({ view }) => ({
          id: view.sitting.id,
          suits: suitsOn(view.sitting.suits, date),
          fits: fits(view),
          hadIt: passedOver.get(view.sitting.id)?.has(startsAt.epochMilliseconds) ?? false,
          expiry: offerExpiry({
            zone: studio.zone,
            now,
            startsAt,
            noticeDays: noticeOf(view, rules),
            life: rules.life,
          }),
        })),
      );
    });
  }
}

/** So many days before a place somebody wants to know of it. */
export const noticeOf = ({ journey, sitting }: SittingView, { notice }: WaitingRules): number =>
  noticeNeeded(journey?.farAway ?? null, sitting.marks.noticeDays, notice);
