// Exposure notes through the owner's doors: typed in, kept alike, proposed from, and taken only when confirmed.
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let notes: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
let number = 0;
beforeEach(async () => {
  const slug = `studio-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  owner = await signedIn(house, studio, 'owner');
  notes = `/s/${slug}/desk/light/notes`;
});

const textOf = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');
const keyOf = (html: string) => /name="_key" value="([^"]+)"/.exec(html)?.[1] ?? '';
const loaded = () => house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).load(tx));

/** A good plate in August, near the sun's height of the reference. */
const PLATE = {
  'date-day': '14',
  'date-month': '8',
  'date-year': '2026',
  time: '12:30',
  seconds: '9',
  weather: 'clear',
  lens: 'Petzval 300 mm',
  fNumber: '4',
  framing: 'head',
  magnification: '0.2',
  bottle: 'June A',
  verdict: 'good',
};
async function enter(changed: Record<string, string> = {}) {
  const { html } = await owner.get(notes);
  return owner.postAndFollow(notes, { ...PLATE, _key: keyOf(html), ...changed });
}

describe('noting a plate', () => {
  it('keeps it and fills in next time what seldom changes', async () => {
    const { html } = await enter();
    const text = textOf(html);
    expect(text).toContain('The plate is noted.');
    expect(text).toMatch(/14 August 2026, 12:30 9 Clear Petzval 300 mm at f\/4, head, June A good/);
    expect(html).toMatch(/name="lens"[^>]*value="Petzval 300 mm"/);
    expect(html).not.toMatch(/name="seconds"[^>]*value="9"/);
  });

  it('is one note when the same form comes twice', async () => {
    const key = keyOf((await owner.get(notes)).html);
    await owner.postAndFollow(notes, { ...PLATE, _key: key });
    const { html } = await owner.postAndFollow(notes, { ...PLATE, _key: key });
    expect(html.match(/Take out/g)).toHaveLength(1);
  });

  it('is refused, not dropped, when the same form comes again about another plate', async () => {
    const key = keyOf((await owner.get(notes)).html);
    await owner.postAndFollow(notes, { ...PLATE, _key: key });
    const other = await owner.post(notes, { ...PLATE, time: '12:50', _key: key });
    expect(other.status).toBe(422);
    expect(textOf(other.html)).toContain('This form was sent before, about another plate.');
    expect((await owner.get(notes)).html.match(/Take out/g)).toHaveLength(1);
  });

  it('keeps to a name written before, whatever its capitals', async () => {
    await enter();
    const { html } = await enter({ time: '12:50', lens: 'PETZVAL 300 MM', bottle: 'june a' });
    expect(html.match(/Petzval 300 mm at/g)).toHaveLength(2);
    expect(html).not.toContain('PETZVAL');
  });

  it('tells mistakes at their fields and loses nothing that was typed', async () => {
    await owner.get(notes);
    const { status, html } = await owner.post(notes, {
      ...PLATE,
      seconds: 'nine',
      weather: '',
      time: '1230',
    });
    expect(status).toBe(422);
    for (const sentence of [
      'Please give the seconds',
      'Please choose how the sky was',
      'Please give the time like 14:20',
    ])
      expect(html).toContain(sentence);
    expect(html).toContain('value="nine"');
    expect(html).toContain('value="June A"');
  });

  it.each([
    [{ time: '02:00' }, 'The sun was not up at that time.'],
    [{ 'date-day': '29', 'date-month': '3', time: '01:30' }, 'The clocks skipped that hour.'],
    [{ 'date-year': '2027' }, 'This is still to come'],
    [{ 'date-day': '31', 'date-month': '2' }, 'Please give the date'],
  ])('refuses a slip of the pen: %j', async (changed, sentence) => {
    await owner.get(notes);
    const { status, html } = await owner.post(notes, { ...PLATE, ...changed });
    expect(status).toBe(422);
    expect(html).toContain(sentence);
  });

  it('lets a slip be taken out, once', async () => {
    const { html } = await enter();
    const remove = /action="([^"]+\/remove)"/.exec(html)?.[1] ?? '';
    expect(textOf((await owner.postAndFollow(remove)).html)).toContain('No plate is noted yet.');
    expect((await owner.post(remove)).status).toBe(404);
  });
});

describe('the proposal', () => {
  it('needs five good plates made alike', async () => {
    for (const time of ['11:30', '12:00', '12:30', '13:00']) await enter({ time });
    expect(textOf((await enter({ time: '13:30', bottle: 'July B' })).html)).toContain(
      'Petzval 300 mm, head, June A, clear: 4 of 5',
    );
    const { html } = await enter({ time: '13:30' });
    expect(textOf(html)).toMatch(/5 good plates say \d+(\.\d)? seconds/);
    expect(textOf(html)).toContain('How was this reckoned?');
  });

  it('moves nothing by itself; a look at what it would change comes first, and a line of history after', async () => {
    for (const time of ['11:30', '12:00', '12:30', '13:00', '13:30']) await enter({ time });
    const { html } = await owner.get(notes);
    const proposed = Number(/good plates say <strong>([\d.]+) seconds/.exec(html)?.[1]);
    expect(proposed).toBeGreaterThan(8.5);
    expect(proposed).toBeLessThan(10.5); // nine seconds near the reference's own height of the sun
    const before = await loaded();
    expect(before.referenceSeconds).toBe(6);

    const form = /<form[^>]*action="([^"]+\/settings\/light\/preview)"[\s\S]*?<\/form>/.exec(html);
    const fields = Object.fromEntries(
      [...(form?.[0] ?? '').matchAll(/name="([^"_][^"]*)" value="([^"]*)"/g)].map(([, name, value]) => [
        name,
        value,
      ]),
    ) as Record<string, string>;
    const preview = await owner.post(form?.[1] ?? '', fields);
    expect(preview.status).toBe(200);
    expect((await loaded()).referenceSeconds).toBe(6);

    const seen = /name="seen" value="([^"]+)"/.exec(preview.html)?.[1] ?? '';
    const settings = `/s/${studio.slug}/desk/settings`;
    const done = await owner.post(`${settings}/light/confirm`, { ...fields, seen });
    expect(done.status).toBe(303);
    const after = await loaded();
    expect(after.referenceSeconds).toBe(proposed);
    // the tasks of a calendar may hang on any setting
    expect(after.calendarCounter).toBe(before.calendarCounter + 1n);
    expect(textOf((await owner.get(settings)).html)).toContain(`${proposed} s at 45 degrees`);
    expect(textOf((await owner.get(notes)).html)).toContain('That is the reference you have.');
  });
});

describe('who may', () => {
  it('is the owner of this studio alone', async () => {
    const { html } = await enter();
    const id = /notes\/([0-9a-f-]{36})\/remove/.exec(html)?.[1] ?? '';
    const assistant = await signedIn(house, studio, 'assistant');
    expect((await assistant.get(notes)).status).toBe(403);
    expect((await new Visitor(house).get(notes)).status).toBe(401);
    const other = await foundTestStudio(house, {
      slug: `other-${number}`,
      email: `desk@other-${number}.example`,
    });
    const stranger = await signedIn(house, other, 'owner');
    const theirs = `/s/${other.slug}/desk/light/notes`;
    expect(textOf((await stranger.get(theirs)).html)).toContain('No plate is noted yet.');
    expect((await stranger.post(`${theirs}/${id}/remove`)).status).toBe(404);
    expect((await owner.get(notes)).html).toContain(id);
  });
});
