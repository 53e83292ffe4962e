// What the owner's letter about the day ahead tells, gathered from what the front page goes by; and writing it when it is
// due. One transaction.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { timeInWords } from '../lib/words.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { EVENING, type Comes, type DayLetter, type DayLetterRule } from '../reminders/day-letter.schemas.js';
import { DayLetters } from '../reminders/day-letters.service.js';
import { studioFacts } from '../reminders/letter-facts.calc.js';
import { TelephoneService } from '../reminders/telephone.service.js';
import { RoomService } from '../room/room.service.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import { TeachingViews } from '../teaching/views.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { dueWithin } from './inbox-work.calc.js';
import { InboxService } from './inbox.service.js';

@Injectable()
export class NewsService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
    private readonly sittings: SittingViews,
    private readonly teaching: TeachingViews,
    private readonly calendar: TeachingCalendar,
    private readonly telephone: TelephoneService,
    private readonly inbox: InboxService,
    private readonly letters: DayLetters,
  ) {}

  /** The letter of a date, if it is due; without a date only the next one is seen to. May come twice. */
  async write(studioId: string, day?: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const date = day === undefined ? null : Temporal.PlainDate.from(day);
      const stands = date && (await this.letters.stands(tx, studio, date));
      // whoever gave it a later hour has put it on the queue for then
      if (stands === 'too early') return;
      if (date && stands === 'send')
        await this.letters.post(tx, studio, await this.gather(tx, studio, await this.letters.rule(tx), date));
      await this.letters.planNext(tx, studio);
    });
  }

  /** The rule, and what the letter would tell at this moment. */
  preview(studioId: string): Promise<{ rule: DayLetterRule; told: DayLetter }> {
    return this.db.inStudio(studioId, async (tx) => {
      const rule = await this.letters.rule(tx);
      const studio = await this.studios.load(tx);
      return { rule, told: await this.gather(tx, studio, rule, this.room.today(studio)) };
    });
  }

  /** @param today the date of the letter, also where it is written after midnight */
  private async gather(
    tx: Tx,
    studio: Studio,
    { hour }: DayLetterRule,
    today: Temporal.PlainDate,
  ): Promise<DayLetter> {
    const { due } = await this.inbox.due(tx, studio);
    const evening = hour >= EVENING;
    const tomorrow = today.add({ days: 1 });
    return {
      studio: studioFacts(studio),
      day: today.toString(),
      evening,
      today: evening ? [] : await this.whoComes(tx, studio, today),
      tomorrow: await this.whoComes(tx, studio, tomorrow),
      due: dueWithin(due, today).map(({ what, by }) => ({ what, by: by.toString() })),
      offers: await this.offers(tx, studio, tomorrow),
      calls: await this.calls(tx, studio),
    };
  }

  /** Firm places of a date, in the order of their hours. */
  private async whoComes(tx: Tx, studio: Studio, date: Temporal.PlainDate): Promise<Comes[]> {
    const { start, end } = dayBounds(studio.zone, date);
    const places = (await this.room.between(tx, start, end, this.clock.now()))
      .filter((one) => one.holds && !one.tentative && one.wallStart.toPlainDate().equals(date))
      .sort((a, b) => a.startsAt.epochMilliseconds - b.startsAt.epochMilliseconds);
    const ids = (kind: string) => places.filter((one) => one.kind === kind).map(({ heldFor }) => heldFor);
    const views = await this.sittings.byIds(tx, studio, ids('sitting'));
    const days = await this.calendar.days(tx, ids('teaching'));
    return places.flatMap(({ heldFor, wallStart }): Comes[] => {
      const at = timeInWords(wallStart);
      const view = views.find(({ sitting }) => sitting.id === heldFor);
      if (view) return [{ at, name: view.contact.name, learn: null }];
      const day = days.get(heldFor);
      return day ? [{ at, name: day.session.course.name, learn: day.session.taken }] : [];
    });
  }

  /** Offers that run out until the end of a date, of sittings and teaching days, the first first. */
  private async offers(tx: Tx, studio: Studio, until: Temporal.PlainDate): Promise<DayLetter['offers']> {
    const [now, end] = [this.clock.now(), dayBounds(studio.zone, until).end];
    const soon = (await this.waiting.unanswered(tx))
      .filter(
        ({ expiresAt }) =>
          Temporal.Instant.compare(expiresAt, now) > 0 && Temporal.Instant.compare(expiresAt, end) < 0,
      )
      .sort((a, b) => Temporal.Instant.compare(a.expiresAt, b.expiresAt));
    const ids = soon.map(({ forId }) => forId);
    const views = await this.sittings.byIds(tx, studio, ids);
    const learners = await this.teaching.owns(tx, ids);
    return soon.flatMap(({ forId, expiresAt }) => {
      const view = views.find(({ sitting }) => sitting.id === forId) ?? learners.get(forId);
      const wall = instantToWall(studio.zone, expiresAt);
      return view ? [{ name: view.contact.name, until: wall.toString() }] : [];
    });
  }

  private async calls(tx: Tx, studio: Studio): Promise<DayLetter['calls']> {
    const all = [...(await this.telephone.toTell(tx, studio)), ...(await this.telephone.teachingToTell(tx))];
    return all.map(({ view: { contact }, way }) => ({
      name: contact.name,
      telephone: way === 'letter' ? null : contact.telephone,
    }));
  }
}
