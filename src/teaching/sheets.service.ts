// The sheet of a teaching day: what is filled in for it, whether it may be printed, and all that stands on it.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { incompatiblePairs, type Kept, type Pair, propertiesOf } from '../chemistry/incompatible.calc.js';
import { scaleLines } from '../chemistry/scaling.calc.js';
import { SOLUTION_KINDS, type SolutionKind } from '../chemistry/use-per-area.calc.js';
import type { Spread } from '../chemistry/estimate.calc.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { BathDay } from '../stock/bath-days.calc.js';
import { BathsService } from '../stock/baths.service.js';
import { toMix } from '../stock/mixing.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import { RecipesService } from '../stock/recipes.service.js';
import type { Mixed } from '../stock/formulas.schemas.js';
import type { Item, SetAside } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Briefing, briefingBody, NO_BRIEFING } from './briefing.schemas.js';
import { BriefingStore } from './briefing.store.js';
import { bottleOf, isCyanide } from './estimate.calc.js';
import { hasAgreed } from './safety.calc.js';
import { SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { hasCyanide, type Missing, missingFor } from './sheet-check.calc.js';
import { ofDay, type ToMixOnSheet } from './sheet-mixing.calc.js';
import { nextOfSession } from './states.calc.js';
import type { Session, Student } from './teaching.schemas.js';
import { type SessionView, TeachingViews } from './views.service.js';

type Who = { name: string };

/** A solution of the day: what it will take, and from which bottles it is set aside. */
export interface Filled {
  kind: SolutionKind;
  item: Item;
  estimate: Spread;
  from: { label: string; quantity: bigint }[];
  /** Set aside, and in no bottle yet. */
  notYet: bigint;
}

/** Something of which a caution can be told. */
export interface OnBench {
  name: string;
  substance: string | null;
  item: Item | null;
}

export interface SessionSheet {
  view: SessionView & Pick<Awaited<ReturnType<TeachingViews['session']>>, 'sizes' | 'safety'>;
  /** Those who have a place. */
  students: Student[];
  /** Where those agree to the wording of safety who have not: their own pages' secrets, by name. */
  toAgree: { name: string; token: string | null }[];
  briefing: Briefing;
  missing: Missing[];
  cyanide: boolean;
  filled: Filled[];
  mix: ToMixOnSheet[];
  /** The silver bath that takes the day; null where none is planned. */
  bath: BathDay | null;
  bench: Kept[];
  substances: OnBench[];
  pairs: Pair[];
}

@Injectable()
export class SheetsService {
  private readonly store = new BriefingStore();
  private readonly sessions = new SessionsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly planning: PlanningService,
    private readonly recipes: RecipesService,
    private readonly baths: BathsService,
    private readonly seats: SeatsService,
    private readonly views: TeachingViews,
  ) {}

  /** What is filled in for a day, or else what was for the last; and the day. @throws AppError not_found */
  async briefing(studioId: string, sessionId: string) {
    const view = await this.views.session(studioId, sessionId);
    return this.db.inStudio(studioId, async (tx) => {
      return { view, ...(await this.filledIn(tx, sessionId)) };
    });
  }

  private async filledIn(tx: Tx, sessionId: string): Promise<{ briefing: Briefing; asLastDay: boolean }> {
    const own = await this.store.of(tx, sessionId);
    const last = own ? null : await this.store.latest(tx);
    // how old the youngest is differs from day to day
    const briefing = own ?? (last ? { ...last, youngest: null } : NO_BRIEFING);
    return { briefing, asLastDay: last !== null };
  }

  /** Fills in what the sheet needs. @throws AppError bad_input, wrong_state for a day that is over */
  async saveBriefing(
    studioId: string,
    who: Who,
    sessionId: string,
    input: unknown,
    check: (stands: { view: { session: Session }; briefing: Briefing }) => void = () => {},
  ): Promise<void> {
    const { secondAdult, work, ...said } = readInput(briefingBody, input);
    await this.db.inStudio(studioId, async (tx) => {
      const { session } = await this.seats.lock(tx, sessionId);
      if (!nextOfSession(session.state, 'call_off'))
        throw new AppError('wrong_state', 'This day is over or called off.');
      check({ view: { session }, ...(await this.filledIn(tx, sessionId)) });
      await this.store.save(tx, sessionId, said, this.clock.now());
      const parts = session.course.parts.map((part, at) => ({ ...part, work: work[at] ?? [] }));
      await this.sessions.setCourse(tx, sessionId, { course: { ...session.course, parts }, secondAdult });
      await recordHistory(tx, this.clock, {
        who: who.name,
        aboutKind: 'teaching',
        aboutId: sessionId,
        event: 'briefing',
      });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** @throws AppError not_found */
  async of(studioId: string, sessionId: string): Promise<SessionSheet> {
    const view = await this.views.session(studioId, sessionId);
    return this.db.inStudio(studioId, async (tx) => {
      const { session, place } = view;
      const students = view.signUps
        .filter(({ signUp }) => signUp.state === 'signed' || signUp.state === 'attended')
        .flatMap((one) => one.students);
      const today = this.room.today(await this.studios.load(tx));
      const day = place.wallStart.toPlainDate();
      const plan = (await this.baths.around(tx, today)).plan;
      const bath = plan.days.find(({ date }) => date.equals(day)) ?? null;
      const { bench, substances, poured } = await this.bench(tx, session, bath?.bath?.name ?? 'Silver bath');
      const briefing = (await this.store.of(tx, sessionId)) ?? NO_BRIEFING;
      const { leastAge, parts } = session.course;
      const facts = { bench, briefing, leastAge, parts, students };
      return {
        view,
        students,
        toAgree: await this.toAgree(tx, view, students),
        briefing,
        missing: missingFor({ ...facts, secondAdult: session.secondAdult, safety: view.safety }),
        cyanide: hasCyanide(bench),
        filled: await this.filled(tx, view, students, poured),
        mix: await this.toMix(tx, view, today),
        bath,
        bench,
        substances,
        pairs: incompatiblePairs(bench),
      };
    });
  }

  /** Everything poured on a day, the silver bath with it, and what each comes down to; nothing where no plate is made. */
  private async bench(tx: Tx, { course }: Session, bathName: string) {
    const poured: { kind: SolutionKind; item: Item }[] = [];
    const none = { poured, bench: [] as Kept[], substances: [] as OnBench[] };
    if (course.plates.length + course.demonstration.length === 0) return none;
    const items = await this.stock.items(tx);
    for (const kind of SOLUTION_KINDS) {
      const item = bottleOf(kind, course, items);
      if (item) poured.push({ kind, item });
    }
    const baths = items.filter(({ kind, archived }) => kind === 'bath' && !archived);
    const all = [...poured.map(({ item }) => item), ...baths];
    const has = propertiesOf({ kind: 'bath', substance: 'silver nitrate', hCodes: [] });
    const brought = await this.recipes.brought(tx, all);
    const bench = [...brought.map((kept, index) => named(kept, all[index])), { name: bathName, has }];
    const silver: OnBench = { name: 'Silver nitrate', substance: 'silver nitrate', item: null };
    const mixed = await this.recipes.asMixed(tx, all, this.clock.now());
    const substances = [
      silver,
      ...all
        .filter(isToldItself(mixed))
        .map((item) => ({ name: item.name, substance: item.substance, item })),
      ...mixed.flatMap(({ text }) =>
        text.lines.map(({ ingredient, substance, itemId }) => ({
          name: ingredient,
          substance,
          item: items.find(({ id }) => id === itemId) ?? null,
        })),
      ),
    ];
    return { poured, bench, substances: onceEach(substances) };
  }

  private async filled(
    tx: Tx,
    { session, shelf }: SessionView,
    students: readonly Student[],
    poured: readonly { kind: SolutionKind; item: Item }[],
  ): Promise<Filled[]> {
    const held: SetAside[] = [];
    for (const holder of [session.id, ...students.map(({ id }) => id)])
      held.push(...(await this.stock.setAside(tx, holder)));
    return poured.map(({ kind, item }) => {
      const from = new Map<string, bigint>();
      let notYet = 0n;
      for (const one of held.filter(({ item: of }) => of.id === item.id))
        if (one.lotLabel === null) notYet += one.quantity;
        else from.set(one.lotLabel, (from.get(one.lotLabel) ?? 0n) + one.quantity);
      const bottles = [...from].map(([label, quantity]) => ({ label, quantity }));
      return { kind, item, estimate: shelf.now.solutions[kind], from: bottles, notYet };
    });
  }

  private async toAgree(tx: Tx, { safety }: SessionSheet['view'], students: readonly Student[]) {
    const found: SessionSheet['toAgree'] = [];
    for (const one of students.filter((student) => !hasAgreed(student, safety))) {
      const link = await this.links.find(tx, 'place', one.signUpId);
      found.push({ name: one.name, token: link && this.links.token(link) });
    }
    return found;
  }

  /** What must still be mixed for the day, with the amounts of each batch. */
  private async toMix(tx: Tx, { place }: SessionView, today: BathDay['date']): Promise<ToMixOnSheet[]> {
    const batches = ofDay(toMix(await this.planning.horizon(tx, today)), place.wallStart.toPlainDate());
    const mixed = await this.recipes.asMixed(
      tx,
      batches.map(({ item }) => item),
      this.clock.now(),
    );
    return batches.map((batch) => {
      const card = mixed.find(({ item }) => item.id === batch.item.id) ?? null;
      return { batch, card: card && scaled(card, batch.quantity) };
    });
  }
}

/** What is mixed here is told by its ingredients, unless its own label says more. */
const isToldItself = (mixed: readonly Mixed[]) => (item: Item) =>
  item.hCodes.length > 0 || item.hazardNote !== '' || !mixed.some((one) => one.item.id === item.id);

const scaled = (card: Mixed, quantity: bigint): Mixed => ({
  ...card,
  text: { ...card.text, batch: quantity, lines: scaleLines(card.text.lines, card.text.batch, quantity) },
});

/** A bottle called a cyanide, or labelled as one, is one, also where its formula says nothing. */
const named = (kept: Kept, item: Item | undefined): Kept =>
  item && isCyanide(item) ? { ...kept, has: [...new Set([...kept.has, 'cyanide' as const])] } : kept;

/** A substance is told once, by the first name it has; what has none, by its name. */
function onceEach(all: readonly OnBench[]): OnBench[] {
  const told = new Map<string, OnBench>();
  for (const one of all) {
    const key = one.substance ?? one.name.toLowerCase();
    const known = told.get(key);
    if (!known) told.set(key, one);
    else if (known.item === null && one.item !== null) told.set(key, { ...known, item: one.item });
  }
  return [...told.values()];
}
