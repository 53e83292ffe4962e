// Typing in the day, in the database: running numbers, corrections, and what follows of it for baths and figures.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../../src/chemistry/actuals.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { MadeService } from '../../src/plates/made.service.js';
import { BathsService } from '../../src/stock/baths.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { enterBath } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

const FRIDAY = Temporal.PlainDate.from('2027-04-02');
const random = new SystemRandom();

let house: TestHouse;
let studio: TestStudio;
let made: MadeService;
let sitting: string;
let count = 0;
beforeAll(async () => {
  house = await openTestHouse();
  made = house.app.get(MadeService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `made-${++count}` });
  sitting = (await askForSitting(house, studio)).sittingId;
  await approve(house, studio, sitting, `${FRIDAY}T09:30`);
  house.clock.set(`${FRIDAY}T15:00:00Z`);
});
afterAll(() => house.close());

const plate = (said: object = {}) => ({
  id: random.id(),
  sittingId: sitting,
  plateSizeId: studio.sizes.whole.id,
  keeper: true,
  ...said,
});
const save = (plates: object[], more: object = {}, day = FRIDAY) =>
  made.save(studio.id, studio.assistant, day, { plates, first: 1, ...more });
const book = async (day = FRIDAY) =>
  (await made.day(studio.id, day)).plates.map(({ number, struckAt }) => (struckAt ? -number : number));

async function rows<T extends pg.QueryResultRow>(sql: string): Promise<T[]> {
  const client = new pg.Client({ connectionString: house.database.url });
  await client.connect();
  await client.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  try {
    return (await client.query<T>(sql)).rows;
  } finally {
    await client.end();
  }
}

describe('typing in the day', () => {
  it('gives numbers from where the owner says, in the order of typing, over days without a gap', async () => {
    await expect(save([plate()], { first: undefined })).rejects.toMatchObject({
      fields: [{ field: 'first' }],
    });
    expect((await save([plate(), plate({ keeper: false })], { first: 118 })).numbers).toEqual([118, 119]);
    expect((await save([plate({ sittingId: null })], { first: 7 })).numbers).toEqual([120]);
    expect((await save([plate({ sittingId: null })], {}, FRIDAY.subtract({ days: 7 }))).numbers).toEqual([
      121,
    ]);
    expect(await book()).toEqual([118, 119, 120]);
  });

  it('corrects what was typed before and never doubles it', async () => {
    const one = plate({ seconds: 6, sky: 'clear', result: 'fog', keeper: false });
    await save([one]);
    expect(await save([one])).toEqual({ numbers: [], corrected: 0, struck: 0, changed: false });
    const more = { ...one, keeper: true, seconds: 8, lotId: studio.lots.collodion };
    expect(await save([more])).toEqual({ numbers: [], corrected: 1, struck: 0, changed: true });
    const { plates } = await made.day(studio.id, FRIDAY);
    expect(plates).toHaveLength(1);
    expect(plates[0]).toMatchObject({ number: 1, keeper: true, seconds: 8, result: 'fog' });
    expect(plates[0]?.lotId).toBe(studio.lots.collodion);
  });

  it('strikes a plate that was a slip, whose number is never given again', async () => {
    const [one, other] = [plate(), plate()];
    await save([one, other]);
    expect(await save([], { strike: [other.id] })).toMatchObject({ struck: 1 });
    expect(await save([], { strike: [other.id] })).toMatchObject({ struck: 0 });
    expect((await save([plate()])).numbers).toEqual([3]);
    expect(await book()).toEqual([1, -2, 3]);
    await expect(save([{ ...other, result: 'after all' }])).rejects.toMatchObject({
      fields: [{ field: 'plates/0/id' }],
    });
  });

  it('keeps all or nothing, and tells each mistake where it is', async () => {
    const wrong = { ...plate(), lotId: studio.lots.fixer, bathId: random.id(), seriesId: random.id() };
    await expect(save([plate(), wrong])).rejects.toMatchObject({
      fields: [{ field: 'plates/1/lotId' }, { field: 'plates/1/bathId' }, { field: 'plates/1/seriesId' }],
    });
    await expect(save([plate({ sittingId: random.id() })])).rejects.toMatchObject({
      fields: [{ field: 'plates/0/sittingId' }],
    });
    const twice = plate();
    await expect(save([twice, twice])).rejects.toMatchObject({ fields: [{ field: 'plates/1/id' }] });
    expect(await book()).toEqual([]);
    expect((await save([plate()])).numbers).toEqual([1]);
  });

  it('is refused for a day to come, and for a plate of another day', async () => {
    const one = plate({ sittingId: null });
    await save([one]);
    await expect(save([one], {}, FRIDAY.subtract({ days: 7 }))).rejects.toMatchObject({ code: 'not_found' });
    await expect(save([plate()], {}, FRIDAY.add({ days: 1 }))).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('is asked to look again where somebody else changed the day meanwhile, but not for what it sent itself', async () => {
    const { version } = await made.day(studio.id, FRIDAY);
    const one = plate();
    await save([one], { seen: version });
    await expect(save([plate()], { seen: version })).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await save([one], { seen: version })).toMatchObject({ numbers: [] });
    expect(await book()).toEqual([1]);
  });

  it('counts plates of a series, each number in it once', async () => {
    const series = random.id();
    await rows(
      `insert into series (studio_id, series_id, name) values ('${studio.id}', '${series}', 'Hands')`,
    );
    const [one, other] = [plate({ seriesId: series }), plate({ seriesId: series })];
    await save([one, plate(), other]);
    await save([{ ...one, seriesId: null }]);
    await save([plate({ seriesId: series })]);
    const { plates } = await made.day(studio.id, FRIDAY);
    expect(plates.map((each) => each.seriesNumber)).toEqual([null, null, 2, 3]);
  });
});

describe('what follows of typed plates', () => {
  it('a line in the ledger of each bath, corrected by taking it back, and never doubled', async () => {
    const bathId = await enterBath(house, studio);
    const lines = async () => {
      const { events } = await house.app.get(BathsService).one(studio.id, bathId);
      const gone = new Set(events.map((one) => one.takesBack));
      const told = events.filter(
        (one) => one.kind === 'poured' && one.day.equals(FRIDAY) && !gone.has(one.id),
      );
      return told.map((one) => one.plates);
    };
    const [one, other] = [plate({ bathId }), plate({ bathId, sittingId: null })];
    await save([one, other]);
    expect(await lines()).toEqual([2]);
    await save([{ ...one, result: 'good' }]);
    expect(await lines()).toEqual([2]);
    await save([], { strike: [other.id] });
    expect(await lines()).toEqual([1]);
    await save([{ ...one, bathId: null }]);
    expect(await lines()).toEqual([]);
    await save([one]);
    expect(await lines()).toEqual([1]);
  });

  it('tries and keepers of sitters among what days took, corrected with the plates, and gone with the last', async () => {
    const actuals = house.app.get(ActualsService);
    const told = () =>
      house.db.inStudio(studio.id, async (tx) =>
        (await actuals.days(tx)).map(({ day, plates }) => [
          day.toString(),
          plates.map(({ tries, keepers }) => `${keepers} of ${tries}`),
        ]),
      );
    const [one, other] = [plate(), plate({ keeper: false })];
    await save([one, other, plate({ sittingId: null })]);
    expect(await told()).toEqual([['2027-04-02', ['1 of 2']]]);
    await save([{ ...other, keeper: true }]);
    expect(await told()).toEqual([['2027-04-02', ['2 of 2']]]);
    await save([], { strike: [one.id, other.id] });
    expect(await told()).toEqual([]);
  });
});
