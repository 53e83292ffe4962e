// What a day took through its doors: written down, corrected, taken out, and what the studio's own figures become.
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../../src/chemistry/actuals.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { MadeService } from '../../src/plates/made.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let staff: Visitor;
let used: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
let number = 0;
beforeEach(async () => {
  const slug = `studio-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  staff = await signedIn(house, studio, 'assistant');
  used = `/s/${slug}/desk/shelf/used`;
});

const textOf = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');

const day = (changed: Record<string, string> = {}): Record<string, string> => ({
  'day-day': '20',
  'day-month': '11',
  'day-year': '2026',
  madeBy: 'sittings',
  [`tries-${studio.sizes.whole.id}`]: '6',
  [`kept-${studio.sizes.whole.id}`]: '5',
  collodion: '80',
  developer: '0.5 l',
  silver: '4,1',
  note: 'Bright.',
  ...changed,
});
async function write(changed: Record<string, string> = {}) {
  await staff.get(used);
  return staff.postAndFollow(used, day(changed));
}
const figures = () => house.db.inStudio(studio.id, (tx) => house.app.get(ActualsService).figures(tx));

describe('writing a day down', () => {
  it('keeps it, shows it in words and moves the own figures', async () => {
    const { html } = await write();
    const text = textOf(html);
    expect(text).toContain('The day is written down');
    expect(text).toMatch(
      /Friday 20 November 2026, of sittings 5 kept of 6, .{0,20}[Ww]hole.{0,30} collodion 80 mL, developer 500 mL, silver nitrate 4\.1 g Bright\./,
    );
    // 80 mL over 6 x 55.25 square inches is 241.3 microlitres; one day against five of the usual 200
    const { learnedUse, learnedShare } = await figures();
    expect(learnedUse.collodion.own).toBeCloseTo(80_000 / (6 * 55.25), 3);
    expect(learnedUse.collodion.figure).toBeCloseTo((5 * 200 + 80_000 / (6 * 55.25)) / 6, 3);
    expect(learnedShare.sittings.figure).toBeCloseTo((30 * 0.7 + 5) / 36, 9);
    expect(text).toMatch(/Collodion 11\.\d mL 13\.\d mL one day 83 % 11\.\d mL/);
    expect(text).toMatch(/Plates kept, of sittings 70 of 100 83 of 100 6 plates 83 % 72 of 100/);
    expect(text).toMatch(/Plates kept, of learners 55 of 100 not known yet nothing yet 100 % 55 of 100/);
  });

  it('takes what little one knows: an amount alone, plates alone, a note alone', async () => {
    const none = {
      [`tries-${studio.sizes.whole.id}`]: '',
      [`kept-${studio.sizes.whole.id}`]: '',
      collodion: '',
      developer: '',
      silver: '',
      note: '',
    };
    expect((await write({ ...none, fixer: '1 l' })).status).toBe(200);
    expect((await write({ ...none, note: 'Fog.', 'day-day': '19' })).status).toBe(200);
    const plates = { [`tries-${studio.sizes.half.id}`]: '4', [`kept-${studio.sizes.half.id}`]: '0' };
    expect(textOf((await write({ ...none, ...plates, 'day-day': '18' })).html)).toContain('0 kept of 4');
    await staff.get(used);
    const nothing = await staff.post(used, day({ ...none, 'day-day': '17' }));
    expect(nothing.status).toBe(422);
    expect(nothing.html).toContain('Please write down something of this day');
  });

  it('tells mistakes at their fields and loses nothing that was typed', async () => {
    await staff.get(used);
    const { whole } = studio.sizes;
    const { status, html } = await staff.post(
      used,
      day({
        'day-month': '13',
        madeBy: 'ghosts',
        [`kept-${whole.id}`]: '7',
        collodion: 'a cup',
        note: 'Dull.',
      }),
    );
    expect(status).toBe(422);
    for (const sentence of [
      'Please give the date',
      'Please say whose plates they were.',
      'not more than the 6 made',
      'Please write how much with its unit',
    ])
      expect(html).toContain(sentence);
    for (const typed of ['value="13"', 'value="7"', 'value="a cup"', 'Dull.']) expect(html).toContain(typed);
    expect(textOf(html)).toContain('No day is written down yet.');
  });

  it.each([
    ['This day is still to come.', { 'day-day': '26' }],
    ['Please give the date', { 'day-day': '31' }],
    ['This cannot be below nothing.', { collodion: '-3' }],
    ['This can be read in two ways', { collodion: '1,250' }],
    ['Which ounce', { collodion: '3 oz' }],
    ['Please write how much with its unit, like 25 g.', { silver: '4 ml' }],
    ['Please keep this under 1000 characters.', { note: 'n'.repeat(1001) }],
  ])('refuses a slip of the pen: "%s"', async (sentence, changed) => {
    await staff.get(used);
    const { status, html } = await staff.post(used, day(changed as Record<string, string>));
    expect(status).toBe(422);
    expect(html).toContain(sentence);
  });

  it('asks how many were made and kept where only one of both is told', async () => {
    await staff.get(used);
    const { id } = studio.sizes.whole;
    const kept = await staff.post(used, day({ [`tries-${id}`]: '', [`kept-${id}`]: '2' }));
    expect(kept.html).toContain('Please say how many were made');
    const made = await staff.post(used, day({ [`kept-${id}`]: '' }));
    expect(made.html).toContain('Please say how many of them are kept; 0 counts too.');
  });
});

describe('a day that is written down', () => {
  it('is not written over by another form', async () => {
    await write();
    await staff.get(used);
    const again = await staff.post(used, day({ collodion: '500' }));
    expect(again.status).toBe(422);
    expect(again.html).toContain('This day is written down already');
    expect((await figures()).learnedUse.collodion.own).toBeCloseTo(80_000 / (6 * 55.25), 3);
    expect((await write({ madeBy: 'beginners' })).status).toBe(200);
  });

  it('is corrected as a whole, and may have been another day', async () => {
    await write();
    const { html } = await staff.get(`${used}?correct=2026-11-20-sittings`);
    expect(html).toMatch(/name="collodion"[^>]*value="80"/);
    expect(html).toMatch(/name="silver"[^>]*value="4\.1"/);
    const corrects = /name="corrects" value="([^"]+)"/.exec(html)?.[1] ?? '';
    const done = await staff.postAndFollow(used, day({ 'day-day': '19', collodion: '', corrects }));
    const text = textOf(done.html);
    expect(text).toContain('Thursday 19 November 2026, of sittings');
    expect(text).not.toContain('Friday 20 November 2026, of sittings');
    expect((await figures()).learnedUse.collodion.own).toBeNull();
  });

  it('is taken out once', async () => {
    await write();
    const { html } = await staff.postAndFollow(`${used}/remove`, { which: '2026-11-20-sittings' });
    expect(textOf(html)).toContain('No day is written down yet.');
    expect((await staff.post(`${used}/remove`, { which: '2026-11-20-sittings' })).status).toBe(404);
    expect((await staff.post(`${used}/remove`, { which: 'yesterday' })).status).toBe(404);
  });

  it('is what places are given by from then on', async () => {
    const need = async () => {
      const { sittingId } = await askForSitting(house, studio);
      const [start = ''] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-05-28' });
      await approve(house, studio, sittingId, start);
      const owner = await signedIn(house, studio, 'owner');
      const { html } = await owner.get(`/s/${studio.slug}/desk/requests/${sittingId}`);
      return Number(/Iodised collodion[^0-9]*([\d.]+) mL/.exec(textOf(html))?.[1]);
    };
    const before = await need();
    for (const at of ['16', '17', '18', '19', '20']) await write({ 'day-day': at, collodion: '200' });
    // 200 mL over 6 whole plates is 603 microlitres a square inch; five days of it against five of the usual 200
    expect((await need()) / before).toBeCloseTo((200 + 200_000 / (6 * 55.25)) / 2 / 200, 1);
  });
});

describe('who may', () => {
  it('is owner and assistant of this studio, each studio its own', async () => {
    await write();
    expect((await new Visitor(house).get(used)).status).toBe(401);
    const slug = `other-${number}`;
    const other = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
    const stranger = await signedIn(house, other, 'owner');
    expect((await stranger.get(used)).status).toBe(401);
    const theirs = `/s/${slug}/desk/shelf/used`;
    expect(textOf((await stranger.get(theirs)).html)).toContain('No day is written down yet.');
    expect((await stranger.post(`${theirs}/remove`, { which: '2026-11-20-sittings' })).status).toBe(404);
  });
});

describe('what is still set aside for a day past', () => {
  const levels = () =>
    house.db.inStudio(studio.id, async (tx) =>
      (await house.app.get(StockService).lots(tx)).map((lot) => [lot.onHand, lot.reserved]),
    );
  async function pastDay() {
    const { sittingId } = await askForSitting(house, studio);
    const [start] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-04-02' });
    await approve(house, studio, sittingId, start ?? '');
    const before = await levels();
    house.clock.set('2027-04-03T10:00:00Z');
    staff = await signedIn(house, studio, 'assistant');
    return before;
  }
  afterEach(() => house.clock.set('2026-11-25T10:00:00Z'));

  it('is taken off the shelf with one tap, once', async () => {
    const before = await pastDay();
    const { html } = await staff.get(used);
    expect(textOf(html)).toContain('Friday 2 April 2027');
    await staff.postAndFollow(`${used}/settle`, { day: '2027-04-02', became: 'used' });
    const after = await levels();
    expect(after).toEqual(before.map(([onHand = 0n, reserved = 0n]) => [onHand - reserved, 0n]));
    await staff.get(used);
    await staff.postAndFollow(`${used}/settle`, { day: '2027-04-02', became: 'used' });
    expect(await levels()).toEqual(after);
  });

  it('goes back where nothing was used', async () => {
    const before = await pastDay();
    await staff.get(used);
    await staff.postAndFollow(`${used}/settle`, { day: '2027-04-02', became: 'not used' });
    expect(await levels()).toEqual(before.map(([onHand = 0n]) => [onHand, 0n]));
  });

  it('is left alone for a day to come', async () => {
    const before = await pastDay();
    house.clock.set('2027-04-01T10:00:00Z');
    await staff.get(used);
    await staff.postAndFollow(`${used}/settle`, { day: '2027-04-02', became: 'used' });
    expect(await levels()).toEqual(before);
  });
});

describe('a day whose plates were typed in', () => {
  it('is told by its plates: no counts are asked for, amounts are, and it is not taken out', async () => {
    house.clock.set('2026-11-25T10:00:00Z');
    const { sittingId } = await askForSitting(house, studio);
    await approve(house, studio, sittingId, '2027-04-02T09:30');
    house.clock.set('2027-04-02T15:00:00Z');
    const plateSizeId = studio.sizes.whole.id;
    const plate = (keeper: boolean) => ({ id: new SystemRandom().id(), sittingId, plateSizeId, keeper });
    const friday = Temporal.PlainDate.from('2027-04-02');
    const made = house.app.get(MadeService);
    await made.save(studio.id, studio.owner, friday, { first: 1, plates: [plate(true), plate(false)] });
    staff = await signedIn(house, studio, 'assistant');
    const { html } = await staff.get(`${used}?correct=2027-04-02-sittings`);
    expect(textOf(html)).toContain('Its plates were typed in, and are counted from there');
    expect(html).not.toContain(`name="tries-${plateSizeId}"`);
    expect(html).not.toContain('Take out');
    const date = { 'day-day': '2', 'day-month': '4', 'day-year': '2027', corrects: '2027-04-02-sittings' };
    const written = textOf((await staff.postAndFollow(used, day(date))).html);
    expect(written).toContain('1 kept of 2, Whole plate');
    expect(written).toContain('collodion 80 mL');
    expect((await staff.post(`${used}/remove`, { which: '2027-04-02-sittings' })).status).toBe(409);
    house.clock.set('2026-11-25T10:00:00Z');
  });
});

it('two who correct the same day: the second is told what the first wrote', async () => {
  await write();
  const other = await signedIn(house, studio, 'owner');
  const correct = `${used}?correct=2026-11-20-sittings`;
  const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(correct)).html, used);
  const [shown, alsoShown] = [await shownTo(staff), await shownTo(other)];
  expect((await staff.post(used, { ...shown, note: 'Fog at noon.' })).status).toBe(303);
  const told = await other.post(used, { ...alsoShown, note: 'Fog all day.' });
  expect([told.status, errorAt(told.html, 'note')]).toEqual([409, 'Meanwhile it says: Fog at noon.']);
  expect((await shownTo(staff)).note).toBe('Fog at noon.');
  expect((await other.post(used, fieldsOf(told.html, used))).status).toBe(303);
  expect((await shownTo(staff)).note).toBe('Fog all day.');
});

it('a day that was taken out meanwhile is written down again only knowingly', async () => {
  await write();
  const other = await signedIn(house, studio, 'owner');
  const correct = `${used}?correct=2026-11-20-sittings`;
  const shown = fieldsOf((await staff.get(correct)).html, used);
  await other.get(used);
  expect((await other.post(`${used}/remove`, { which: '2026-11-20-sittings' })).status).toBe(303);
  const told = await staff.post(used, { ...shown, note: 'Fog at noon.' });
  expect([told.status, errorAt(told.html, 'day')]).toEqual([
    409,
    'Meanwhile somebody took this day out. Sending again writes it down anew.',
  ]);
  const again = fieldsOf(told.html, used);
  expect(again).toMatchObject({ note: 'Fog at noon.' });
  expect(again).not.toHaveProperty('corrects');
  expect((await staff.post(used, again)).status).toBe(303);
  expect(fieldsOf((await staff.get(correct)).html, used).note).toBe('Fog at noon.');
});
