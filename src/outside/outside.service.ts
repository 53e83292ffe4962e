// Outside calendars: adding one, reading it again and again, pausing and removing it. What somebody wrote there is fetched
// and read outside of every transaction. Changing what is busy never takes anybody's place away.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { seal, unseal } from '../platform/security/sealing.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { blockingOf, type Choice, type Elsewhere, wholeDaysIn } from './blocking.calc.js';
import type { Asked, Reading } from './expand.calc.js';
import { FAILURE_WORDS, type Failure, hoursUntilNext } from './failure.calc.js';
import { fetchCalendar, type Known } from './fetch-calendar.js';
import { Network } from './network.js';
import { addForm, type CalendarRow, type OutsideCalendar, toCalendar } from './outside.schemas.js';
import { OutsideStore } from './outside.store.js';
import { CalendarReader } from './reader.service.js';

/** More would only be in each other's way (assumption). */
const MOST_CALENDARS = 12;
const EMPTY = { etag: '', lastModified: '' };

type Looked =
  | { ok: true; known: Known; reading: Extract<Reading, { ok: true }> }
  | { ok: false; why: Failure };

@Injectable()
export class OutsideService {
  private readonly store = new OutsideStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly config: Config,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly network: Network,
    private readonly reader: CalendarReader,
  ) {}

  all(studioId: string): Promise<OutsideCalendar[]> {
    return this.db.inStudio(studioId, async (tx) => (await this.store.all(tx)).map(toCalendar));
  }

  /** Those in use that could not be read the last time. */
  async failing(tx: Tx): Promise<OutsideCalendar[]> {
    return (await this.store.failing(tx)).map(toCalendar);
  }

  /** @throws AppError not_found */
  async byId(tx: Tx, id: string): Promise<OutsideCalendar> {
    return toCalendar(found(await this.store.byId(tx, id)));
  }

  /**
   * Takes in a calendar that blocks nothing yet. @returns its id
   * @throws AppError bad_input, also where it cannot be fetched or read
   */
  async add(studioId: string, who: { name: string }, input: unknown): Promise<string> {
    const { name, address, file } = readInput(addForm, input);
    const studio = await this.db.inStudio(studioId, (tx) => this.studios.load(tx));
    const looked = await this.look(
      studio,
      address === '' ? { text: file } : { address, known: null, copy: '' },
    );
    if (!looked.ok) throw wrong(address === '' ? 'file' : 'address', FAILURE_WORDS[looked.why]);
    const id = this.random.id();
    const now = this.clock.now();
    const { copy, busy, entries, free } = looked.reading;
    const row: CalendarRow = {
      calendar_id: id,
      name,
      sealed_address: address === '' ? null : seal(this.config.secretKey, this.random, id, address),
      host: address === '' ? '' : hostOf(address),
      state: 'new',
      blocks: 'hours',
      margin_minutes: 0,
      etag: looked.known.etag,
      last_modified: looked.known.lastModified,
      ...{ copy, busy, entries, free, blocking: [] },
      ...{
        created_at: now,
        read_at: now,
        next_at: this.nextTime(address === '', 0),
        failures: 0,
        failure: '' as const,
      },
    };
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.store.all(tx)).length >= MOST_CALENDARS)
        throw wrong('name', `There are ${MOST_CALENDARS} calendars already. Please remove one first.`);
      await this.store.insert(tx, row);
      await this.record(tx, who, `Outside calendar “${name}” added; it blocks nothing yet.`);
    });
    return id;
  }

  /** Puts a calendar in use, blocking what was chosen. */
  async decide(tx: Tx, studio: Studio, who: { name: string }, id: string, choice: Choice): Promise<void> {
    const row = found(await this.store.locked(tx, id));
    const blocking = blockingOf(row.busy, choice, studio.zone);
    await this.store.saveChoice(tx, id, 'on', choice, blocking);
    await this.record(tx, who, `Outside calendar “${row.name}” is in use.`);
    await this.enqueueNext(tx);
    await this.raiseWhere(tx, studio, row.blocking, blocking);
  }

  /** Blocks nothing until it is put in use again. @throws AppError not_found */
  pause(studioId: string, who: { name: string }, id: string): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      const row = found(await this.store.locked(tx, id));
      const choice = { blocks: row.blocks, marginMinutes: row.margin_minutes };
      await this.store.saveChoice(tx, id, 'paused', choice, []);
      await this.record(tx, who, `Outside calendar “${row.name}” is paused.`);
      await this.raiseWhere(tx, await this.studios.load(tx), row.blocking, []);
    });
  }

  /** @throws AppError not_found */
  remove(studioId: string, who: { name: string }, id: string): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      const row = found(await this.store.locked(tx, id));
      await this.store.remove(tx, id);
      await this.record(tx, who, `Outside calendar “${row.name}” removed.`);
      await this.raiseWhere(tx, await this.studios.load(tx), row.blocking, []);
    });
  }

  /** Reads one anew, whenever it would be its turn. @returns whether it could be read @throws AppError not_found */
  async readNow(studioId: string, id: string): Promise<boolean> {
    const at = await this.db.inStudio(studioId, async (tx) => ({
      studio: await this.studios.load(tx),
      row: found(await this.store.byId(tx, id)),
    }));
    return this.readAgain(at.studio, at.row);
  }

  /** Reads those whose turn it is, and sees to the next turn. */
  async readDue(studioId: string): Promise<void> {
    const now = this.clock.now();
    const { studio, rows } = await this.db.inStudio(studioId, async (tx) => ({
      studio: await this.studios.load(tx),
      rows: await this.store.all(tx),
    }));
    for (const row of rows)
      if (row.state === 'on' && Temporal.Instant.compare(row.next_at, now) <= 0)
        await this.readAgain(studio, row);
    await this.db.inStudio(studioId, (tx) => this.enqueueNext(tx));
  }

  private async readAgain(studio: Studio, before: CalendarRow): Promise<boolean> {
    const looked = await this.look(studio, this.sourceOf(before));
    await this.db.inStudio(studio.id, async (tx) => {
      const row = await this.store.locked(tx, before.calendar_id);
      if (!row) return; // removed in the meantime
      const isFile = row.sealed_address === null;
      if (!looked.ok) {
        await this.store.saveFailure(
          tx,
          row.calendar_id,
          looked.why,
          this.nextTime(isFile, row.failures + 1),
        );
        return;
      }
      const { copy, busy, entries, free } = looked.reading;
      const choice = { blocks: row.blocks, marginMinutes: row.margin_minutes };
      const blocking = row.state === 'on' ? blockingOf(busy, choice, studio.zone) : [];
      await this.store.saveRead(tx, row.calendar_id, {
        etag: looked.known.etag,
        last_modified: looked.known.lastModified,
        ...{ copy, busy, entries, free, blocking },
        ...{ read_at: this.clock.now(), next_at: this.nextTime(isFile, 0) },
      });
      await this.raiseWhere(tx, studio, row.blocking, blocking);
    });
    return looked.ok;
  }

  private sourceOf(row: CalendarRow): Source {
    if (!row.sealed_address) return { text: row.copy };
    const address = unseal(this.config.secretKey, row.calendar_id, row.sealed_address);
    const { etag, last_modified: lastModified, copy } = row;
    const known = etag === '' && lastModified === '' ? null : { etag, lastModified };
    return { address, known, copy };
  }

  private async look(studio: Studio, source: Source): Promise<Looked> {
    if ('text' in source) return this.readText(studio, source.text, EMPTY);
    if (source.address === null) return { ok: false, why: 'key lost' };
    const fetched = await fetchCalendar(source.address, source.known, this.network);
    if (!fetched.ok) return fetched;
    if (fetched.text === null) return this.readText(studio, source.copy, source.known ?? EMPTY);
    return this.readText(studio, fetched.text, fetched.known);
  }

  private async readText(studio: Studio, text: string, known: Known): Promise<Looked> {
    const reading = await this.reader.read({ text, ...this.stretch(studio) });
    return reading.ok ? { ok: true, known, reading } : { ok: false, why: reading.reason };
  }

  /** As far as places can be booked, and a day around for margins. */
  private stretch({ zone, horizonMonths }: Studio): Omit<Asked, 'text'> {
    const today = this.today(zone);
    const last = today.add({ months: horizonMonths }).add({ days: 1 });
    const from = dayBounds(zone, today.subtract({ days: 1 })).start.epochMilliseconds;
    return { studioZone: zone, from, until: dayBounds(zone, last).end.epochMilliseconds };
  }

  private today(zone: string): Temporal.PlainDate {
    return instantToWall(zone, this.clock.now()).toPlainDate();
  }

  /** A file stays as it is; it is read daily only since time goes on. */
  private nextTime(isFile: boolean, failures: number): Temporal.Instant {
    return this.clock.now().add({ hours: isFile ? 24 : hoursUntilNext(failures) });
  }

  private async enqueueNext(tx: Tx): Promise<void> {
    const runAt = await this.store.nextAt(tx);
    if (runAt) await this.jobs.enqueue(tx, 'outside.due', {}, { key: 'outside', runAt });
  }

  private record(tx: Tx, who: { name: string }, note: string): Promise<void> {
    const entry = {
      who: who.name,
      aboutKind: 'settings',
      aboutId: tx.studioId,
      event: 'outside calendar',
      note,
    };
    return recordHistory(tx, this.clock, entry);
  }

  /** Of all that is blocked, calendars show only the days that are taken whole: tasks keep off them. */
  private async raiseWhere(tx: Tx, { zone }: Studio, before: Elsewhere[], after: Elsewhere[]): Promise<void> {
    const days = (all: Elsewhere[]) => wholeDaysIn(all, zone, this.today(zone)).join();
    if (days(before) !== days(after)) await this.studios.raiseCalendarCounter(tx);
  }
}

/** An address that cannot be unsealed any more is null. */
type Source = { text: string } | { address: string | null; known: Known | null; copy: string };

const wrong = (field: string, message: string) => new AppError('bad_input', undefined, [{ field, message }]);

function found(row: CalendarRow | null): CalendarRow {
  if (!row) throw new AppError('not_found');
  return row;
}

/** The part of an address that is no secret. */
const hostOf = (address: string) =>
  /^\s*[a-z]+:\/\/(?:[^/?#@]*@)?([^/?#:]+|\[[^\]]*\])/i.exec(address)?.[1] ?? '';
