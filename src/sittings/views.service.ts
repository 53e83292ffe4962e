// Sittings as screens, mails and calendars need them: with contact, sitters, plates and place.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf } from '../platform/db/history.js';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { StockService } from '../stock/stock.service.js';
import type { PlateSize, SetAside } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { type JourneyGlance, journeyGlance } from '../travel/journey-glance.calc.js';
import { namesOn, type Sitting, type SittingView } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import type { SittingState } from './states.calc.js';

export interface BehindLink {
  studio: Studio;
  view: SittingView;
  /** The hour of its place has come. */
  begun: boolean;
  feedToken: string | null;
}

@Injectable()
export class SittingViews {
  private readonly store = new SittingsStore();
  private readonly known = new TogetherIn<{ studio: Studio; sittingId: string }, SittingView | undefined>(
    async (tx, asked) => {
      const { studio } = asked[0] as { studio: Studio };
      const ids = asked.map((one) => one.sittingId);
      const views = await this.byIds(tx, studio, ids);
      return ids.map((id) => views.find(({ sitting }) => sitting.id === id));
    },
    ({ sittingId }) => sittingId,
  );
  private readonly places = new TogetherIn<string, Occupancy | null>(async (tx, ids) => {
    const places = await this.room.byIds(tx, ids);
    return ids.map((id) => places.find((place) => place.id === id) ?? null);
  });

  constructor(
    private readonly db: Db,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly studios: StudiosService,
  ) {}

  /** Everything about some sittings, in the order given, in four statements however many there are. */
  async of(tx: Tx, studio: Studio, sittings: Sitting[]): Promise<SittingView[]> {
    const contactIds = [...new Set(sittings.map((one) => one.contactId))];
    const people = await this.people.withSitters(tx, contactIds);
    const plates = await this.store.plates(
      tx,
      sittings.map((one) => one.id),
    );
    const kinds = sittings.some((one) => one.kindId !== null) ? (await this.room.rules(tx)).kinds : [];
    const occupancyIds = sittings.flatMap((one) => one.occupancyId ?? []);
    const places = new Map((await this.room.byIds(tx, occupancyIds)).map((place) => [place.id, place]));
    return sittings.map((sitting) => {
      const asking = people.get(sitting.contactId);
      if (!asking) throw new Error(`Sitting ${sitting.id} has no contact.`);
      const { contact, sitters } = asking;
      let journey: JourneyGlance | null = null;
      return {
        sitting,
        contact,
        kind: kinds.find((one) => one.id === sitting.kindId) ?? null,
        sitters,
        plates: (plates.get(sitting.id) ?? []).map((plate) => ({
          ...plate,
          names: namesOn(plate, sitters),
        })),
        place: sitting.occupancyId ? (places.get(sitting.occupancyId) ?? null) : null,
        /** Reckoned when it is first asked for: sending a letter never asks. */
        get journey() {
          journey ??= contact.home && journeyGlance(contact.home, studio, contact.plan);
          return journey;
        },
      };
    });
  }

  async byId(tx: Tx, studio: Studio, sittingId: string): Promise<SittingView> {
    const view = await this.known.ask(tx, { studio, sittingId });
    if (!view) throw new AppError('not_found', 'This request is not known here.');
    return view;
  }

  /** Some sittings, in no order. */
  async byIds(tx: Tx, studio: Studio, ids: string[]): Promise<SittingView[]> {
    return this.of(tx, studio, await this.store.byIds(tx, ids));
  }

  /** The sittings of a contact, by id. */
  idsOf(tx: Tx, contactId: string): Promise<string[]> {
    return this.store.idsOf(tx, contactId);
  }

  /** The same, with a transaction of its own. */
  async some(studioId: string, ids: string[]): Promise<SittingView[]> {
    return this.db.inStudio(studioId, async (tx) => this.byIds(tx, await this.studios.load(tx), ids));
  }

  /** A place, whether a sitting still has it or not. */
  place(tx: Tx, occupancyId: string): Promise<Occupancy | null> {
    return this.places.ask(tx, occupancyId);
  }

  /** The sittings that have or had some occupancies, by occupancy id; for calendars. */
  async byOccupancies(tx: Tx, studio: Studio, occupancyIds: string[]): Promise<Map<string, SittingView>> {
    const behind = await this.store.byOccupancies(tx, occupancyIds);
    const sittings = new Map([...behind.values()].map((one) => [one.id, one]));
    const views = await this.of(tx, studio, [...sittings.values()]);
    const byId = new Map(views.map((view) => [view.sitting.id, view]));
    return new Map(
      [...behind].flatMap(([occupancyId, { id }]) => {
        const view = byId.get(id);
        return view ? [[occupancyId, view]] : [];
      }),
    );
  }

  /** All sittings in some states, the oldest request first; of the confirmed those that are not over, if an instant is given. */
  list(
    studioId: string,
    states: SittingState[],
    now: Temporal.Instant | null = null,
  ): Promise<{ studio: Studio; views: SittingView[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      return { studio, views: await this.inStates(tx, studio, states, now) };
    });
  }

  async inStates(
    tx: Tx,
    studio: Studio,
    states: SittingState[],
    now: Temporal.Instant | null = null,
  ): Promise<SittingView[]> {
    return this.of(tx, studio, await this.store.inStates(tx, states, now));
  }

  /** What the contact's own page shows. @throws AppError not_found, link_expired */
  async behind(tx: Tx, token: string): Promise<BehindLink> {
    const link = await this.links.open(tx, 'place', token);
    const studio = await this.studios.load(tx);
    const view = await this.byId(tx, studio, link.subjectId);
    const feed = await this.links.find(tx, 'feed', view.contact.id, 'sitter');
    const begun = view.place !== null && this.room.begun(view.place);
    return { studio, view, begun, feedToken: feed && this.links.token(feed) };
  }

  setAside(tx: Tx, sittingId: string): Promise<SetAside[]> {
    return this.stock.setAside(tx, sittingId);
  }

  /** Whether anybody was ever given a place. */
  anyConfirmed(tx: Tx): Promise<boolean> {
    return this.store.anyConfirmed(tx);
  }

  history(tx: Tx, sittingId: string): Promise<HistoryLine[]> {
    return historyOf(tx, sittingId);
  }

  plateSizes(tx: Tx): Promise<PlateSize[]> {
    return this.stock.plateSizes(tx);
  }
}
