// A sitter's own calendar: its address made anew, and whether the journeys stand in it.
import { Injectable } from '@nestjs/common';
import type { Link } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { type OwnCalendarAct, ownCalendarForm } from '../people/own-calendar.schemas.js';
import type { Contact } from '../people/people.schemas.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { SittingViews } from './views.service.js';

@Injectable()
export class OwnCalendarService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly views: SittingViews,
  ) {}

  /** What their calendar's page shows. @throws AppError not_found also while there is no calendar, link_expired */
  async show(
    studioId: string,
    token: string,
  ): Promise<{ feedToken: string; contact: Contact; travel: boolean }> {
    return this.db.inStudio(studioId, async (tx) => {
      const { contact, feed } = await this.behind(tx, token);
      const { shown } = await this.people.travelShown(tx, contact.id);
      return { feedToken: this.links.token(feed), contact, travel: shown };
    });
  }

  /** One act on it; asked for once more, nothing is wrong. @throws AppError not_found, link_expired, bad_input */
  async act(studioId: string, token: string, input: unknown): Promise<OwnCalendarAct> {
    return this.db.inStudio(studioId, async (tx) => {
      const { sittingId, contact, feed } = await this.behind(tx, token);
      const { do: act } = readInput(ownCalendarForm, input);
      if (act === 'replace') await this.links.renewFeed(tx, feed);
      else if (!(await this.people.showTravel(tx, contact.id, act === 'journeys'))) return act;
      const about = {
        who: 'contact',
        aboutKind: 'sitting',
        aboutId: sittingId,
        event: 'own calendar',
        note: act,
      };
      await recordHistory(tx, this.clock, about);
      await this.studios.raiseCalendarCounter(tx);
      return act;
    });
  }

  private async behind(tx: Tx, token: string): Promise<{ sittingId: string; contact: Contact; feed: Link }> {
    const { subjectId } = await this.links.open(tx, 'place', token);
    const { contact } = await this.views.byId(tx, await this.studios.load(tx), subjectId);
    const feed = await this.links.find(tx, 'feed', contact.id, 'sitter');
    if (!feed) throw new AppError('not_found', 'There is a calendar to follow once you have a place.');
    return { sittingId: subjectId, contact, feed };
  }
}
