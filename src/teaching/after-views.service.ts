// What students find on their page after a day: their plates, how what was poured was mixed, what to keep apart.
import { Injectable } from '@nestjs/common';
import { incompatiblePairs, type Pair } from '../chemistry/incompatible.calc.js';
import { SOLUTION_KINDS } from '../chemistry/use-per-area.calc.js';
import type { Tx } from '../platform/db/tx.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { Mixed } from '../stock/formulas.schemas.js';
import { RecipesService } from '../stock/recipes.service.js';
import { StockService } from '../stock/stock.service.js';
import type { MadePlates } from './after.schemas.js';
import { AfterStore } from './after.store.js';
import { bottleOf, isCyanide } from './estimate.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

export interface OwnAfter {
  /** Those of the sign-up who came, with what each made; nothing of other people's. */
  own: { student: Student; plates: MadePlates[] }[];
  /** What was told of the group as a whole. */
  group: MadePlates[];
  /** As it was mixed on that day; never a cyanide fixer. */
  cards: Mixed[];
  /** The teacher poured a cyanide fixer. */
  cyanide: boolean;
  apart: Pair[];
}

@Injectable()
export class AfterViews {
  private readonly store = new AfterStore();

  constructor(
    private readonly stock: StockService,
    private readonly recipes: RecipesService,
  ) {}

  /** Null until the day is written down, and for who was not there. */
  async own(
    tx: Tx,
    {
      signUp,
      students,
      day,
    }: { signUp: SignUp; students: Student[]; day: { session: Session; place: Occupancy } | null },
  ): Promise<OwnAfter | null> {
    const record = day && signUp.state === 'attended' ? await this.store.of(tx, day.session.id) : null;
    if (!record || !day) return null;
    const { course, id } = day.session;
    const items = await this.stock.items(tx);
    const baths = items.filter(({ kind, archived }) => kind === 'bath' && !archived);
    const poured = [...SOLUTION_KINDS.flatMap((kind) => bottleOf(kind, course, items) ?? []), ...baths];
    const brought = await this.recipes.brought(tx, poured);
    const poison = poured.filter(
      (item, at) => isCyanide(item) || brought[at]?.has.includes('cyanide') === true,
    );
    const mixed = poured.filter((item) => !poison.includes(item));
    return {
      own: students
        .filter((one) => record.attendance.get(one.id) !== 'did_not_come')
        .map((student) => ({ student, plates: record.plates.filter(({ maker }) => maker === student.id) })),
      group: record.plates.filter(({ maker }) => maker === id),
      cards: await this.recipes.asMixed(tx, mixed, day.place.endsAt),
      cyanide: poison.length > 0,
      apart: incompatiblePairs(brought).filter(({ rule }) => rule.grave),
    };
  }
}
