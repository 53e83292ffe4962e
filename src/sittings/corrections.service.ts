// Details put right by whoever asked, at once and on the record; and what would change the plan (plates, how many
// sit), which is kept as a wish for the studio to answer. It changes no place, no plate and no stock.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import type { Contact } from '../people/people.schemas.js';
import { correctedDetails, differences } from './corrections.calc.js';
import {
  type Corrections,
  CORRECTED_IN,
  corrections,
  type Wish,
  wishAnswered,
  wishForm,
} from './corrections.schemas.js';
import { PlacesService } from './places.service.js';
import { isForMinor } from './request.schemas.js';
import type { SittingView } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { SittingViews } from './views.service.js';
import { WishesStore } from './wishes.store.js';

const wrong = (field: string, message: string) => new AppError('bad_input', undefined, [{ field, message }]);

@Injectable()
export class CorrectionsService {
  private readonly store = new SittingsStore();
  private readonly wishes = new WishesStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly places: PlacesService,
    private readonly views: SittingViews,
    private readonly gazetteer: Gazetteer,
  ) {}

  /**
   * Puts details right at once; what is different is a line of the record.
   * @param check is asked about what stands there before it is overwritten
   * @returns whether anything was different
   * @throws AppError bad_input with a sentence per field, wrong_state once nothing lies ahead, not_found
   */
  async correct(
    studioId: string,
    token: string,
    input: unknown,
    check: (stands: SittingView) => void = () => {},
  ): Promise<boolean> {
    const said = readInput(corrections, input);
    return this.db.inStudio(studioId, (tx) =>
      this.ahead(tx, token, async (view) => {
        check(view);
        const contact = this.contactOf(view.contact, said);
        const names = view.sitters.map((one, at) => said.sitters[at] ?? one.name);
        const details = correctedDetails(view.sitting.details, said);
        const bands = view.sitters.map((one) => one.ageBand);
        if (!details.guardian && isForMinor({ minor: details.minor, bands }))
          throw wrong('guardian/name', 'Please name a parent or guardian: somebody who sits is under 18.');
        const changed = differences(view, { contact, names, details });
        if (changed.length === 0) return false;
        const sitters = view.sitters.map((one, at) => ({ id: one.id, name: names[at] ?? one.name }));
        await this.people.correct(tx, contact, sitters);
        await this.store.setDetails(tx, view.sitting.id, details);
        await this.record(tx, 'contact', view.sitting.id, 'correct', changed.join('; '));
        // Reminders go by where they come from, and each sitting of theirs has its own.
        const theirs = await this.views.idsOf(tx, contact.id);
        for (const sittingId of theirs)
          await this.jobs.enqueue(tx, 'details.corrected', { sittingId }, { key: `${sittingId}:corrected` });
        await this.places.revise(tx, theirs);
        await this.studios.raiseCalendarCounter(tx);
        return true;
      }),
    );
  }

  /**
   * Keeps what they ask for until the studio has answered.
   * @param check is asked about what they asked for before, if anything
   * @throws AppError bad_input, wrong_state, not_found
   */
  async wish(
    studioId: string,
    token: string,
    input: unknown,
    check: (stands: Wish | null) => void = () => {},
  ): Promise<void> {
    const { words } = readInput(wishForm, input);
    await this.db.inStudio(studioId, (tx) =>
      this.ahead(tx, token, async ({ sitting }) => {
        const before = await this.wishes.of(tx, sitting.id);
        check(before);
        if (before?.words === words) return;
        await this.wishes.keep(tx, sitting.id, words, this.clock.now());
        await this.record(tx, 'contact', sitting.id, 'wish', words);
      }),
    );
  }

  /** The studio has answered a wish, by whatever way. @throws AppError wrong_state where it is another by now */
  async answered(studioId: string, who: { name: string }, sittingId: string, input: unknown): Promise<void> {
    const { asked } = readInput(wishAnswered, input);
    await this.db.inStudio(studioId, async (tx) => {
      if (!(await this.wishes.remove(tx, sittingId, asked)))
        throw new AppError('wrong_state', 'They have asked for something else since, or it was answered.');
      await this.record(tx, who.name, sittingId, 'wish_answered', '');
    });
  }

  /** What nobody has answered yet, the oldest first. */
  open(tx: Tx): Promise<Wish[]> {
    return this.wishes.all(tx);
  }

  /** What a sitting's contact has asked for and nobody has answered. */
  wishOf(studioId: string, sittingId: string): Promise<Wish | null> {
    return this.db.inStudio(studioId, (tx) => this.wishes.of(tx, sittingId));
  }

  /** An act on a sitting that lies ahead; offers that ran out lapse first, like for every act. */
  private async ahead<T>(tx: Tx, token: string, act: (view: SittingView) => Promise<T>): Promise<T> {
    await editAlone(tx, 'details'); // of all that they come for
    const link = await this.links.open(tx, 'place', token);
    const { studio, sitting, lapsed } = await this.places.lock(tx, link.subjectId);
    if (!CORRECTED_IN.includes(sitting.state))
      throw new AppError('wrong_state', 'Nothing lies ahead any more that could be changed.');
    const done = await act(await this.views.byId(tx, studio, sitting.id));
    if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    return done;
  }

  private contactOf(before: Contact, said: Corrections): Contact {
    const { name, reachBy, email, telephone, postalAddress, homeId } = said;
    const found = homeId === null ? null : this.gazetteer.byId(homeId);
    if (homeId !== null && !found)
      throw wrong('homeId', 'This place is not known here; please choose one from the list.');
    const home = found
      ? { name: placeLabel(found), lat: found.lat, lon: found.lon, zone: found.zone }
      : before.home;
    const language = said.language ?? before.language;
    return { ...before, name, reachBy, email, telephone, postalAddress, home, language };
  }

  private record(tx: Tx, who: string, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who, aboutKind: 'sitting', aboutId, event, note });
  }
}
