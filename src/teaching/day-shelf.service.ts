// What a teaching day takes of the shelf, and how the shelf stands with it: by who has a place, and with every place
// taken; of one that was held, by who was there, and what it took. It changes nothing.
import { Injectable } from '@nestjs/common';
import type { Needs } from '../chemistry/estimate.calc.js';
import { type ChemicalNeed, rawChemicals } from '../chemistry/raw-chemicals.calc.js';
import type { Tx } from '../platform/db/tx.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { IfPromised } from '../stock/if-promised.calc.js';
import type { Outlook } from '../stock/outlook.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import { RecipesService } from '../stock/recipes.service.js';
import type { Need, Unit } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { ClassRecord } from './after.schemas.js';
import { AfterStore } from './after.store.js';
import {
  bottleOf,
  demonstrationEstimate,
  demonstrationNeeds,
  type ShelfFacts,
  studentEstimate,
  studentNeeds,
  sumOf,
} from './estimate.calc.js';
import { SeatsService } from './seats.service.js';
import { isAmong, stands } from './states.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

const BEGINNER = { experience: 'none', plateSizeId: null } as const;

/** What a day takes, and how the shelf stands with it. */
export interface DayOnShelf {
  perStudent: { student: Student; estimate: Needs }[];
  demonstration: Needs;
  /** Of who has a place now, or was there, demonstration included. */
  now: Needs;
  /** One who never poured a plate; and the day with every place taken. */
  beginner: Needs;
  full: Needs;
  outlookNow: Outlook;
  outlookFull: Outlook;
  /** What the solutions of a full day come down to, and which of them are mixed here. */
  chemicals: ChemicalNeed[];
  mixed: string[];
  /** What it took, as it was written down; null as long as nothing was. */
  took: TookOfItem[] | null;
}

export interface TookOfItem {
  name: string;
  unit: Unit;
  quantity: bigint;
}

@Injectable()
export class DayShelfService {
  private readonly after = new AfterStore();

  constructor(
    private readonly room: RoomService,
    private readonly planning: PlanningService,
    private readonly recipes: RecipesService,
    private readonly seats: SeatsService,
    private readonly days: DaysService,
  ) {}

  /**
   * What a day takes by who has a place, and if every place were taken by somebody who never poured a plate; and how
   * the shelf would stand with either, everything else being set aside as it is.
   */
  async of(
    tx: Tx,
    studio: Studio,
    { session, place }: { session: Session; place: Occupancy },
    signUps: { signUp: SignUp; students: Student[] }[],
  ): Promise<DayOnShelf> {
    const facts: ShelfFacts = await this.seats.shelf(tx, studio);
    const { course } = session;
    const record = session.state === 'run' ? await this.after.of(tx, session.id) : null;
    const students = signUps
      .filter(({ signUp }) => isAmong(signUp.state))
      .flatMap((one) => one.students)
      .filter(({ id }) => record?.attendance.get(id) !== 'did_not_come');
    const over = !stands(session.state);
    const left = over ? 0 : Math.max(session.places - students.length, 0);
    const perStudent = students.map((student) => ({
      student,
      estimate: studentEstimate(course, student, facts),
    }));
    const demonstration = demonstrationEstimate(course, facts);
    const beginner = studentEstimate(course, BEGINNER, facts);
    const now = sumOf([demonstration, ...perStudent.map(({ estimate }) => estimate)]);
    const own = new Set([session.id, ...students.map(({ id }) => id)]);
    const ahead = new IfPromised(await this.planning.horizon(tx, this.room.today(studio), own));
    const needs = [
      demonstrationNeeds(course, facts),
      ...students.map((one) => studentNeeds(course, one, facts)),
    ];
    const more = Array.from({ length: left }, () => studentNeeds(course, BEGINNER, facts));
    const day = place.wallStart.toPlainDate();
    const recipes = await this.recipes.ofSolutions(tx, (kind, items) => bottleOf(kind, course, items));
    const full = sumOf([now, ...Array.from({ length: left }, () => beginner)]);
    const besides = (await this.days.besides(tx, this.room.today(studio)))(day);
    const outlook = (all: Need[][]) => ahead.on(day, over ? [] : added([...all, besides]));
    return {
      perStudent,
      demonstration,
      now,
      beginner,
      full,
      chemicals: rawChemicals(full, recipes),
      mixed: recipes.map(({ itemName }) => itemName),
      outlookNow: outlook(needs),
      outlookFull: outlook([...needs, ...more]),
      took: record && (await this.took(tx, record, facts)),
    };
  }

  /** What went off the shelf, and the silver that was measured in the bath. */
  private async took(tx: Tx, { sessionId, used }: ClassRecord, { items }: ShelfFacts): Promise<TookOfItem[]> {
    const bottles = (await this.after.usedOfItems(tx, sessionId)).flatMap(({ itemId, quantity }) => {
      const item = items.find(({ id }) => id === itemId);
      return item ? [{ name: item.name, unit: item.unit, quantity }] : [];
    });
    const silver = used.silver;
    if (silver === undefined) return bottles;
    return [...bottles, { name: 'Silver nitrate, out of the bath', unit: 'mg', quantity: silver }];
  }
}

/** Everything asked of one item together. */
function added(all: Need[][]): Need[] {
  const byItem = new Map<string, Need>();
  for (const need of all.flat()) {
    const quantity = need.quantity + (byItem.get(need.itemId)?.quantity ?? 0n);
    byItem.set(need.itemId, { ...need, quantity });
  }
  return [...byItem.values()];
}
