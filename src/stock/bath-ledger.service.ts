// Writing into the ledger of a bath: a reading becomes a strength, plates an area, and a state changes with its line.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Account } from '../accounts/accounts.schemas.js';
import {
  type HydrometerAnswer,
  strengthByDensity,
  strengthByTitration,
} from '../chemistry/bath-density.calc.js';
import { plateAreaUm2 } from '../chemistry/plate-sizes.calc.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { poured } from './acts.calc.js';
import { ActsService } from './acts.service.js';
import {
  acidityForm,
  caredForm,
  hydrometerForm,
  measuredForm,
  noteForm,
  pouredForm,
  stateForm,
  titrationForm,
  toppedUpForm,
} from './bath-forms.schemas.js';
import { type Bath, type BathEvent, plainEvent } from './baths.schemas.js';
import { BathsStore } from './baths.store.js';
import { LotsStore } from './lots.store.js';
import type { Lot, PlateSize } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { moreThanFull } from './words.calc.js';

const DOING = ['measured', 'topped up', 'poured', 'cared', 'state', 'acidity', 'note'] as const;
const doing = z.object({ do: z.enum(DOING, 'Please choose what happened.') });

type Line = Pick<BathEvent, 'id' | 'bathId' | 'who'>;

@Injectable()
export class BathLedgerService {
  private readonly store = new BathsStore();
  private readonly lots = new LotsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly acts: ActsService,
  ) {}

  /**
   * Writes one line, as `do` says. The same id twice is one line.
   * @throws AppError bad_input, not_found, not_allowed for an assistant who retires a bath,
   * same_key_other_request where the id is another line's
   */
  enter(studioId: string, who: Account, bathId: string, eventId: string, input: unknown): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      const bath = (await this.store.locked(tx, bathId)) ?? unknown();
      const sizes = await this.stock.plateSizes(tx);
      const event = eventOf(input, { id: eventId, bathId, who: who.name }, sizes);
      const today = this.room.today(await this.studios.load(tx));
      if (Temporal.PlainDate.compare(event.day, today) > 0)
        throw problem('day', 'This is still to come; the ledger is about what was done.');
      if (event.volume !== null && event.volume > bath.volume)
        throw problem('volume', moreThanFull(bath.volume));
      if (event.state === 'retired' && who.role !== 'owner') throw new AppError('not_allowed');
      if (!(await this.add(tx, event))) return;
      const newest = Temporal.PlainDate.compare(event.day, bath.stateSince) >= 0; // one written up late tells of before
      if (event.kind === 'state' && event.state !== null && newest)
        await this.store.setState(tx, bath.id, {
          state: event.state,
          stateSince: event.day,
          stateUntil: event.until,
        });
      if (event.kind === 'topped up' && readInput(toppedUpForm, input).fromLot)
        await this.takeCrystals(tx, bath, event);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Takes a line back that was a slip; crystals that a top-up took from a bottle are in it again.
   * @returns what kind of line it was, and whether something went back into a bottle
   * @throws AppError not_found, wrong_state for one that cannot be taken back
   */
  takeBack(
    studioId: string,
    who: { name: string },
    bathId: string,
    eventId: string,
  ): Promise<{ kind: BathEvent['kind']; putBack: boolean }> {
    return this.db.inStudio(studioId, async (tx) => {
      const bath = (await this.store.locked(tx, bathId)) ?? unknown();
      const events = await this.store.events(tx, [bathId]);
      const event = events.find((one) => one.id === eventId);
      if (!event) throw new AppError('not_found', 'This line is not in the ledger.');
      if (
        ['made', 'state', 'taken back'].includes(event.kind) ||
        events.some((one) => one.takesBack === eventId)
      )
        throw new AppError('wrong_state', 'This line cannot be taken back.');
      await this.takeBackIn(tx, who, event);
      const moved = event.kind === 'topped up' ? await this.lots.movedIn(tx, eventId) : [];
      const used = moved.map(({ lotId, quantity }) => ({ lotId, quantity: -quantity }));
      const reason = `A topping up of ${bath.name} was taken back`;
      if (used.length > 0) await this.stock.putBack(tx, used, who.name, reason);
      await this.studios.raiseCalendarCounter(tx);
      return { kind: event.kind, putBack: used.length > 0 };
    });
  }

  /** The same in the caller's transaction, who raises the calendar's counter. */
  async takeBackIn(
    tx: Tx,
    who: { name: string },
    { id, bathId, day }: Pick<BathEvent, 'id' | 'bathId' | 'day'>,
  ): Promise<void> {
    const line = { id: this.random.id(), bathId, day, who: who.name };
    await this.store.addEvent(tx, { ...plainEvent('taken back', line), takesBack: id }, this.clock.now());
  }

  /**
   * Plates that went through a bath (area in square micrometres), for whoever types in a day. The same id twice is
   * one line; a line is corrected by taking it back. The caller raises the calendar's counter.
   * @throws AppError not_found
   */
  async pour(
    tx: Tx,
    who: { name: string },
    said: Pick<BathEvent, 'id' | 'bathId' | 'day'> & { area: bigint; plates: number },
  ): Promise<void> {
    if (!(await this.store.locked(tx, said.bathId))) unknown();
    const { area, plates, ...line } = said;
    await this.add(tx, { ...plainEvent('poured', { ...line, who: who.name }), area, plates });
  }

  /** A line of a bath's ledger; null where it was taken back. The bath is locked. */
  async standing(tx: Tx, bathId: string, eventId: string): Promise<BathEvent | null> {
    await this.store.locked(tx, bathId);
    const events = await this.store.events(tx, [bathId]);
    if (events.some((one) => one.takesBack === eventId)) return null;
    return events.find((one) => one.id === eventId) ?? null;
  }

  /** @returns false when the same line is there already. @throws AppError same_key_other_request */
  private async add(tx: Tx, event: BathEvent): Promise<boolean> {
    if (await this.store.addEvent(tx, event, this.clock.now())) return true;
    const known = await this.store.event(tx, event.id);
    if (known && same(known, event)) return false;
    throw new AppError('same_key_other_request', 'This form was sent before. Please begin a new one.');
  }

  private async takeCrystals(tx: Tx, bath: Bath, { id, crystals, who }: BathEvent): Promise<void> {
    const lot = (await this.stock.lots(tx)).find((one) => one.id === bath.lotId);
    const short = problem('crystals', 'There is not so much in the bottle of crystals, by the book.');
    if (!lot || crystals === null || crystals === 0n) throw short;
    const change = (lots: Lot[]) => {
      const there = lots.find((one) => one.id === lot.id);
      const acted = there && poured(there, crystals, 'used', `Topped up ${bath.name}`);
      if (!acted?.ok) throw short;
      return acted.changes;
    };
    await this.acts.act(tx, { items: [lot.itemId], named: [lot.id], change, who, batchId: id });
  }
}

