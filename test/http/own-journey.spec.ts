// What people tell of their journey on their own pages, and what it changes there and at the owner's desk.
import { SittingViews } from '../../src/sittings/views.service.js';
import { callerAt } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let visitor: Visitor;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  visitor = new Visitor(house);
});
afterAll(() => house.close());

const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/[\s\u00a0]+/g, ' ');
const START = '2027-04-02T09:30';
const suits = { kind: 'any', from: '2026-12-01', until: '2027-05-20' } as const;

/** A sitter from York with a place, and the path of their page. */
async function sitter(name: string, start: string) {
  const asked = await askForSitting(house, studio, { name, home: 'York, United Kingdom', suits });
  await approve(house, studio, asked.sittingId, start);
  return { ...asked, path: `/s/${studio.slug}/place/${asked.token}` };
}
const form = async (path: string) => fieldsOf((await visitor.get(`${path}/journey`)).html, `${path}/journey`);
const tell = async (path: string, change: Record<string, string>) =>
  visitor.post(`${path}/journey`, { ...(await form(path)), ...change });

describe('the journey of a sitter', () => {
  it('is told on their own page, and follows what they say, also at the desk', async () => {
    const { path, sittingId } = await sitter('Runa Petersen', START);
    // York: two hours at most before nine
    expect(textOf((await visitor.get(path)).html)).toContain('Leave home by Friday 2 April 2027, 07:00');
    const { status, location } = await tell(path, {
      mode: 'train',
      hours: '2:40',
      night: 'yes',
      margin: '60',
    });
    expect([status, location]).toEqual([303, `${path}?done=journey`]);
    const told = textOf((await visitor.get(path)).html);
    // 20:00 the evening before, less 2 h 40
    expect(told).toContain('Leave home by Thursday 1 April 2027, 17:20');
    expect(told).toContain('Train, as you say: 2 h 40 from door to door, as you say');
    expect(await form(path)).toMatchObject({ mode: 'train', hours: '2:40', night: 'yes', margin: '60' });

    const owner = await callerAt(house, studio, 'owner');
    const url = `/s/${studio.slug}/desk/requests/${sittingId}`;
    const desk = textOf((await house.app.inject({ url, headers: { cookie: owner.cookie } })).body);
    expect(desk).toContain('they come by train and stay the night');
    expect(desk).toContain('They are told to leave by Thursday 1 April 2027, 17:20 (Europe/London).');
    expect(desk).toContain('told about the journey');
    const [view] = await house.app.get(SittingViews).some(studio.id, [sittingId]);
    expect(view?.journey).toMatchObject({
      own: true,
      farAway: 'night stay',
      hours: { from: 160 / 60, to: 160 / 60 },
    });
  });

  it('begins elsewhere when they say so, by name or coordinates, with the zone of the new place or a better one', async () => {
    const { path } = await sitter('Jory Tamblyn', '2027-04-02T11:15');
    await tell(path, { place: 'Bergen, Norway' });
    const told = textOf((await visitor.get(path)).html);
    expect(told).toContain('by your clocks (Europe/Oslo)');
    expect(told).toContain('A sea is on the way from the mainland of Europe and Asia to Great Britain');
    expect(await form(path)).toMatchObject({ place: 'Bergen, Vestland, Norway', zone: 'Europe/Oslo' });
    await tell(path, { zone: 'Europe/Helsinki' });
    expect(await form(path)).toMatchObject({ place: 'Bergen, Vestland, Norway', zone: 'Europe/Helsinki' });
    await tell(path, { place: '51.51, -0.13' });
    const kept = await form(path);
    expect(kept.place).toMatch(/^51\.51°, -0\.13° \(near .*London/);
    expect(kept.zone).toBe('Europe/London');
    // sent again as it stands, nothing is lost
    expect((await tell(path, { margin: '15' })).status).toBe(303);
    expect(await form(path)).toMatchObject({ place: kept.place, zone: 'Europe/London', margin: '15' });
  });

  it('a postcode is kept as text, and the nearest town is asked for', async () => {
    const { path } = await sitter('Adaeze Nwosu', '2027-04-02T13:00');
    const swedish = await tell(path, { place: '113 30' });
    expect(fieldsOf(swedish.html, `${path}/journey`)).toMatchObject({ place: '', postcode: '113 30' });
    const sent = await tell(path, { place: 'YO22 4DE' });
    expect(sent.status).toBe(422);
    expect(textOf(sent.html)).toContain('Postcodes are not known here. We keep yours as you wrote it');
    const shown = fieldsOf(sent.html, `${path}/journey`);
    expect(shown).toMatchObject({ place: '', postcode: 'YO22 4DE' });
    expect(
      (await visitor.post(`${path}/journey`, { ...shown, place: 'Whitby, United Kingdom' })).status,
    ).toBe(303);
    expect(await form(path)).toMatchObject({
      place: 'Whitby, England, United Kingdom',
      postcode: 'YO22 4DE',
    });
  });

  it('tells mistakes beside their boxes, keeps what was typed and changes nothing', async () => {
    const { path } = await sitter('Perdita Vale', '2027-04-09T09:30');
    const before = await form(path);
    const wrong = {
      place: 'Springfield',
      hours: 'ages',
      margin: '-3',
      postcode: 'x'.repeat(30),
      zone: 'Mars',
    };
    const sent = await tell(path, wrong);
    expect(sent.status).toBe(422);
    const words = textOf(sent.html);
    for (const message of [
      'Please choose which of these places it is.',
      'Please give hours, such as 6.5 or 6:30; a week at most.',
      'Please give whole minutes, 0 to 720.',
      'A postcode has at most 20 characters.',
      'This time zone is not known.',
    ])
      expect(words).toContain(message);
    expect(fieldsOf(sent.html, `${path}/journey`)).toMatchObject(wrong);
    expect(await form(path)).toEqual({ ...before, _form: expect.anything() });
    expect((await tell(path, { place: '\0', hours: '\0', postcode: '\u0000' })).status).toBe(422);
    expect((await tell(path, { place: '' })).status).toBe(422);
  });

  it('is nobody’s without the link', async () => {
    const path = `/s/${studio.slug}/place/nothing/journey`;
    expect((await visitor.get(path)).status).toBe(404);
  });
});

describe('the journey of a student', () => {
  it('is asked for first, and then told for the day', async () => {
    const { sessionId } = await teachingDay(house, studio);
    const { token } = await signUp(house, studio, sessionId);
    const path = `/s/${studio.slug}/student/${token}`;
    expect(textOf((await visitor.get(path)).html)).toContain(
      'Tell where you come from, and see when to leave',
    );
    expect((await tell(path, { place: 'York, United Kingdom' })).status).toBe(303);
    const told = textOf((await visitor.get(path)).html);
    expect(told).toMatch(/Leave home by \w+day \d+ \w+ 2027, \d\d:\d\d/);
    expect(told).toContain('From York, England, United Kingdom');
    const again = await tell(path, { hours: '99999' });
    expect([again.status, fieldsOf(again.html, `${path}/journey`).hours]).toEqual([422, '99999']);
  });
});
