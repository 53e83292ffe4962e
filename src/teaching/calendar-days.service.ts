// What calendars show of teaching: the studio's days with who comes, the days anybody may know, the days of one person.
// It changes nothing and writes no calendar.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { PeopleService } from '../people/people.service.js';
import type { Tx } from '../platform/db/tx.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import type { DayView, DayWithPeople, OwnDay } from './day-views.schemas.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { hasPlaces } from './states.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

@Injectable()
export class TeachingCalendar {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly people: PeopleService,
    private readonly room: RoomService,
  ) {}

  /** Some days by id, with those who have a place or are offered one. Four statements however many. */
  async days(tx: Tx, sessionIds: string[]): Promise<Map<string, DayWithPeople>> {
    const sessions = await this.sessions.byIds(tx, sessionIds);
    const all = await this.signUps.ofSessions(tx, sessionIds);
    const coming = all.filter(({ state }) => hasPlaces(state) || state === 'attended');
    const contacts = await this.people.contacts(
      tx,
      coming.map(({ contactId }) => contactId),
    );
    const students = await this.students(tx, coming);
    return new Map(
      sessions.map((session) => [
        session.id,
        {
          session,
          signUps: coming.flatMap((signUp) => {
            const contact = contacts.get(signUp.contactId);
            const here = signUp.sessionId === session.id;
            return contact && here ? [{ signUp, contact, students: students.get(signUp.id) ?? [] }] : [];
          }),
        },
      ]),
    );
  }

  /** The days that anybody may know between two instants, and those called off no earlier than a third. */
  async published(
    tx: Tx,
    from: Temporal.Instant,
    until: Temporal.Instant,
    cancelledSince: Temporal.Instant,
  ): Promise<DayView[]> {
    const sessions = await this.sessions.published(tx, from, until, cancelledSince);
    const places = await this.placesOf(tx, sessions);
    return sessions.flatMap((session) => {
      const place = places.get(session.occupancyId);
      return place ? [{ session, place }] : [];
    });
  }

  /** All days for which a contact has, or had, a place. */
  async ofContact(tx: Tx, contactId: string): Promise<OwnDay[]> {
    const signUps = await this.signUps.firmOf(tx, contactId);
    const sessions = await this.sessions.byIds(
      tx,
      signUps.flatMap(({ sessionId }) => sessionId ?? []),
    );
    const places = await this.placesOf(tx, sessions);
    const students = await this.students(tx, signUps);
    return signUps.flatMap((signUp) => {
      const session = sessions.find(({ id }) => id === signUp.sessionId);
      const place = session && places.get(session.occupancyId);
      return session && place ? [{ signUp, session, place, students: students.get(signUp.id) ?? [] }] : [];
    });
  }

  /** The sign-ups with a place on a day that is not over at an instant, by id. */
  async coming(tx: Tx, at: Temporal.Instant): Promise<string[]> {
    const sessions = await this.sessions.inStates(tx, ['open', 'full'], at);
    const all = await this.signUps.ofSessions(
      tx,
      sessions.map(({ id }) => id),
    );
    return all.flatMap(({ id, state }) => (state === 'signed' ? [id] : []));
  }

  private async placesOf(tx: Tx, sessions: Session[]): Promise<Map<string, Occupancy>> {
    const places = await this.room.byIds(
      tx,
      sessions.map(({ occupancyId }) => occupancyId),
    );
    return new Map(places.map((place) => [place.id, place]));
  }

  private async students(tx: Tx, signUps: SignUp[]): Promise<Map<string, Student[]>> {
    const all = await this.signUps.students(
      tx,
      signUps.map(({ id }) => id),
    );
    return new Map(signUps.map(({ id }) => [id, all.filter(({ signUpId }) => signUpId === id)]));
  }
}
