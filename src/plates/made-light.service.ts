// Exposure notes of a day's typed plates: one of each that is kept and has seconds, sky and bottle, where it was said with
// which lens, f-number and framing. A note has the id of its plate.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { DaylightService } from '../daylight/daylight.service.js';
import type { Tx } from '../platform/db/tx.js';
import type { DayLight, Made, MadeDay } from './made.schemas.js';

/** Arriving and talking, pose and focus, then so long for each plate: common practice, no source. */
const MINUTES_BEFORE = 40;
const MINUTES_A_PLATE = 15;

@Injectable()
export class MadeLight {
  constructor(private readonly daylight: DaylightService) {}

  async of(tx: Tx, plates: readonly Made[]): Promise<Pick<MadeDay, 'light' | 'usualLight'>> {
    const [first] = await this.daylight.notesOf(
      tx,
      plates.filter((one) => one.struckAt === null).map((one) => one.id),
    );
    return { light: first ? lightOf(first) : null, usualLight: lightOf(await this.daylight.usual(tx)) };
  }

  /** Writes the notes of the day's plates anew, where they differ; null takes them out. */
  async follow(tx: Tx, now: MadeDay, light: DayLight | null): Promise<void> {
    const usual = await this.daylight.usual(tx);
    const known = new Map(
      (
        await this.daylight.notesOf(
          tx,
          now.plates.map((one) => one.id),
        )
      ).map((one) => [one.id, one]),
    );
    for (const plate of now.plates) {
      const { seconds, sky: weather } = plate;
      const wallAt = whenMade(now, plate);
      const bottle = now.bottles.find((one) => one.id === plate.lotId)?.label.trim();
      const counts = plate.struckAt === null && plate.keeper;
      if (!light || !counts || !seconds || !weather || !bottle || !wallAt) {
        if (known.has(plate.id)) await this.daylight.follow(tx, plate.id, null);
        continue;
      }
      const alike = usual && usual.lens === light.lens && usual.framing === light.framing;
      const magnification = known.get(plate.id)?.magnification ?? (alike ? usual.magnification : 0);
      const said = { wallAt, seconds, weather, ...light, magnification, bottle: bottle.slice(0, 80) };
      await this.daylight.follow(tx, plate.id, { ...said, verdict: 'good' });
    }
  }
}

/** By the hour of their place and which of their plates it is; null for a test plate, whose hour nobody told. */
function whenMade(now: MadeDay, plate: Made): Temporal.PlainDateTime | null {
  const place = now.sittings.find((one) => one.view.sitting.id === plate.sittingId)?.place;
  if (!place) return null;
  const before = now.plates.filter(
    (one) => one.sittingId === plate.sittingId && one.struckAt === null && one.number < plate.number,
  );
  return place.wallStart.add({ minutes: MINUTES_BEFORE + before.length * MINUTES_A_PLATE });
}

const lightOf = <L extends DayLight>(said: L | null): DayLight | null =>
  said && { lens: said.lens, fNumber: said.fNumber, framing: said.framing };
