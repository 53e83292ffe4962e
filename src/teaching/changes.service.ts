// Changing a teaching day that people may have signed up for: first what and whom it touches is shown, then exactly
// that is done, or it is shown again when something went on meanwhile.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { shortText } from '../people/ways.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { HoldingService } from '../room/holding.service.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Change, changeOf, touches, type Wanted } from './changes.calc.js';
import { minutesOf } from './course.schemas.js';
import { demonstrationNeeds, studentNeeds } from './estimate.calc.js';
import { LINK_DAYS_AFTER, type Locked, SeatsService } from './seats.service.js';
import { dateText, isMeant, meantText, timeText } from './sign-up.schemas.js';
import { SessionsService } from './sessions.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { hasPlaces, nextOfSession, stands } from './states.calc.js';
import type { Session, SignUp } from './teaching.schemas.js';

const whole = (least: number, most: number) => {
  const words = `Please give a whole number from ${least} to ${most}.`;
  return z.coerce.number(words).int(words).min(least, words).max(most, words);
};
export const wantedForm = z
  .object({
    day: dateText,
    time: timeText,
    places: whole(1, 40),
    least: whole(1, 40),
    decideOn: dateText,
    secondAdult: shortText(200).default(''),
    meant: meantText,
    renew: z.string().optional(),
  })
  .transform(
    ({ day, time, meant, renew, ...rest }): Wanted => ({
      ...rest,
      meant: isMeant(time, meant),
      wallStart: day.toPlainDateTime(time),
      renew: renew === 'yes',
    }),
  );

/** A change as it is shown: with the people it touches by name. */
export interface Preview {
  change: Change;
  before: Locked;
  touched: { name: string; students: string[]; state: SignUp['state'] }[];
  /** Stands for all that was shown. */
  hash: string;
}

const NO_WORDS = {
  'fewer than taken': { field: 'places', message: 'More people than that have a place, or are offered one.' },
  'least above places': { field: 'least', message: 'The least number is not more than the places.' },
  'nothing changes': { field: '', message: 'Nothing would change.' },
};

