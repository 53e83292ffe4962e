// What the demo tells of plates beyond their day: the lines on their backs, a series with some progress, and a list for an
// archive. It builds on the plates that were typed in; where there are none, nothing is told.
import type { INestApplicationContext } from '@nestjs/common';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { bookQuery } from '../src/plates/book.schemas.js';
import { BookService } from '../src/plates/book.service.js';
import { HandOverService } from '../src/plates/hand-over.service.js';
import { RecordService } from '../src/plates/record.service.js';
import { SeriesService } from '../src/plates/series.service.js';
import { ConsentsService } from '../src/sittings/consents.service.js';

interface Setting {
  studioId: string;
  owner: Account;
}

export const SERIES = {
  name: 'Hands of the Harbour',
  about: 'People who work on the water, with what they hold in their hands.',
  target: '40',
};
const ARCHIVE = { takenBy: 'Saltmarsh Quay Archive', note: 'Plates, in two boxes; scans follow.' };
const TRADE = 'Trade';

/** The fields of the back, and the series, before the first plate is typed in. @returns the id of the series */
export async function beginSeries(
  app: INestApplicationContext,
  { studioId, owner }: Setting,
): Promise<string> {
  await app.get(RecordService).save(studioId, owner, null, { label: TRADE, what: 'typed' });
  return app.get(SeriesService).save(studioId, owner, null, SERIES);
}

/** Everybody on the kept plates of the latest sitting agrees, and these go on a list that is not given yet. */
export async function listForArchive(
  app: INestApplicationContext,
  { studioId, owner }: Setting,
): Promise<void> {
  const find = () => app.get(BookService).find(studioId, bookQuery.parse({ keeper: 'yes' }));
  const [newest] = (await find()).plates;
  const sittingId = newest?.plate.sittingId;
  if (!newest || !sittingId) return;
  const consents = app.get(ConsentsService);
  for (const line of await consents.lines(studioId, { sittingId }))
    if (line.purpose === 'archive' || line.purpose === 'record')
      await consents.answer(
        studioId,
        { who: owner, sittingId },
        {
          sitter: line.sitterId ?? '',
          purpose: line.purpose,
          version: line.wording.version,
          answer: 'agree',
        },
      );
  const { fields } = await app.get(RecordService).fields(studioId);
  const trade = fields.find((one) => one.label === TRADE);
  const record = { names: newest.plate.names, ...(trade ? { [`field-${trade.id}`]: 'Net mender' } : {}) };
  await app.get(BookService).correct(studioId, owner, newest.plate.number, record);
  const lists = app.get(HandOverService);
  const list = await lists.begin(studioId, owner, ARCHIVE);
  const plates = (await find()).plates.filter(({ plate }) => plate.sittingId === sittingId);
  const ids = plates.map(({ plate }) => plate.id);
  await lists.add(studioId, owner, list, { plates: ids, what: 'plate' });
}
