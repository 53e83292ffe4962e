// Series: their names and targets, how far each has come, and how many are still to sit for one.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { type Series, seriesForm } from './series.schemas.js';
import { SeriesStore } from './series.store.js';

export interface SeriesNow {
  series: Series[];
  /** Sittings of kinds whose plates go to a series, by state: requested, waiting, offered, confirmed. */
  coming: Map<string, number>;
}

@Injectable()
export class SeriesService {
  private readonly store = new SeriesStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  all(studioId: string): Promise<SeriesNow> {
    return this.db.inStudio(studioId, async (tx) => ({
      series: await this.store.all(tx),
      coming: await this.store.coming(tx),
    }));
  }

  /** Adds a series, or changes one. @returns its id @throws AppError bad_input, not_found */
  save(
    studioId: string,
    who: { name: string },
    id: string | null,
    sent: unknown,
    check: (series: Series) => void = () => {},
  ): Promise<string> {
    const said = readInput(seriesForm, sent);
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'series');
      const all = await this.store.all(tx);
      const known = all.find((one) => one.series_id === id);
      if (id !== null && !known) throw new AppError('not_found');
      if (known) check(known);
      const same = all.find((one) => one.name === said.name && one.series_id !== id);
      if (same)
        throw new AppError('bad_input', undefined, [
          { field: 'name', message: 'Another series has this name.' },
        ]);
      const series = { series_id: id ?? this.random.id(), ...said };
      await this.store.save(tx, series);
      const about = { aboutKind: 'series', aboutId: series.series_id, event: 'change', note: series.name };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
      return series.series_id;
    });
  }
}
