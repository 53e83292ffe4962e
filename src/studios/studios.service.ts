// Finding a studio by its address, and founding one.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { LightAndBooking, NewStudio, Profile, Studio } from './studios.schemas.js';
import { StudiosStore } from './studios.store.js';

@Injectable()
export class StudiosService {
  private readonly store = new StudiosStore();
  private readonly loaded = new TogetherIn<void, Studio>(
    async (tx, all) => {
      const studio = await this.store.load(tx);
      return all.map(() => studio);
    },
    () => '',
  );

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
  ) {}

  /**
   * The id of the studio at an address (old addresses too).
   * @throws AppError unknown_studio
   */
  async idAt(slug: string): Promise<string> {
    const found = await this.db.studioAt(slug);
    if (!found) throw new AppError('unknown_studio');
    return found.studioId;
  }

  /** The studio at an address, for pages that show nothing else of it. @throws AppError unknown_studio */
  async at(slug: string): Promise<Studio> {
    const id = await this.idAt(slug);
    return this.db.inStudio(id, (tx) => this.load(tx));
  }

  /** The address of the one studio of this installation; null when there is none, or several. */
  onlySlug(): Promise<string | null> {
    return this.db.onlySlug();
  }

  /** Whether any studio has its house here. */
  any(): Promise<boolean> {
    return this.db.housesAny();
  }

  load(tx: Tx): Promise<Studio> {
    return this.loaded.ask(tx);
  }

  async found(tx: Tx, studio: NewStudio): Promise<void> {
    await this.store.insert(tx, studio, this.clock);
  }

  /** Founds the first studio of an installation. @returns false when there is one */
  async foundFirst(tx: Tx, studio: NewStudio): Promise<boolean> {
    if (!(await this.store.isFirst(tx))) return false;
    await this.store.insert(tx, studio, this.clock);
    return true;
  }

  /** The studio, locked: whoever changes it at the same moment waits. */
  async lock(tx: Tx): Promise<Studio> {
    await this.store.lock(tx);
    return this.load(tx);
  }

  async saveProfile(tx: Tx, values: Profile): Promise<void> {
    await this.store.saveProfile(tx, values);
  }

  async saveLightAndBooking(tx: Tx, values: LightAndBooking): Promise<void> {
    await this.store.saveLightAndBooking(tx, values);
  }

  /** To be the last statement of every act whose outcome shows in a calendar feed. */
  async raiseCalendarCounter(tx: Tx): Promise<void> {
    await this.store.raiseCalendarCounter(tx, this.clock.now());
  }

  /** When what feeds show was last changed. */
  calendarRaisedAt(tx: Tx): Promise<Temporal.Instant> {
    return this.store.calendarRaisedAt(tx);
  }
}
