// What a teaching day takes of the shelf, and how the shelf stands with it: by who has a place, and with every place
// taken. It changes nothing.
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
import type { Need } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
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
import { hasPlaces, stands } from './states.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

const BEGINNER = { experience: 'none', plateSizeId: null } as const;

/** What a day takes, and how the shelf stands with it. */
export interface DayOnShelf {
  perStudent: { student: Student; estimate: Needs }[];
  demonstration: Needs;
  /** Of who has a place now, demonstration included. */
  now: Needs;
  /** One who never poured a plate; and the day with every place taken. */
  beginner: Needs;
  full: Needs;
  outlookNow: Outlook;
  outlookFull: Outlook;
  /** What the solutions of a full day come down to, and which of them are mixed here. */
  chemicals: ChemicalNeed[];
  mixed: string[];
}

@Injectable()
export class DayShelfService {
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
    const students = signUps.filter(({ signUp }) => hasPlaces(signUp.state)).flatMap((one) => one.students);
    const left = Math.max(session.places - students.length, 0);
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
    const over = !stands(session.state);
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
    };
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
