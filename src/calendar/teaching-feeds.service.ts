// Teaching days for feeds: gathers what each may show of them within its window.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import type { Studio } from '../studios/studios.schemas.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { DayWithPeople } from '../teaching/day-views.schemas.js';
import type { CalendarEntry } from './ics.calc.js';
import { hasDay, publicTeachingEntry, signUpRevision, studentEntry } from './teaching-feeds.calc.js';

/** The time that a feed goes by. */
export interface FeedWindow {
  from: Temporal.Instant;
  until: Temporal.Instant;
  cancelledSince: Temporal.Instant;
}

@Injectable()
export class TeachingFeeds {
  constructor(private readonly teaching: TeachingCalendar) {}

  /** Days by id, for the entries of places that teaching has. */
  days(tx: Tx, sessionIds: string[]): Promise<Map<string, DayWithPeople>> {
    return this.teaching.days(tx, sessionIds);
  }

  /** @param base the studio's address */
  async published(tx: Tx, studio: Studio, window: FeedWindow, base: string): Promise<CalendarEntry[]> {
    const days = await this.teaching.published(tx, window.from, window.until, window.cancelledSince);
    return days.map((day) => publicTeachingEntry(day, studio, `${base}/teaching/${day.session.id}`));
  }

  /** The days of one contact. Their page has a secret address, so an entry leads to the studio's only. */
  async own(
    tx: Tx,
    studio: Studio,
    contactId: string,
    { from, until, cancelledSince }: FeedWindow,
    base: string,
  ): Promise<CalendarEntry[]> {
    const days = await this.teaching.ofContact(tx, contactId);
    return days
      .filter(
        ({ place, signUp }) =>
          Temporal.Instant.compare(place.endsAt, from) > 0 &&
          Temporal.Instant.compare(place.startsAt, until) < 0 &&
          (hasDay(signUp) ||
            Temporal.Instant.compare(signUpRevision(signUp, place).revisedAt, cancelledSince) >= 0),
      )
      .map((day) => studentEntry(day, studio, `${base}/teaching`));
  }
}