/** The line that a form tells. @throws AppError bad_input with a sentence per field */
function eventOf(input: unknown, line: Line, sizes: readonly PlateSize[]): BathEvent {
  const { do: kind } = readInput(doing, input);
  switch (kind) {
    case 'measured':
      return measured(input, line);
    case 'topped up': {
      const { fromLot: _, ...said } = readInput(toppedUpForm, input);
      return { ...plainEvent('topped up', { ...line, day: said.day }), ...said };
    }
    case 'poured': {
      const { plateSizeId, ...said } = readInput(pouredForm, input);
      const size = sizes.find((one) => one.id === plateSizeId);
      if (!size) throw problem('plateSizeId', 'Please choose the size.');
      const area = plateAreaUm2(size.widthMm, size.heightMm) * BigInt(said.plates);
      return { ...plainEvent('poured', { ...line, day: said.day }), ...said, area };
    }
    case 'cared': {
      const { care, day, note } = readInput(caredForm, input);
      return { ...plainEvent(care, { ...line, day }), note };
    }
    case 'state': {
      const { state, until, day, note } = readInput(stateForm, input);
      const away = state !== 'working' && state !== 'retired';
      if (away && until && Temporal.PlainDate.compare(until, day) < 0)
        throw problem('until', 'It cannot work again before that.');
      return { ...plainEvent('state', { ...line, day }), state, until: away ? until : null, note };
    }
    case 'acidity': {
      const { day, ph, note } = readInput(acidityForm, input);
      return { ...plainEvent('acidity', { ...line, day }), ph, note };
    }
    case 'note': {
      const { day, note } = readInput(noteForm, input);
      return { ...plainEvent('note', { ...line, day }), note };
    }
  }
}

const UNREADABLE: Record<Extract<HydrometerAnswer, { ok: false }>['reason'], [string, string]> = {
  'lighter than water': ['density', 'This is lighter than water: is the reading right?'],
  'heavier than the table': ['density', 'This is heavier than any bath: is the reading right?'],
  'too cold or warm': ['temperature', 'Please measure at a temperature between 5 and 35 °C.'],
};

function measured(input: unknown, line: Line): BathEvent {
  const { day, method, volume, note } = readInput(measuredForm, input);
  const event = { ...plainEvent('measured', { ...line, day }), method, volume, note };
  if (method === 'hydrometer') {
    const { density, temperature } = readInput(hydrometerForm, input);
    const answer = strengthByDensity(density, temperature);
    if (!answer.ok) throw problem(...UNREADABLE[answer.reason]);
    const strength = Math.round(answer.strength.mgPerLitre);
    return { ...event, density, temperature, strength };
  }
  const strength = strengthByTitration(readInput(titrationForm, input));
  if (strength === null || strength > 500_000)
    throw problem('thiocyanateMl', 'That would be no bath: are the three figures right?');
  return { ...event, strength: Math.round(strength) };
}

const problem = (field: string, message: string) =>
  new AppError('bad_input', undefined, [{ field, message }]);

function unknown(): never {
  throw new AppError('not_found', 'This bath is not known here.');
}

/** Whether two lines say the same, whoever wrote them. */
function same(one: BathEvent, other: BathEvent): boolean {
  const words = (event: BathEvent) =>
    Object.keys(other)
      .filter((key) => key !== 'who')
      .map((key) => String(event[key as keyof BathEvent]))
      .join('\n');
  return words(one) === words(other);
}
