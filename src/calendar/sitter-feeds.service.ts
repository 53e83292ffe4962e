// The places of one contact for their own feed: each leads to their page of it, with the journeys there and back where
// they asked for them.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import type { Tx } from '../platform/db/tx.js';
import { RoomService } from '../room/room.service.js';
import { SittingViews } from '../sittings/views.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { sitterEntry, stands } from './feeds.calc.js';
import type { CalendarEntry } from './ics.calc.js';
import type { FeedWindow } from './teaching-feeds.service.js';
import { travelEntries } from './travel-entries.calc.js';

@Injectable()
export class SitterFeeds {
  constructor(
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly people: PeopleService,
    private readonly links: LinksService,
  ) {}

  /** @param base the studio's address */
  async own(
    tx: Tx,
    studio: Studio,
    contactId: string,
    { from, until, cancelledSince }: FeedWindow,
    base: string,
  ): Promise<CalendarEntry[]> {
    const sittingIds = await this.views.idsOf(tx, contactId);
    const places = await this.room.between(tx, from, until, cancelledSince, sittingIds);
    const ids = places.map((place) => place.id);
    const views = await this.views.byOccupancies(tx, studio, ids);
    const links = await this.links.newest(tx, 'place', sittingIds);
    const shown = await this.people.travelShown(tx, contactId);
    return places.flatMap((place) => {
      const view = views.get(place.id);
      const link = view && links.get(view.sitting.id);
      const url = link ? `${base}/place/${this.links.token(link)}` : base;
      const entry = view && sitterEntry(place, view, studio, url);
      if (!view || !entry) return [];
      const visit = { ...place, standing: stands(place, view) };
      const traveller = { contact: view.contact, shown, cancelledSince };
      return [entry, ...travelEntries(visit, traveller, studio, `${url}/journey`)];
    });
  }
}
