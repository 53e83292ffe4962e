// What is still owed for the plates of sittings that were made: the list, its ticks, and the owner's steps. The
// plates of one sitting go through it together. It writes to nobody.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { Kind } from '../room/rules.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { countsOf, type Owed, type OwedCounts, owedOf } from './owed.calc.js';
import { doneForm, kindDays, stepForm } from './owed-forms.schemas.js';
import type { Step } from './owed.schemas.js';
import { USUAL_STEPS } from './owed-steps.calc.js';
import { OwedStore } from './owed.store.js';

/** What left the studio so many days ago can still be seen, and taken back. */
const LEFT_DAYS = 7;

type Who = { name: string };

export interface OwedList {
  today: Temporal.PlainDate;
  entries: { owed: Owed; view: SittingView }[];
}

@Injectable()
export class OwedService {
  private readonly store = new OwedStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
  ) {}

  /** What is owed, late first; what left in the last seven days stands at the end. */
  list(studioId: string): Promise<OwedList> {
    return this.db.inStudio(studioId, async (tx) => this.of(tx, await this.studios.load(tx)));
  }

  /** How much is owed, and late; for the desk's front page. The same number of statements however much. */
  async counts(tx: Tx, studio: Studio): Promise<OwedCounts> {
    return countsOf((await this.of(tx, studio)).entries.map((one) => one.owed));
  }

  /** What is and was owed for one sitting; null where it was not made or owes nothing. */
  async ofSitting(tx: Tx, studio: Studio, sittingId: string): Promise<Owed | null> {
    const made = madeOf(await this.views.byIds(tx, studio, [sittingId]));
    const done = await this.store.done(tx, [sittingId]);
    return owedOf(made, await this.stepsIn(tx), done, this.room.today(studio))[0] ?? null;
  }

  /**
   * Ticks the step with which plates leave for some sittings whose plates have all left, where it is owed and they have
   * not left yet. The tick carries the moment `at`, by which `comeBack` finds it again.
   */
  async leave(tx: Tx, studio: Studio, who: Who, sittingIds: string[], at: Temporal.Instant): Promise<void> {
    if ((await this.store.steps(tx)).length === 0)
      for (const one of USUAL_STEPS) await this.store.saveStep(tx, one);
    const made = madeOf(await this.views.byIds(tx, studio, sittingIds));
    const done = await this.store.done(tx, sittingIds);
    for (const owed of owedOf(made, await this.stepsIn(tx), done, this.room.today(studio))) {
      const leaving = owed.steps.find((one) => one.step.leaves);
      if (owed.finishedAt !== null || !leaving) continue;
      await this.store.tick(tx, { sittingId: owed.sittingId, stepId: leaving.step.id, at, who: who.name });
    }
  }

  /** Takes back the ticks that `leave` made at a moment. */
  async comeBack(tx: Tx, sittingIds: string[], at: Temporal.Instant): Promise<void> {
    for (const one of await this.store.done(tx, sittingIds))
      if (one.at.equals(at)) await this.store.untick(tx, one.sittingId, one.stepId);
  }

  private async of(tx: Tx, studio: Studio): Promise<OwedList> {
    const steps = await this.stepsIn(tx);
    const leaving = steps.filter((one) => one.leaves).map((one) => one.id);
    const since = this.clock.now().subtract({ hours: 24 * LEFT_DAYS });
    const ids = await this.store.made(tx, leaving, since);
    const views = new Map((await this.views.byIds(tx, studio, ids)).map((view) => [view.sitting.id, view]));
    const made = madeOf([...views.values()]);
    const today = this.room.today(studio);
    const owed = owedOf(made, steps, await this.store.done(tx, ids), today);
    const shown = owed.filter(
      ({ finishedAt }) => !finishedAt || finishedAt.epochMilliseconds >= since.epochMilliseconds,
    );
    return {
      today,
      entries: shown.flatMap((one) => {
        const view = views.get(one.sittingId);
        return view ? [{ owed: one, view }] : [];
      }),
    };
  }

  /**
   * Ticks a step of a sitting, or takes the tick back. The same once more is no mistake.
   * @throws AppError bad_input; not_found; wrong_state for a sitting that was not made
   */
  async tick(studioId: string, who: Who, sittingId: string, input: unknown): Promise<void> {
    const { step: stepId, done } = readInput(doneForm, input);
    await this.act(studioId, stepId, async (tx, steps) => {
      const { sitting } = await this.views.byId(tx, await this.studios.load(tx), sittingId);
      if (sitting.state !== 'made') throw new AppError('wrong_state', 'This sitting does not count as made.');
      const changed = done
        ? await this.store.tick(tx, { sittingId, stepId, at: this.clock.now(), who: who.name })
        : await this.store.untick(tx, sittingId, stepId);
      if (!changed) return;
      const note = steps.find((one) => one.id === stepId)?.what ?? '';
      const about = { aboutKind: 'sitting', aboutId: sittingId, event: done ? 'owed_done' : 'owed_not_done' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note });
    });
  }

  steps(studioId: string): Promise<{ steps: Step[]; kinds: Kind[] }> {
    return this.db.inStudio(studioId, async (tx) => ({
      steps: (await this.stepsIn(tx)).filter((one) => !one.archived),
      kinds: (await this.room.rules(tx)).kinds,
    }));
  }

  /**
   * Adds a step, or changes one. @param stepId null for a new one
   * @throws AppError bad_input, also where plates could never leave any more; not_found
   */
  async saveStep(
    studioId: string,
    who: Who,
    stepId: string | null,
    input: Record<string, unknown>,
    check: (step: Step) => void = () => {},
  ): Promise<void> {
    const said = readInput(stepForm, input);
    await this.act(studioId, stepId, async (tx, steps) => {
      const byKind = kindsOf((await this.room.rules(tx)).kinds, said.notFor, input);
      const known = steps.find((one) => one.id === stepId);
      if (known) check(known);
      const position = known?.position ?? Math.max(0, ...steps.map((one) => one.position)) + 1;
      const { what, days, leaves } = said;
      const step = { id: stepId ?? this.random.id(), position, what, days, leaves, archived: false, byKind };
      if (known?.leaves && !leaves) stillLeaves(steps, step.id, 'leaves');
      await this.store.saveStep(tx, step);
      await this.recordStep(tx, who, step.id, 'owed_step', what);
    });
  }

  /** Puts a step away: it is owed no more. @throws AppError not_found; wrong_state for the last with which plates leave */
  async removeStep(studioId: string, who: Who, stepId: string): Promise<void> {
    await this.act(studioId, stepId, async (tx, steps) => {
      const step = steps.find((one) => one.id === stepId);
      if (!step) return;
      if (step.leaves) stillLeaves(steps, stepId, null);
      await this.store.saveStep(tx, { ...step, archived: true });
      await this.recordStep(tx, who, stepId, 'owed_step_gone', step.what);
    });
  }

  /** One act on the steps: the usual ones become the studio's own first. */
  private act(
    studioId: string,
    stepId: string | null,
    change: (tx: Tx, steps: readonly Step[]) => Promise<void>,
  ): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'owed steps');
      const own = await this.store.steps(tx);
      const steps = own.length > 0 ? own : USUAL_STEPS;
      if (own.length === 0) for (const one of steps) await this.store.saveStep(tx, one);
      if (stepId !== null && !steps.some((one) => one.id === stepId && !one.archived))
        throw new AppError('not_found', 'This is not known here any more.');
      await change(tx, steps);
    });
  }

  private async stepsIn(tx: Tx): Promise<readonly Step[]> {
    const own = await this.store.steps(tx);
    return own.length > 0 ? own : USUAL_STEPS;
  }

  private recordStep(tx: Tx, who: Who, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'owed', aboutId, event, note });
  }
}

