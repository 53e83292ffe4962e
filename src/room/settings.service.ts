// Changing the room's rules and the studio's light and booking. Each change is looked at first; it is made
// only if the preview still holds, so nothing is overwritten that somebody else changed in the meantime.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { Account } from '../accounts/accounts.schemas.js';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf, recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { changed, type Settings } from './changes.calc.js';
import { type Change, change as changeSchema } from './changes.schemas.js';
import { ClosuresService } from './closures.service.js';
import { type Detail, detailsOf, warningsOf } from './details.calc.js';
import { type Circumstances, type Diff, diffOf, type Touched, toBeMoved, touchedBy } from './preview.calc.js';
import { RoomStore } from './room.store.js';
import type { RoomRules } from './rules.schemas.js';
import { RulesStore } from './rules.store.js';
import { changeInWords, REFUSAL_WORDS } from './words.calc.js';

export interface Preview {
  change: Change;
  /** The change in one sentence. */
  sentence: string;
  /** Its values that differ, old beside new. */
  details: Detail[];
  /** What its owner may not have meant, a sentence each. */
  warnings: string[];
  diff: Diff;
  touched: Touched[];
  /** Stands for the settings it starts from and all it tells; to be sent along when the change is confirmed. */
  seen: string;
}

/** `preview` is that of the change made, or of one that was not since it is otherwise by now. */
export interface Confirmed {
  ok: boolean;
  preview: Preview;
}

/** Whatever is confirmed lies within; a booking horizon has at most 24 months. */
const LOOK_AHEAD = { months: 37 };

@Injectable()
export class SettingsService {
  private readonly store = new RoomStore();
  private readonly rulesStore = new RulesStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly closures: ClosuresService,
  ) {}

  /** The rules, and what was changed of them, the latest first. */
  all(studioId: string): Promise<{ studio: Studio; rules: RoomRules; history: HistoryLine[] }> {
    return this.db.inStudio(studioId, async (tx) => ({
      studio: await this.studios.load(tx),
      rules: await this.rulesStore.load(tx),
      history: (await historyOf(tx, studioId)).reverse(),
    }));
  }

  /** What a change would do. @throws AppError bad_input with a sentence per field */
  preview(studioId: string, input: unknown): Promise<Preview> {
    const change = readInput(changeSchema, input);
    return this.db.inStudio(studioId, async (tx) => (await this.look(tx, change)).preview);
  }

  /**
   * Makes a change that was previewed as `seen`; if anything in that preview is otherwise by now, nothing is
   * changed and the new preview comes back. @throws AppError bad_input
   */
  confirm(studioId: string, who: Account, input: unknown, seen: string): Promise<Confirmed> {
    const change = readInput(changeSchema, input);
    return this.db.inStudio(studioId, async (tx) => {
      await this.rulesStore.lock(tx);
      const { preview, before, after } = await this.look(tx, change);
      if (preview.seen !== seen) return { ok: false, preview };
      await this.rulesStore.saveChanged(tx, before.rules, after.rules);
      if (before.booking !== after.booking)
        await this.studios.saveLightAndBooking(tx, { ...before.booking, ...after.booking });
      if (before.booking.lightFloorDegrees !== after.booking.lightFloorDegrees)
        await this.store.reviseSittings(tx, this.clock.now()); // their calendars tell the good light
      await recordHistory(tx, this.clock, {
        who: who.name,
        aboutKind: 'settings',
        aboutId: studioId,
        event: change.do,
        note: preview.sentence,
      });
      await this.layClosures(tx, before, after);
      await this.studios.raiseCalendarCounter(tx); // days on which somebody works move tasks
      return { ok: true, preview };
    });
  }

  /** Confirmed sittings that lie under a closure, or on a day without the owner. */
  async toBeMoved(tx: Tx, studio: Studio, kind: 'sitting' | 'teaching' = 'sitting'): Promise<Touched[]> {
    const settings = { rules: await this.rulesStore.load(tx), booking: studio };
    return toBeMoved(settings, await this.circumstances(tx, studio), kind);
  }

  private async look(
    tx: Tx,
    change: Change,
  ): Promise<{ preview: Preview; before: Settings & { booking: Studio }; after: Settings }> {
    const studio = await this.studios.load(tx);
    const before = { rules: await this.rulesStore.load(tx), booking: studio };
    const today = instantToWall(studio.zone, this.clock.now()).toPlainDate();
    const answer = changed(before, change, this.random.id(), today);
    if (!answer.ok)
      throw new AppError('bad_input', REFUSAL_WORDS[answer.reason], [
        { field: answer.field, message: REFUSAL_WORDS[answer.reason] },
      ]);
    const { after } = answer;
    const room = await this.circumstances(tx, studio);
    const kindId = change.do === 'kind' ? (change.kindId ?? after.rules.kinds.at(-1)?.id ?? null) : null;
    const diff = diffOf(before, after, room, kindId);
    const touched = touchedBy(before, after, room);
    const sentence = changeInWords(change, before.rules);
    const details = detailsOf(before, after, change);
    const warnings = warningsOf(before.rules, after.rules, today);
    const seen = fingerprint(before, change, diff, touched);
    return { preview: { change, sentence, details, warnings, diff, touched, seen }, before, after };
  }

  /** The room from today on, as changes are looked at in it. */
  async circumstances(tx: Tx, studio: Studio): Promise<Circumstances> {
    const today = instantToWall(studio.zone, this.clock.now()).toPlainDate();
    const holding = await this.store.holding(
      tx,
      dayBounds(studio.zone, today).start,
      dayBounds(studio.zone, today.add(LOOK_AHEAD)).end,
    );
    const kindYears = await this.store.kindYears(tx, today.year, today.add(LOOK_AHEAD).year);
    return { holding, kindYears, today, now: this.clock.now() };
  }

  private async layClosures(tx: Tx, before: Settings, after: Settings): Promise<void> {
    const { zone } = before.booking;
    const missing = (from: RoomRules, other: RoomRules) =>
      from.closures.filter((one) => !other.closures.some(({ id }) => id === one.id));
    const added = missing(after.rules, before.rules);
    const gone = missing(before.rules, after.rules);
    for (const one of gone) await this.closures.reopen(tx, zone, one.id);
    for (const one of added) await this.closures.close(tx, zone, one);
  }
}

function fingerprint(
  before: Settings & { booking: Studio },
  change: Change,
  diff: Diff,
  touched: Touched[],
): string {
  const { calendarCounter: _, ...booking } = before.booking;
  const told = touched.map(({ occupancy, reason }) => [occupancy.id, occupancy.sequence, reason]);
  const text = JSON.stringify([before.rules, booking, change, diff, told]);
  return createHash('sha256').update(text).digest('base64url').slice(0, 27);
}
