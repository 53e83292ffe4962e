// Secret links at the owner's hand: making one, making it anew so that the old one stops, ending it.
import { Injectable } from '@nestjs/common';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import type { DeskFeed } from '../calendar/feeds.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { AppError } from '../platform/problems.js';
import { SittingViews } from '../sittings/views.service.js';
import { StudiosService } from '../studios/studios.service.js';

export const CALENDAR_ACTS = ['make', 'replace', 'end'] as const;
export type CalendarAct = (typeof CALENDAR_ACTS)[number];

@Injectable()
export class DeskLinks {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly views: SittingViews,
  ) {}

  /**
   * A calendar link at the owner's hand: of all, of tasks, or for the assistant. One that is not there is neither replaced nor ended, and one that
   * is there is not made again.
   * @returns whether anything was done
   */
  async calendar(studioId: string, owner: Account, of: DeskFeed, act: CalendarAct): Promise<boolean> {
    return this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.find(tx, 'feed', owner.id, of);
      if (act === 'make') {
        if (link) return false;
        await this.links.ensure(tx, 'feed', owner.id, of);
      } else {
        if (!link) return false;
        await (act === 'replace' ? this.links.replace(tx, link) : this.links.revoke(tx, link));
      }
      const about = { aboutKind: 'account', aboutId: owner.id, note: of };
      await recordHistory(tx, this.clock, { who: owner.name, ...about, event: `${act} calendar link` });
      return true;
    });
  }

  /**
   * Makes the links of whoever asked anew: that of their page and that of their calendar. The old ones stop.
   * @throws AppError not_found, link_expired when their page has run out anyway
   */
  async replacePlace(studioId: string, owner: Account, sittingId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const view = await this.views.byId(tx, await this.studios.load(tx), sittingId);
      const link = await this.links.find(tx, 'place', sittingId);
      if (!link) throw new AppError('link_expired');
      await this.links.replace(tx, link);
      const feed = await this.links.find(tx, 'feed', view.contact.id, 'sitter');
      if (feed) await this.links.replace(tx, feed);
      const about = { aboutKind: 'sitting', aboutId: sittingId };
      await recordHistory(tx, this.clock, { who: owner.name, ...about, event: 'new link' });
    });
  }
}
