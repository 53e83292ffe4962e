// Secret links at the owner's hand: making one, making it anew so that the old one stops, ending it.
import { Injectable } from '@nestjs/common';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import type { DeskFeed } from '../calendar/feeds.calc.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { PlacesService } from '../sittings/places.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { StudiosService } from '../studios/studios.service.js';

@Injectable()
export class DeskLinks {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly views: SittingViews,
    private readonly places: PlacesService,
  ) {}

  /** A further link; false where there is one of that kind and name already. */
  async addFeed(studioId: string, owner: Account, of: DeskFeed, name: string): Promise<boolean> {
    return this.db.inStudio(studioId, async (tx) => {
      const made = await this.links.makeFeed(tx, owner.id, of, name);
      if (made) await this.record(tx, owner, 'make', of, name);
      return made !== null;
    });
  }

  /** Ends a calendar link, or makes a new one in its place; false for one that is not theirs, or has ended. */
  async changeFeed(
    studioId: string,
    owner: Account,
    linkId: string,
    act: 'replace' | 'end',
  ): Promise<boolean> {
    return this.db.inStudio(studioId, async (tx) => {
      const link = (await this.links.feeds(tx, owner.id)).find(({ id }) => id === linkId);
      if (!link) return false;
      await (act === 'replace' ? this.links.renewFeed(tx, link) : this.links.revoke(tx, link));
      await this.record(tx, owner, act, link.kind, link.name);
      return true;
    });
  }

  private async record(tx: Tx, owner: Account, act: string, kind: string, name: string): Promise<void> {
    const note = name === '' ? kind : `${kind}: ${name}`;
    const about = { aboutKind: 'account', aboutId: owner.id, event: `${act} calendar link`, note };
    await recordHistory(tx, this.clock, { who: owner.name, ...about });
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
      if (feed) await this.links.renewFeed(tx, feed);
      await this.places.revise(tx, [sittingId]); // its entry leads to their page
      const about = { aboutKind: 'sitting', aboutId: sittingId };
      await recordHistory(tx, this.clock, { who: owner.name, ...about, event: 'new link' });
      await this.studios.raiseCalendarCounter(tx);
    });
  }
}