const madeOf = (views: readonly SittingView[]) =>
  views.flatMap(({ sitting, place }) =>
    place && sitting.state === 'made'
      ? [{ sittingId: sitting.id, kindId: sitting.kindId, day: place.wallStart.toPlainDate() }]
      : [],
  );

/** @throws AppError bad_input at `field`, or wrong_state, where no other step lets plates leave */
function stillLeaves(steps: readonly Step[], but: string, field: string | null): void {
  if (steps.some((one) => one.leaves && !one.archived && one.id !== but)) return;
  const message = 'With one step at least the plates must leave the studio.';
  throw field === null
    ? new AppError('wrong_state', message)
    : new AppError('bad_input', undefined, [{ field, message }]);
}

/** Other days by the kind, as they were typed. @throws AppError bad_input */
function kindsOf(
  kinds: Kind[],
  notFor: string[],
  input: Record<string, unknown>,
): Map<string, number | null> {
  const problems: FieldProblem[] = [];
  const byKind = new Map<string, number | null>();
  for (const { id } of kinds) {
    const field = `days-${id}`;
    const read = kindDays.safeParse(input[field]);
    if (notFor.includes(id)) byKind.set(id, null);
    else if (!read.success) problems.push({ field, message: read.error.issues[0]?.message ?? '' });
    else if (read.data !== null) byKind.set(id, read.data);
  }
  if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  return byKind;
}
