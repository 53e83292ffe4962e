// What follows from a day's typed plates besides the shelf: the ledgers of its silver baths, and the studio's own figures.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../chemistry/actuals.service.js';
import { Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { BathLedgerService } from '../stock/bath-ledger.service.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import { poursOf, sameTallies, talliesOf } from './made.calc.js';
import type { Made } from './made.schemas.js';
import { MadeStore } from './made.store.js';

interface OfDay {
  day: Temporal.PlainDate;
  /** As they are now, the struck ones among them. */
  plates: readonly Made[];
  sizes: readonly PlateSize[];
}

@Injectable()
export class MadeFeeds {
  private readonly store = new MadeStore();

  constructor(
    private readonly random: Random,
    private readonly ledger: BathLedgerService,
    private readonly actuals: ActualsService,
  ) {}

  /** Lets baths and figures follow the plates of a day; what is right already is left. The day must be locked. */
  async follow(tx: Tx, who: { name: string }, of: OfDay): Promise<void> {
    await this.pour(tx, who, of);
    await this.learn(tx, who, of);
  }

  /** One line a bath; a correction takes it back and writes another. */
  private async pour(tx: Tx, who: { name: string }, { day, plates, sizes }: OfDay): Promise<void> {
    const pours = poursOf(plates, sizes);
    const told = new Map((await this.store.poured(tx, day)).map((one) => [one.bathId, one.eventId]));
    for (const bathId of [...new Set([...told.keys(), ...pours.keys()])].sort()) {
      const pour = pours.get(bathId);
      const line = told.get(bathId);
      const stands = line === undefined ? null : await this.ledger.standing(tx, bathId, line);
      if (pour && stands && stands.plates === pour.plates && stands.area === pour.area) continue;
      if (stands) await this.ledger.takeBackIn(tx, who, stands);
      const id = pour ? this.random.id() : null;
      if (pour && id) await this.ledger.pour(tx, who, { id, bathId, day, ...pour });
      await this.store.setPoured(tx, day, bathId, id);
    }
  }

  private async learn(tx: Tx, who: { name: string }, { day, plates, sizes }: OfDay): Promise<void> {
    const tallies = talliesOf(plates, sizes);
    const which = { day, madeBy: 'sittings' } as const;
    const known = await this.actuals.day(tx, which);
    if (sameTallies(known?.plates ?? [], tallies)) return;
    const slip = tallies.length === 0 && Object.keys(known?.used ?? {}).length === 0 && known?.note === '';
    if (slip) await this.actuals.remove(tx, who, which);
    else await this.actuals.record(tx, who, { ...which, plates: tallies });
  }
}
