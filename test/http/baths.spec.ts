// Silver baths through the doors of owner and assistant: what is written down at the sink, slips, which day takes which
// bath, and "the chemistry is off".
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { BathLedgerService } from '../../src/stock/bath-ledger.service.js';
import { BathsService } from '../../src/stock/baths.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { BATH, enterBath, putAside, writeDown } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';
import { Temporal } from 'temporal-polyfill';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let baths: string;
let number = 0;
const DAY = '2026-12-04';
const TODAY = { 'day-day': '25', 'day-month': 'November', 'day-year': '2026' };

beforeAll(async () => {
  house = await openTestHouse(); // Wednesday 25 November 2026
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `baths-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  baths = `/s/${slug}/desk/shelf/baths`;
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
});

const keyOf = (html: string) => /name="_key" value="([^"]+)"/.exec(html)?.[1] ?? '';
async function sit(day = DAY): Promise<void> {
  const { sittingId } = await askForSitting(house, studio, { suits: { kind: 'these', days: [day] } });
  const [start = ''] = await openStarts(house, studio, { from: day, until: day });
  await approve(house, studio, sittingId, start);
}
/** Writes a line down as the assistant does, on today's date. */
async function enter(id: string, said: Record<string, string>) {
  const { html } = await assistant.get(`${baths}/${id}?do=${encodeURIComponent(said.do ?? '')}`);
  return assistant.post(`${baths}/${id}/enter`, { _key: keyOf(html), ...TODAY, ...said });
}
const page = async (id: string) => wordsOf((await assistant.get(`${baths}/${id}`)).html);

describe('a bath', () => {
  it('is entered by the owner with what is in it, once though the form is sent twice', async () => {
    const { html } = await owner.get(baths);
    expect(wordsOf(html)).toContain('No bath is entered yet.');
    const said = { ...BATH, plateSizeId: studio.sizes.whole.id, _key: keyOf(html) };
    const made = await owner.postAndFollow(baths, said);
    expect(wordsOf(made.html)).toMatch(
      /The bath is entered.*working since Wednesday 25 November.*90\.0 g\/L/,
    );
    await owner.get(baths);
    await owner.post(baths, said);
    expect(wordsOf((await owner.get(baths)).html).match(/Tank A/g)?.length).toBeLessThan(4);
  });

  it('tells each mistake beside its field, and keeps what was typed', async () => {
    const { html } = await owner.get(baths);
    const wrong = { ...BATH, plateSizeId: '', leastVolume: '3000', targetStrength: '9%', strength: '' };
    const answer = await owner.post(baths, { ...wrong, _key: keyOf(html) });
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'plateSizeId')).toBe('Please choose the largest plate.');
    expect(errorAt(answer.html, 'targetStrength')).toMatch(/9 per cent is 90/);
    expect(answer.html).toMatch(/name="leastVolume"[^>]*value="3000"/);
    const fits = { ...wrong, plateSizeId: studio.sizes.whole.id, targetStrength: '60', strength: '60' };
    const next = await owner.post(baths, fits);
    expect(errorAt(next.html, 'leastVolume')).toBe('The least is more than it holds when full.');
    expect(errorAt(next.html, 'leastStrength')).toBe('The least is more than it is made up to.');
  });

  it('is changed by the owner only, and keeps its ledger', async () => {
    const id = await enterBath(house, studio);
    const { html } = await owner.get(`${baths}/${id}?do=edit`);
    const fields = fieldsOf(html, `${baths}/${id}`);
    expect(fields).toMatchObject({ name: 'Tank A', volume: '2000', targetStrength: '90' });
    const changed = await owner.postAndFollow(`${baths}/${id}`, {
      ...fields,
      name: 'Old tank',
      leastStrength: '75',
    });
    expect(wordsOf(changed.html)).toMatch(/Old tank.*entered: 90\.0 g\/L, 2 L in it/);
    await assistant.get(`${baths}/${id}`);
    expect((await assistant.post(`${baths}/${id}`, { ...fields })).status).toBe(403);
    expect(wordsOf((await assistant.get(`${baths}/${id}?do=edit`)).html)).not.toContain('Change this bath');
  });
});

describe('what is written down', () => {
  it('by hydrometer becomes a strength, with the reading beside it', async () => {
    const id = await enterBath(house, studio);
    const measured = {
      do: 'measured',
      method: 'hydrometer',
      density: '1,0706',
      temperature: '20',
      volume: '1900',
    };
    expect((await enter(id, measured)).status).toBe(303);
    // between 1.0417 (5.21 g in 100 mL) and 1.0882 (10.88): by volume about 8.7
    expect(await page(id)).toMatch(
      /measured: 8[67]\.\d g\/L, by hydrometer, 1\.0706 at 20 °C, 1\.9 L in it Odhran Pike/,
    );
  });

  it('by titration becomes a strength: 5 mL of bath and 26.5 mL of tenth-normal thiocyanate are 90 g', async () => {
    const id = await enterBath(house, studio);
    const titrated = {
      do: 'measured',
      method: 'titration',
      thiocyanateMl: '26.5',
      normality: '0.1',
      sampleMl: '5',
    };
    await enter(id, titrated);
    expect(await page(id)).toContain('measured: 90.0 g/L, by titration'); // 26.5 x 0.1 x 169.87 / 5
  });

  it('is asked for what belongs to it, beside the field', async () => {
    const id = await enterBath(house, studio);
    const refusal = async (said: Record<string, string>, field: string) => {
      const answer = await enter(id, said);
      expect(answer.status).toBe(422);
      return errorAt(answer.html, field);
    };
    const by = { do: 'measured', method: 'hydrometer' };
    expect(await refusal({ ...by, density: '', temperature: '20' }, 'density')).toMatch(/such as 1\.075/);
    expect(await refusal({ ...by, density: '0.95', temperature: '20' }, 'density')).toMatch(
      /lighter than water/,
    );
    expect(await refusal({ ...by, density: '1.9', temperature: '20' }, 'density')).toMatch(
      /heavier than any/,
    );
    expect(await refusal({ ...by, density: '1.07', temperature: '40' }, 'temperature')).toMatch(/5 to 35/);
    expect(await refusal({ do: 'topped up', crystals: '', volume: '' }, 'crystals')).toMatch(
      /what was added/,
    );
    expect(
      await refusal({ do: 'poured', plates: '1.5', plateSizeId: studio.sizes.whole.id }, 'plates'),
    ).toMatch(/number of plates/);
    expect(await refusal({ do: 'acidity', ph: '15' }, 'ph')).toMatch(/such as 4\.5/);
    expect(await refusal({ do: 'note', note: ' ' }, 'note')).toBe('Please write something.');
    expect(await refusal({ do: 'note', note: 'x', 'day-year': '2027' }, 'day')).toMatch(/still to come/);
    const lost = await enter(id, {
      do: 'poured',
      plates: 'six',
      plateSizeId: studio.sizes.half.id,
      note: 'cold',
    });
    expect(lost.html).toMatch(/name="plates"[^>]*value="six"/);
    expect(lost.html).toContain('>cold</textarea>');
  });

  it('is one line however often the form is sent, and another form’s key is refused', async () => {
    const id = await enterBath(house, studio);
    const { html } = await assistant.get(`${baths}/${id}?do=poured`);
    const poured = {
      ...TODAY,
      do: 'poured',
      plates: '6',
      plateSizeId: studio.sizes.whole.id,
      _key: keyOf(html),
    };
    await assistant.post(`${baths}/${id}/enter`, poured);
    expect((await assistant.post(`${baths}/${id}/enter`, poured)).status).toBe(303);
    expect((await page(id)).match(/plates poured: 6 plates/g)).toHaveLength(1);
    expect((await assistant.post(`${baths}/${id}/enter`, { ...poured, plates: '7' })).status).toBe(422);
  });

  it('that was a slip is taken back and counts no more; what the bath is is no slip', async () => {
    const id = await enterBath(house, studio);
    const line = await writeDown(house, studio, id, {
      do: 'poured',
      day: '2026-11-25',
      plates: '300',
      plateSizeId: studio.sizes.whole.id,
    });
    expect(await page(id)).not.toContain('about 90.0 g/L');
    await assistant.get(`${baths}/${id}`);
    const { html } = await assistant.postAndFollow(`${baths}/${id}/take-back`, { line });
    expect(wordsOf(html)).toMatch(/The line is taken back.*about 90\.0 g\/L.*taken back: 300 plates/);
    expect((await assistant.post(`${baths}/${id}/take-back`, { line })).status).toBe(409);
    const { events } = await house.app.get(BathsService).one(studio.id, id);
    const made = events.find((one) => one.kind === 'made')?.id ?? '';
    expect((await assistant.post(`${baths}/${id}/take-back`, { line: made })).status).toBe(409);
    expect((await assistant.post(`${baths}/${id}/take-back`, { line: 'nothing' })).status).toBe(404);
  });

  it('takes crystals from their bottle, and not more than is in it', async () => {
    const lotId = await house.db.inStudio(studio.id, async (tx) => {
      const stock = house.app.get(StockService);
      const item = await stock.enterItem(tx, {
        name: 'Silver nitrate',
        kind: 'chemical',
        unit: 'mg',
        plateSizeId: null,
        leadDays: 21,
        ripenDays: null,
        lifeDays: null,
      });
      const usableFrom = Temporal.PlainDate.from('2026-01-01');
      return stock.receive(
        tx,
        { itemId: item.id, label: 'Crystals A', usableFrom, usableUntil: null },
        100_000n,
      );
    });
    const id = await enterBath(house, studio, { lotId });
    const left = async () =>
      (await house.db.inStudio(studio.id, (tx) => house.app.get(StockService).lots(tx))).find(
        (one) => one.id === lotId,
      )?.onHand;
    await enter(id, { do: 'topped up', crystals: '25.5', volume: '200', fromLot: 'yes' });
    expect([await left(), await page(id)]).toEqual([
      74_500n,
      expect.stringContaining('topped up: 25.5 g of crystals, 200 mL of water'),
    ]);
    await enter(id, { do: 'topped up', crystals: '5', volume: '' });
    expect(await left()).toBe(74_500n); // from elsewhere
    const much = await enter(id, { do: 'topped up', crystals: '80', volume: '', fromLot: 'yes' });
    expect(errorAt(much.html, 'crystals')).toBe(
      'There is not so much in the bottle of crystals, by the book.',
    );
    expect(await page(id)).not.toContain('80 g of crystals');
  });

  it('changes what the bath does, with a date; retired only by the owner', async () => {
    const id = await enterBath(house, studio);
    const until = { 'until-day': '28', 'until-month': 'Nov', 'until-year': '2026' };
    await enter(id, { do: 'state', state: 'sunning', ...until });
    expect(await page(id)).toContain('in the sun since Wednesday 25 November, until Saturday 28 November');
    expect((await enter(id, { do: 'state', state: 'retired' })).status).toBe(403);
    await enter(id, { do: 'cared', care: 'sunned' });
    await enter(id, { do: 'state', state: 'working' });
    expect(await page(id)).toMatch(
      /working since.*now: working.*sunned.*now: in the sun, until Saturday 28 November/,
    );
    const early = { 'until-day': '1', 'until-month': 'Nov', 'until-year': '2026' };
    const answer = await enter(id, { do: 'state', state: 'resting', ...early });
    expect(errorAt(answer.html, 'until')).toBe('It cannot work again before that.');
  });

  it('by another feature in its own transaction is a line like any other', async () => {
    const id = await enterBath(house, studio);
    const said = {
      id: '11111111-1111-4111-8111-111111111111',
      bathId: id,
      day: Temporal.PlainDate.from(DAY),
    };
    const pour = () =>
      house.db.inStudio(studio.id, (tx) =>
        house.app
          .get(BathLedgerService)
          .pour(tx, studio.owner, { ...said, area: 3_564_000_000_000n, plates: 10 }),
      );
    await pour();
    await pour();
    expect((await page(id)).match(/plates poured: 10 plates/g)).toHaveLength(1);
  });
});

describe('the days', () => {
  it('each say which bath takes them, or why none does', async () => {
    await sit();
    expect(wordsOf((await owner.get(baths)).html)).toContain(
      'Friday 4 December none: no bath was ever entered',
    );
    const small = await enterBath(house, studio, { name: 'Small', plateSizeId: studio.sizes.half.id });
    expect(wordsOf((await owner.get(baths)).html)).toContain('none: no bath takes a plate of that size');
    await enterBath(house, studio, { strength: '71', leastStrength: '71' });
    const text = wordsOf((await owner.get(baths)).html);
    expect(text).toMatch(
      /Friday 4 December Tank A 1 90\.0 g\/L to 89\.9 g\/L top up by Thursday 3 December: 38 g/,
    );
    const ready = await house.db.inStudio(studio.id, (tx) =>
      house.app
        .get(BathsService)
        .readiness(
          tx,
          [Temporal.PlainDate.from(DAY), Temporal.PlainDate.from('2026-12-11')],
          Temporal.PlainDate.from('2026-11-25'),
        ),
    );
    expect([...ready].map(([date, one]) => [date, one.state, one.bath?.name])).toEqual([
      [DAY, 'top up by', 'Tank A'],
      ['2026-12-11', 'ready', 'Small'], // nothing is set aside for it yet: any bath will do
    ]);
    expect(await page(small)).toContain('not needed for what is booked');
  });
});

describe('the owner’s page about a request', () => {
  it('says of each day whether a bath takes its plates, and nothing where no bath is kept', async () => {
    const { sittingId } = await askForSitting(house, studio, { suits: { kind: 'these', days: [DAY] } });
    const text = async () => wordsOf((await owner.get(`/s/${studio.slug}/desk/requests/${sittingId}`)).html);
    expect(await text()).not.toMatch(/\bbath\b/);
    await enterBath(house, studio, { name: 'Small', plateSizeId: studio.sizes.half.id });
    expect(await text()).toContain('no bath takes a plate of that size');
    const whole = await enterBath(house, studio);
    expect(await text()).not.toMatch(/no bath/);
    await putAside(house, studio, `bath:${whole}`);
    expect(await text()).toContain('no bath large enough works that day');
  });
});

describe('when the chemistry is off', () => {
  it('a bath is put aside in one act, whom it concerns is told, and nobody is written to', async () => {
    await sit();
    const [a] = [await enterBath(house, studio), await enterBath(house, studio, { name: 'Tank B' })];
    await writeDown(house, studio, a, {
      do: 'poured',
      day: '2026-11-25',
      plates: '2',
      plateSizeId: studio.sizes.whole.id,
    });
    await writeDown(house, studio, a, { do: 'cared', care: 'filtered', day: '2026-11-25' });
    await house.work();
    const mails = house.mail.sent.length;
    const { html } = await assistant.get(`${baths}/off?what=bath:${a}`);
    expect(html).toMatch(new RegExp(`<option value="bath:${a}" selected`));
    const answers = { what: `bath:${a}`, seen: 'oysters', note: 'At the edges.', _key: keyOf(html) };
    const put = await assistant.postAndFollow(`${baths}/off`, answers);
    const text = wordsOf(put.html);
    expect(text).toContain('It is put aside.');
    expect(text).toContain('2 plates went through it');
    expect(text).toContain('Friday 4 December 2026, one plate (Linnea Harrow): Tank B takes it');
    expect(await page(a)).toMatch(/suspect since.*Friday 4 December 2026: Tank B takes it/);
    await house.work();
    expect(house.mail.sent).toHaveLength(mails);
    await assistant.get(`${baths}/off`);
    await assistant.post(`${baths}/off`, answers);
    expect(wordsOf((await owner.get(baths)).html).match(/oysters: At the edges\./g)).toHaveLength(1);
  });

  it('a bottle is put aside, and who had of it is told what serves them now', async () => {
    await sit();
    const id = await putAside(house, studio, `bottle:${studio.lots.fixer}`, 'comets');
    const text = wordsOf((await assistant.get(`${baths}/off/${id}`)).html);
    expect(text).toContain('First Hypo fixer');
    expect(text).toMatch(/Friday 4 December 2026 \(Linnea Harrow\): more is to be mixed or bought/);
    const lots = await house.db.inStudio(studio.id, (tx) => house.app.get(StockService).lots(tx));
    expect(lots.find((one) => one.id === studio.lots.fixer)?.state).toBe('suspect');
  });

  it('what was changed and whether it helped is kept', async () => {
    const bath = await enterBath(house, studio);
    const id = await putAside(house, studio, `bath:${bath}`);
    await owner.get(`${baths}/off/${id}`);
    const { html } = await owner.postAndFollow(`${baths}/off/${id}`, {
      changed: 'Filtered twice.',
      helped: 'partly',
    });
    expect(fieldsOf(html, `${baths}/off/${id}`)).toMatchObject({
      changed: 'Filtered twice.',
      helped: 'partly',
    });
    expect(wordsOf((await owner.get(baths)).html)).toMatch(/fog Tank A Filtered twice\. partly/);
    const wrong = await owner.post(`${baths}/off/${id}`, { changed: 'x', helped: 'maybe' });
    expect([wrong.status, errorAt(wrong.html, 'helped')]).toEqual([422, 'Please choose whether it helped.']);
  });

  it('the form wants to know what and what was seen', async () => {
    await enterBath(house, studio);
    const { html } = await assistant.get(`${baths}/off`);
    const answer = await assistant.post(`${baths}/off`, { _key: keyOf(html), note: 'grey' });
    expect(answer.status).toBe(422);
    expect(errorAt(answer.html, 'what')).toBe('Please choose the bath or the bottle.');
    expect(errorAt(answer.html, 'seen')).toBe('Please choose what was seen.');
    expect(answer.html).toContain('>grey</textarea>');
    const unknown = { what: 'bath:00000000-0000-4000-8000-000000000000', seen: 'fog' };
    expect((await assistant.post(`${baths}/off`, unknown)).status).toBe(404);
  });
});
