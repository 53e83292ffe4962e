// People of the studio's old diary: on the waiting list with the day they asked on, or with the place they were promised.
// Nobody is told: they know. Its methods take the caller's transaction; whoever calls raises the calendar's counter.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { wallToInstant } from '../lib/zoned-time.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { PeopleService } from '../people/people.service.js';
import type { Contact } from '../people/people.schemas.js';
import { Clock, Random } from '../platform/clock.js';
import { historyOf, recordHistory, touchedSince } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { CLOSED_WORDS, type DayOfPlaces, RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import type { DiaryLine } from './diary.schemas.js';
import { LINK_DAYS_WITHOUT_A_DAY, PlacesService } from './places.service.js';
import { NO_MARKS, type Sitting } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { UndoStore } from './undo.store.js';

@Injectable()
export class DiaryService {
  private readonly store = new SittingsStore();
  private readonly acts = new UndoStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly places: PlacesService,
    private readonly gazetteer: Gazetteer,
  ) {}

  /** Everybody who has asked and was not answered for good. */
  async asking(tx: Tx): Promise<Contact[]> {
    const open = await this.store.inStates(tx, ['requested', 'waiting', 'offered', 'confirmed', 'lapsed']);
    return [
      ...(
        await this.people.contacts(
          tx,
          open.map((one) => one.contactId),
        )
      ).values(),
    ];
  }

  /**
   * Enters somebody, with their place where one was promised: the room is taken and the stock set aside.
   * @returns the sitting, and its start where it has one
   * @throws AppError not_an_opening, place_taken, short_of_stock
   */
  async enter(
    tx: Tx,
    studio: Studio,
    who: { name: string },
    line: DiaryLine,
  ): Promise<{ sittingId: string; wallStart: Temporal.PlainDateTime | null }> {
    const sitting = await this.insert(tx, studio, who, line);
    if (line.promised === null) return { sittingId: sitting.id, wallStart: null };
    // it was promised already, so no notice is asked
    const anyTime = { ...studio, leastNoticeDays: 0 };
    const wallStart = await this.startOn(tx, studio, line);
    const place = await this.places.take(tx, anyTime, sitting, wallStart);
    await this.places.turn(tx, sitting, {
      event: 'approve',
      who: who.name,
      note: wallStart.toString({ smallestUnit: 'minute' }),
      change: { message: '', occupancyId: place.id },
      tell: null,
    });
    await this.places.confirmed(tx, sitting, place);
    return { sittingId: sitting.id, wallStart };
  }

  /** The start that somebody was brought in with, since they know of it; null for everybody else. */
  async promised(tx: Tx, sittingId: string): Promise<string | null> {
    const [entered, given] = await historyOf(tx, sittingId);
    if (entered?.event !== 'bring_in' || given?.event !== 'approve') return null;
    // who came in without one, and was given a place here, hears of it from us
    return (await this.acts.isAct(tx, sittingId, 1)) ? null : given.note || null;
  }

  /** Those of some, as they were entered up to a line of history, with which something was done since. */
  async touched(tx: Tx, studio: Studio, sittingIds: string[], upTo: bigint): Promise<Set<string>> {
    const sittings = [...(await this.store.lockAll(tx, sittingIds)).values()];
    const spokenOf = await this.store.spokenOf(tx, sittingIds);
    const since = await touchedSince(tx, upTo, [...sittingIds, ...sittings.map((one) => one.contactId)]);
    const places = await this.room.byIds(
      tx,
      sittings.flatMap((one) => one.occupancyId ?? []),
    );
    const today = this.room.today(studio);
    const come = new Set(
      places
        .filter(({ wallStart }) => Temporal.PlainDate.compare(wallStart.toPlainDate(), today) <= 0)
        .map(({ heldFor }) => heldFor),
    );
    const kept = sittings.filter(({ id, contactId, state }) => {
      const moved = since.has(id) || since.has(contactId) || !['waiting', 'confirmed'].includes(state);
      return moved || spokenOf.has(id) || come.has(id);
    });
    return new Set(kept.map(({ id }) => id));
  }

  /** Takes people away as if they had never been entered; nothing may have been done with them since. */
  async remove(tx: Tx, studio: Studio, sittingIds: string[]): Promise<void> {
    const sittings = [...(await this.store.lockAll(tx, sittingIds)).values()];
    for (const sitting of sittings) {
      const [place] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      if (!place) continue;
      const change = { at: this.clock.now(), occupancyId: null };
      await this.store.setState(tx, sitting.id, sitting.state, 'waiting', change);
      await this.places.neverGiven(tx, studio, sitting.id, place);
    }
    const contactIds = sittings.map((one) => one.contactId);
    await this.links.forget(tx, [...sittingIds, ...contactIds]);
    await this.store.remove(tx, sittingIds);
    await this.people.remove(tx, contactIds);
  }

  private async insert(tx: Tx, studio: Studio, who: { name: string }, line: DiaryLine): Promise<Sitting> {
    const { name, reachBy, email, telephone, postalAddress } = line;
    const found = line.homeId === null ? null : this.gazetteer.byId(line.homeId);
    const home = found && { name: placeLabel(found), lat: found.lat, lon: found.lon, zone: found.zone };
    const names = Array.from({ length: line.sitters }, (_, at) =>
      at === 0 ? name : `${name}, person ${at + 1}`,
    );
    const { contact, sitters } = await this.people.enter(
      tx,
      { name, reachBy, email, telephone, postalAddress, home, language: LANGUAGE_OF_DESK },
      names.map((one) => one.slice(0, 200)),
    );
    const noon = wallToInstant(studio.zone, line.askedOn.toPlainDateTime({ hour: 12 }), 'earlier');
    const sitting: Sitting = {
      id: this.random.id(),
      contactId: contact.id,
      kindId: await this.usualKind(tx),
      state: 'waiting',
      askedAt: noon.ok ? noon.instant : this.clock.now(),
      decidedAt: null,
      suits: { kind: 'any', ...this.room.bookable(studio) },
      ...{ hopes: '', anything: line.note, message: '', occupancyId: null, turns: 0 },
      ...{ returnOwed: false, returnOf: null, offersUnanswered: 0, marks: NO_MARKS },
      details: { access: '', brings: '', minor: false, guardian: null },
    };
    const sitterIds = sitters.map((one) => one.id);
    const plates = Array.from({ length: line.plates }, () => ({
      ...{ id: this.random.id(), plateSizeId: line.plateSizeId, sitterIds },
    }));
    await this.store.insert(tx, sitting, plates);
    const expires = this.clock.now().add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
    await this.links.make(tx, 'place', sitting.id, expires);
    const about = { aboutKind: 'sitting', aboutId: sitting.id, event: 'bring_in' };
    await recordHistory(tx, this.clock, { who: who.name, ...about });
    return sitting;
  }

  /** The places of the day that was promised, for what is asked; null where nobody sits that day. */
  async dayOf(tx: Tx, studio: Studio, { promised, plates, sitters }: DiaryLine): Promise<DayOfPlaces | null> {
    if (!promised) return null;
    const range = { from: promised.day, until: promised.day };
    const asked = { plates, sitters, kindId: await this.usualKind(tx) };
    const [found] = await this.room.days(tx, { ...studio, leastNoticeDays: 0 }, range, asked);
    return found ?? null;
  }

  private async usualKind(tx: Tx): Promise<string | null> {
    const { kinds } = await this.room.rules(tx);
    return kinds.find((one) => one.offered === 'public')?.id ?? null;
  }

  /** The start that was promised; where only a day was, the first that is open. */
  private async startOn(tx: Tx, studio: Studio, line: DiaryLine): Promise<Temporal.PlainDateTime> {
    const { day, time } = line.promised ?? { day: line.askedOn, time: null };
    if (time) return day.toPlainDateTime(time);
    const found = await this.dayOf(tx, studio, line);
    const open = found?.openings.find((one) => !one.closed);
    if (open) return open.wallStart;
    const why = found?.openings.find((one) => one.closed)?.closed;
    throw new AppError(
      'not_an_opening',
      why ? `No place is open that day: ${CLOSED_WORDS[why]}.` : 'This is no day on which people sit.',
    );
  }
}
