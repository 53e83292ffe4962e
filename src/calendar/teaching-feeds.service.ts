// Teaching days for feeds: gathers what each may show of them within its window.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import type { Tx } from '../platform/db/tx.js';
import type { Studio } from '../studios/studios.schemas.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { DayWithPeople } from '../teaching/day-views.schemas.js';
import type { Language } from '../words/languages.js';
import type { CalendarEntry } from './ics.calc.js';
import { hasDay, publicTeachingEntry, signUpRevision, studentEntry } from './teaching-feeds.calc.js';
import { travelEntries } from './travel-entries.calc.js';

/** The time that a feed goes by. */
export interface FeedWindow {
  from: Temporal.Instant;
  until: Temporal.Instant;
  cancelledSince: Temporal.Instant;
}

@Injectable()
export class TeachingFeeds {
  constructor(
    private readonly teaching: TeachingCalendar,
    private readonly people: PeopleService,
    private readonly links: LinksService,
  ) {}

  /** Days by id, for the entries of places that teaching has. */
  days(tx: Tx, sessionIds: string[]): Promise<Map<string, DayWithPeople>> {
    return this.teaching.days(tx, sessionIds);
  }

  /** @param base the studio's address */
  async published(
    tx: Tx,
    studio: Studio,
    window: FeedWindow,
    base: string,
    language: Language,
  ): Promise<CalendarEntry[]> {
    const days = await this.teaching.published(tx, window.from, window.until, window.cancelledSince);
    return days.map((day) =>
      publicTeachingEntry(day, studio, `${base}/teaching/${day.session.id}`, language),
    );
  }

  /** The days of one contact, each leading to their page of it, with the journeys there and back where they asked for them. */
  async own(
    tx: Tx,
    studio: Studio,
    contactId: string,
    { from, until, cancelledSince }: FeedWindow,
    base: string,
  ): Promise<{ language: Language; entries: CalendarEntry[] }> {
    const days = await this.teaching.ofContact(tx, contactId);
    const own = days.filter(
      ({ place, signUp }) =>
        Temporal.Instant.compare(place.endsAt, from) > 0 &&
        Temporal.Instant.compare(place.startsAt, until) < 0 &&
        (hasDay(signUp) ||
          Temporal.Instant.compare(signUpRevision(signUp, place).revisedAt, cancelledSince) >= 0),
    );
    const links = await this.links.newest(
      tx,
      'place',
      own.map(({ signUp }) => signUp.id),
    );
    const contact = await this.people.contact(tx, contactId);
    const shown = await this.people.travelShown(tx, contactId);
    const { language } = contact;
    const entries = own.flatMap((day) => {
      const { signUp, place } = day;
      const link = links.get(signUp.id);
      const url = link ? `${base}/student/${this.links.token(link)}` : `${base}/teaching`;
      const visit = {
        startsAt: place.startsAt,
        endsAt: place.endsAt,
        createdAt: place.createdAt,
        uid: signUp.id,
        ...signUpRevision(signUp, place),
        standing: hasDay(signUp),
      };
      const journeys = travelEntries(visit, { contact, shown, cancelledSince }, studio, `${url}/journey`);
      return [studentEntry(day, studio, url, language), ...journeys];
    });
    return { language, entries };
  }
}
