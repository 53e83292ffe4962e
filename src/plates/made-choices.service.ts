// What can be chosen for the plates of a day (sizes, bottles, baths, series), and whether what was said is among it.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { BathsService } from '../stock/baths.service.js';
import { usableOn } from '../stock/plan.calc.js';
import type { Lot } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import { ToldUseService } from '../stock/told-use.service.js';
import type { Made, MadeDay, SaidPlate, TypedDay } from './made.schemas.js';
import { SeriesStore } from './series.store.js';

type Choices = Pick<MadeDay, 'sizes' | 'bottles' | 'baths' | 'series'>;

@Injectable()
export class MadeChoices {
  private readonly allSeries = new SeriesStore();

  constructor(
    private readonly stock: StockService,
    private readonly told: ToldUseService,
    private readonly baths: BathsService,
  ) {}

  /** What can be chosen, and what stands at the day's plates already. */
  async of(tx: Tx, day: Temporal.PlainDate, plates: readonly Made[]): Promise<Choices> {
    const collodion = (await this.stock.items(tx)).filter((one) => one.kind === 'collodion');
    const ids = collodion.map((one) => one.id);
    const lots = await this.told.lotsOf(
      tx,
      ids,
      plates.flatMap(({ lotId }) => lotId ?? []),
    );
    const there = (lot: Lot) => usableOn(lot, day) || plates.some((one) => one.lotId === lot.id);
    const atPlates = (id: string, key: 'bathId' | 'seriesId') => plates.some((one) => one[key] === id);
    return {
      sizes: await this.stock.plateSizes(tx),
      bottles: lots.filter(there),
      baths: (await this.baths.list(tx)).filter(
        (one) => one.state !== 'retired' || atPlates(one.id, 'bathId'),
      ),
      series: (await this.allSeries.all(tx))
        .map(({ series_id: id, name, archived }) => ({ id, name, archived }))
        .filter((one) => !one.archived || atPlates(one.id, 'seriesId')),
    };
  }

  /** @throws AppError bad_input at `plates/N/...` for each answer that is not among the choices of the day */
  check(said: TypedDay, now: MadeDay): void {
    const problems = said.plates.flatMap((one, at) =>
      problemsOf(one, now).map(({ field, message }) => ({ field: `plates/${at}/${field}`, message })),
    );
    const twice = said.plates.findIndex(
      (one, at) => said.plates.findIndex((other) => other.id === one.id) !== at,
    );
    if (twice >= 0) problems.push({ field: `plates/${twice}/id`, message: 'This plate is there twice.' });
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  }
}

function problemsOf(said: SaidPlate, now: MadeDay): FieldProblem[] {
  const was = now.plates.find((one) => one.id === said.id);
  const view = now.sittings.find((one) => one.view.sitting.id === said.sittingId)?.view;
  const among = (all: readonly { id: string }[], id: string | null) =>
    id === null || all.some((one) => one.id === id);
  const problems: FieldProblem[] = [];
  const refuse = (field: string, message: string) => problems.push({ field, message });
  if (was?.struckAt) refuse('id', 'This plate was struck.');
  if (was && was.sittingId !== said.sittingId)
    refuse('sittingId', 'A plate stays with whom it was made for; strike it and type it in anew.');
  else if (said.sittingId !== null && !view) refuse('sittingId', 'They have no place on this day.');
  if (said.plateId !== null && was?.plateId !== said.plateId && !among(view?.plates ?? [], said.plateId))
    refuse('plateId', 'This is not one of the plates they asked for.');
  if (!among(now.sizes, said.plateSizeId)) refuse('plateSizeId', 'Please choose the size.');
  if (!among(now.bottles, said.lotId))
    refuse('lotId', 'Please choose a bottle that could be used on the day.');
  if (!among(now.baths, said.bathId)) refuse('bathId', 'Please choose one of your baths.');
  if (!among(now.series, said.seriesId)) refuse('seriesId', 'Please choose one of your series.');
  return problems;
}
