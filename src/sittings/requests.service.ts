// Asking for a sitting, and giving it up again: the acts of the contact.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { once, requestKey } from '../platform/idempotency.js';
import { Jobs } from '../platform/jobs/registry.js';
import { fieldProblems, readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import type { Purpose } from './consents.calc.js';
import { ConsentsService } from './consents.service.js';
import { kindDayProblems } from './kind-days.calc.js';
import { isForMinor, type SittingRequest, sittingRequest } from './request.schemas.js';
import { LINK_DAYS_WITHOUT_A_DAY, PlacesService } from './places.service.js';
import { NO_MARKS, type Sitting } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { givingUp, next } from './states.calc.js';
import { VoucherBook } from './voucher-book.service.js';

const asked = z.object({ sittingId: z.uuid(), linkId: z.uuid() });

@Injectable()
export class RequestsService {
  private readonly store = new SittingsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly places: PlacesService,
    private readonly gazetteer: Gazetteer,
    private readonly vouchers: VoucherBook,
    private readonly consents: ConsentsService,
  ) {}

  /**
   * Enters a request. The same key and request again gives the same answer and enters nothing.
   * @returns the sitting and the secret of the contact's own page
   * @throws AppError bad_input with a sentence per field, same_key_other_request
   */
  async ask(studioId: string, input: unknown, key: string): Promise<{ sittingId: string; token: string }> {
    const request = readInput(sittingRequest, input);
    const goodKey = readInput(z.object({ key: requestKey }), { key }).key;
    return this.db.inStudio(studioId, async (tx) => {
      const done = await once(tx, this.clock, { name: 'ask', key: goodKey, request: input }, asked, () =>
        this.enter(tx, request),
      );
      const link = await this.links.byId(tx, done.linkId);
      if (!link) throw new AppError('not_found');
      return { sittingId: done.sittingId, token: this.links.token(link) };
    });
  }

  /**
   * Gives a request or a place up: the room and the stock are free at once, calendars and mail follow.
   * With a key, the same once more is no mistake.
   * @throws AppError wrong_state when there is nothing to give up (any more), same_key_other_request
   */
  async giveUp(studioId: string, token: string, key?: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.open(tx, 'place', token);
      const act = () => this.release(tx, link.subjectId);
      if (key === undefined) await act();
      else await once(tx, this.clock, { name: 'give up', key, request: link.id }, z.null(), act);
    });
  }

  /**
   * The same of a confirmed place, for somebody who says so on the telephone; it can be undone for a while.
   * @throws AppError wrong_state when there is no place to give back (any more), or its hour has come
   */
  async giveBackFor(studioId: string, who: Account, sittingId: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.release(tx, sittingId, who));
  }

  /** @param desk who typed it in for them; only a place is given back so */
  private async release(tx: Tx, sittingId: string, desk?: Account): Promise<null> {
    const at = this.clock.now();
    const { studio, sitting, lapsed } = await this.places.lock(tx, sittingId, at);
    const event = desk && !next(sitting.state, 'release') ? null : givingUp(sitting.state);
    const who = desk?.name ?? 'contact';
    if (!event) throw new AppError('wrong_state', 'This was given up already, or answered in the meantime.');
    const [held] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
    if (held && this.room.begun(held))
      throw new AppError(
        'wrong_state',
        'The hour of this sitting has come; it cannot be given back any more.',
      );
    await this.places.settle(tx, sitting, 'withdrawn', at, who);
    const place = await this.places.free(tx, studio, sitting, desk ? 'later' : true);
    const tell = event === 'release' ? 'released' : 'withdrawn';
    await this.places.turn(tx, sitting, { event, who, tell, ...(desk && { undoable: 'release' as const }) });
    if (place || lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    return null;
  }

  /**
   * Enters what somebody asked for on the telephone, once for a key, with what the caller agreed to.
   * @returns the sitting @throws AppError bad_input with a sentence per field, same_key_other_request
   */
  async typeIn(
    studioId: string,
    who: { name: string },
    input: unknown,
    { key, agreed }: { key: string; agreed: { purpose: Purpose; version: number }[] },
  ): Promise<string> {
    const request = readInput(sittingRequest, input);
    const kept = { name: 'type in', key, request: { input, agreed } };
    return this.db.inStudio(studioId, async (tx) => {
      const done = await once(tx, this.clock, kept, asked, async () => {
        const entered = await this.enter(tx, request, who.name);
        await this.consents.told(tx, who, entered.sittingId, agreed);
        return entered;
      });
      return done.sittingId;
    });
  }

  /** Enters a request as part of a caller's transaction. @throws AppError bad_input with a sentence per field */
  async askIn(tx: Tx, input: unknown): Promise<{ sittingId: string }> {
    return this.enter(tx, readInput(sittingRequest, input));
  }

  /** All that is wrong with a request that may not be whole yet; nothing is entered. */
  async check(tx: Tx, input: Record<string, unknown>): Promise<FieldProblem[]> {
    const parsed = sittingRequest.safeParse(input);
    const { suits, plates, kindId, homeId, voucher } = sittingRequest.shape;
    const part = <S extends z.ZodType>(schema: S, value: unknown): z.output<S> | undefined =>
      schema.safeParse(value).data;
    const offered = await this.offered(tx, {
      suits: part(suits, input.suits),
      plates: part(plates, input.plates),
      kindId: part(kindId, input.kindId),
      homeId: part(homeId, input.homeId),
      voucher: part(voucher, input.voucher),
    });
    return [...(parsed.success ? [] : fieldProblems(parsed.error)), ...offered.problems];
  }

  /** The kind a request is of, null where the studio has named none, and what the studio does not offer of it. */
  private async offered(
    tx: Tx,
    asked: {
      [key in 'suits' | 'plates' | 'kindId' | 'homeId' | 'voucher']?: SittingRequest[key] | undefined;
    },
  ): Promise<{ kindId: string | null; problems: FieldProblem[] }> {
    const sizes = (await this.stock.plateSizes(tx)).filter((size) => size.offered).map((size) => size.id);
    const studio = await this.studios.load(tx);
    const problems: FieldProblem[] = asked.suits ? this.room.dayProblems(studio, asked.suits) : [];
    if (asked.homeId !== undefined && !this.gazetteer.byId(asked.homeId))
      problems.push({
        field: 'homeId',
        message: 'This place is not known here; please choose one from the list.',
      });
    (asked.plates ?? []).forEach((plate, position) => {
      if (!sizes.includes(plate.plateSizeId))
        problems.push({
          field: `plates/${position}/plateSizeId`,
          message: 'The studio does not make plates of this size.',
        });
    });
    const kinds = (await this.room.rules(tx)).kinds.filter((one) => one.offered === 'public');
    const kindId = asked.kindId ?? kinds[0]?.id ?? null;
    const kind = kinds.find((one) => one.id === kindId);
    if (kindId !== null && !kind)
      problems.push({ field: 'kindId', message: 'Please choose one of the kinds of sitting.' });
    if (kind && asked.suits) problems.push(...kindDayProblems(kind, asked.suits));
    const voucher = asked.voucher ? await this.vouchers.problemOf(tx, asked.voucher) : null;
    if (voucher !== null) problems.push({ field: 'voucher', message: voucher });
    return { kindId, problems };
  }

  /** @param typedBy who typed it in for somebody at the telephone */
  private async enter(tx: Tx, request: SittingRequest, typedBy?: string): Promise<z.output<typeof asked>> {
    const { kindId, problems } = await this.offered(tx, request);
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
    const home = this.gazetteer.byId(request.homeId);
    const { contact, sitters } = await this.people.enter(
      tx,
      {
        name: request.name,
        reachBy: request.reachBy,
        email: request.email,
        telephone: request.telephone,
        postalAddress: request.postalAddress,
        language: request.language,
        home: home && {
          name: placeLabel(home),
          lat: home.lat,
          lon: home.lon,
          zone: home.zone,
        },
      },
      request.sitters,
      request.bands,
    );
    const sitting: Sitting = {
      id: this.random.id(),
      contactId: contact.id,
      kindId,
      state: 'requested',
      askedAt: this.clock.now(),
      decidedAt: null,
      suits: request.suits,
      hopes: request.hopes,
      anything: request.anything,
      message: '',
      occupancyId: null,
      turns: 0,
      returnOwed: false,
      returnOf: null,
      offersUnanswered: 0,
      marks: NO_MARKS,
      details: {
        access: request.access,
        brings: request.brings,
        minor: isForMinor(request),
        guardian: request.guardian,
      },
    };
    const plates = request.plates.map((plate) => ({
      id: this.random.id(),
      plateSizeId: plate.plateSizeId,
      sitterIds: plate.sitters.flatMap((position) => sitters[position]?.id ?? []),
    }));
    await this.store.insert(tx, sitting, plates);
    const expires = this.clock.now().add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
    const link = await this.links.make(tx, 'place', sitting.id, expires);
    if (request.voucher !== '') {
      const by = { who: typedBy ?? 'contact', knows: typedBy === undefined };
      await this.vouchers.bind(tx, request.voucher, sitting.id, by);
    }
    // Whoever is still at the telephone has been told.
    if (typedBy === undefined || request.reachBy !== 'telephone') {
      const told = { sittingId: sitting.id, change: 'asked', sequence: 0 } as const;
      await this.jobs.enqueue(tx, 'place.changed', told, { key: `${sitting.id}:asked` });
    }
    await recordHistory(tx, this.clock, {
      who: typedBy ?? 'contact',
      aboutKind: 'sitting',
      aboutId: sitting.id,
      event: typedBy === undefined ? 'ask' : 'type_in',
    });
    return { sittingId: sitting.id, linkId: link.id };
  }
}