@Injectable()
export class TeachingChanges {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly holding: HoldingService,
    private readonly days: DaysService,
    private readonly seats: SeatsService,
    private readonly made: SessionsService,
  ) {}

  /** What a change would do, and to whom. @throws AppError bad_input, wrong_state once the day is over */
  async preview(studioId: string, sessionId: string, input: unknown): Promise<Preview> {
    const wanted = readInput(wantedForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      const shown = await this.look(tx, sessionId, wanted);
      if (shown.before.lapsed > 0) await this.studios.raiseCalendarCounter(tx);
      return shown;
    });
  }

  /**
   * Does what was shown. @returns null when it was done, or what is to be shown now since something went on meanwhile
   * @throws AppError bad_input, wrong_state, not_an_opening, place_taken, short_of_stock
   */
  async confirm(
    studioId: string,
    who: { name: string },
    sessionId: string,
    input: unknown,
    hash: string,
  ): Promise<Preview | null> {
    const wanted = readInput(wantedForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      const shown = await this.look(tx, sessionId, wanted);
      if (shown.hash !== hash) {
        if (shown.before.lapsed > 0) await this.studios.raiseCalendarCounter(tx);
        return shown;
      }
      await this.carryOut(tx, shown);
      const note = shown.change.what.join(', ');
      const about = { who: who.name, aboutKind: 'teaching', aboutId: sessionId, event: 'changed', note };
      await recordHistory(tx, this.clock, about);
      await this.studios.raiseCalendarCounter(tx);
      return null;
    });
  }

  private async look(tx: Tx, sessionId: string, wanted: Wanted): Promise<Preview> {
    const before = await this.seats.lock(tx, sessionId);
    if (!stands(before.session.state)) throw new AppError('wrong_state', 'This day is over, or called off.');
    const template = (await this.sessions.templates(tx)).find(({ id }) => id === before.session.templateId);
    const change = changeOf(before.session, before.place.wallStart, template, wanted);
    if (change.moves) this.holding.check(before.studio, placeOf(change, wanted.meant));
    if (change.no) throw new AppError('bad_input', NO_WORDS[change.no].message, [NO_WORDS[change.no]]);
    const signUps = await this.signUps.ofSessions(tx, [sessionId]);
    const concerned = signUps.filter(({ state }) => touches(change, state));
    const contacts = await this.people.contacts(
      tx,
      concerned.map(({ contactId }) => contactId),
    );
    const students = await this.signUps.students(
      tx,
      concerned.map(({ id }) => id),
    );
    const touched = concerned.map(({ id, contactId, state }) => ({
      name: contacts.get(contactId)?.name ?? '',
      students: students.filter(({ signUpId }) => signUpId === id).map(({ name }) => name),
      state,
    }));
    const told = [
      before.session,
      before.place.wallStart.toString(),
      change.after,
      wanted.wallStart.toString(),
    ];
    const all = JSON.stringify([...told, concerned.map(({ id, state }) => [id, state])]);
    return { change, before, touched, hash: createHash('sha256').update(all).digest('base64url') };
  }

  private async carryOut(tx: Tx, { change, before }: Preview): Promise<void> {
    const { studio, session, place } = before;
    const { after } = change;
    const signUps = await this.signUps.ofSessions(tx, [session.id]);
    const held = signUps.filter(({ state }) => hasPlaces(state));
    const students = await this.signUps.students(
      tx,
      held.map(({ id }) => id),
    );
    const opened = session.state !== 'draft';
    const oldDay = place.wallStart.toPlainDate();
    await this.sessions.save(tx, after);
    await this.seats.revise(tx, session.id);
    let now = place;
    if (change.moves) {
      const given = await this.room.giveBack(tx, session.occupancyId, false);
      const asked = { heldFor: session.id, title: place.title, ...placeOf(change, true) }; // as it was shown
      // what was set aside goes while the room is free: the day may keep nothing of its own any more
      if (change.restocks)
        await this.days.releaseAll(tx, studio, [session.id, ...students.map(({ id }) => id)], oldDay);
      now = await this.holding.takeInstead(tx, studio, given, asked);
    } else if (change.restocks)
      await this.days.releaseAll(tx, studio, [session.id, ...students.map(({ id }) => id)], oldDay);
    if (opened) await this.made.checkCyanide(tx, after);
    if (change.restocks && opened) {
      const facts = await this.seats.shelf(tx, studio);
      const all = [
        { heldFor: session.id, needs: demonstrationNeeds(after.course, facts) },
        ...students.map((one) => ({ heldFor: one.id, needs: studentNeeds(after.course, one, facts) })),
      ];
      await this.days.reserveAll(tx, studio, all, now.wallStart.toPlainDate());
    }
    if (opened && change.moves)
      await this.jobs.enqueue(
        tx,
        'teaching.ended',
        { sessionId: session.id },
        { key: session.id, runAt: now.endsAt },
      );
    await this.count(tx, session, after.places);
    for (const signUp of signUps.filter(({ state }) => touches(change, state))) {
      if (signUp.state === 'signed')
        await this.links.setExpiry(tx, 'place', signUp.id, now.endsAt.add({ hours: 24 * LINK_DAYS_AFTER }));
      await this.seats.tell(
        tx,
        signUp.id,
        'changed',
        await this.signUps.countTurn(tx, signUp.id, this.clock.now()),
      );
    }
  }

  /** More or fewer places may make a day full, or open it again; more are there for who waits. */
  private async count(tx: Tx, { id, state, taken, places }: Session, now: number): Promise<void> {
    const next = nextOfSession(state, taken >= now ? 'fill' : 'free');
    if (next !== null) await this.sessions.setState(tx, id, next);
    if (now <= places) return;
    await this.sessions.setFreed(tx, id, this.clock.now());
    await this.seats.passOn(tx, id);
  }
}

const placeOf = ({ wallStart, after }: Change, meant: boolean) => ({
  ...{ wallStart, meant },
  minutes: minutesOf(after.course),
});
