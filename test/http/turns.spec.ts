// A teaching day's turns at the desk and on a student's page, in a browser without script, and through the API.
import { Temporal } from 'temporal-polyfill';
import { TurnsService } from '../../src/teaching/turns.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { keepTurns, signUp, teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let desk: string;

const TWO = { students: [{ name: 'Ada Fell' }, { name: 'Bo Fell' }] };

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { halfGlass: 400n } });
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
  desk = `/s/${studio.slug}/desk/teaching`;
}, 60_000);
afterAll(() => house.close());
beforeEach(() => house.clock.set('2026-11-25T10:00:00Z'));

/** A day with two who come together and one alone, and where it is. */
async function day(start: string, change: Record<string, unknown> = {}) {
  const { sessionId, templateId } = await teachingDay(house, studio, { start, ...change });
  const { token } = await signUp(house, studio, sessionId, TWO);
  await signUp(house, studio, sessionId, { name: 'Cy Marsh', students: [{ name: 'Cy Marsh' }] });
  return { sessionId, templateId, token, own: `${desk}/${sessionId}` };
}
/** Sets the clock at the studio; the assistant signs in on that day. */
const on = async (at: string) => {
  const wall = Temporal.PlainDateTime.from(at);
  house.clock.set(`${wall.toString()}Z`); // winter: the studio's clocks show UTC
  assistant = await signedIn(house, studio, 'assistant');
};

describe('The owner', () => {
  it('sees the turns, keeps them, and is told to lay them again when somebody signs up', async () => {
    const { own, sessionId, token } = await day('2027-01-06T09:00');
    const first = await owner.get(`${own}/turns`);
    const words = wordsOf(first.html);
    expect(words).toContain('The day fits');
    expect(words).toContain('These turns are proposed. Nobody sees them until they are kept.');
    expect(words).toContain('Laid for 3 students with 9 plates');
    expect(words).toMatch(/(could gain|No order of the turns could end earlier)/);
    expect(words).toContain('What holds the day up most');
    expect(words).toContain('The turns of Ada Fell');
    expect(first.html).toContain('class="rota-chart"');
    const before = wordsOf((await owner.get(`/s/${studio.slug}/student/${token}`)).html);
    expect(before).not.toContain('Your turns');
    const keep = `${own}/turns/keep`;
    const form = fieldsOf(first.html, keep);
    const kept = await owner.postAndFollow(keep, form);
    expect(wordsOf(kept.html)).toContain('These turns are kept.');
    expect(kept.html).not.toContain(`action="${keep}"`);
    const student = wordsOf((await owner.get(`/s/${studio.slug}/student/${token}`)).html);
    expect(student).toContain('Your turns');
    expect(student).toContain('Make your first plate');
    expect(student).not.toContain('Cy Marsh');
    expect(student).toMatch(/Cy|somebody/);
    await signUp(house, studio, sessionId, { name: 'Dee', students: [{ name: 'Dee' }] });
    const stale = await owner.get(`${own}/turns`);
    expect(wordsOf(stale.html)).toContain('laid for other people, another course or another bench');
    const late = await owner.post(keep, form);
    expect([late.status, wordsOf(late.html)]).toEqual([
      409,
      expect.stringContaining('this is how it stands now'),
    ]);
    const again = await owner.postAndFollow(keep, fieldsOf(stale.html, keep));
    expect(wordsOf(again.html)).toContain('The turns of Dee');
    expect(wordsOf(again.html)).not.toContain('laid for other people');
  }, 60_000);

  it('sees what holds up a day that does not fit, and is led to where each change is made', async () => {
    const { own, templateId } = await day('2027-01-13T10:00', {
      parts: [{ title: 'Rounds', minutes: 100, where: 'darkroom' }],
    });
    const { html } = await owner.get(`${own}/turns`);
    const words = wordsOf(html);
    expect(words).toContain('The day does not fit');
    expect(words).toContain('What would make it fit');
    const links = [`${own}/bench`, `${desk}/templates/${templateId}`, own];
    expect(links.some((href) => html.includes(`<a href="${href}">Change`))).toBe(true);
  }, 60_000);

  it('looks at a day in the cold without keeping anything, and keeps it so', async () => {
    const { own, sessionId } = await day('2027-02-10T09:30');
    const cold = await owner.get(`${own}/turns?weather=cold`);
    expect(fieldsOf(cold.html, `${own}/turns/keep`)).toMatchObject({ weather: 'cold' });
    const mild = await owner.get(`${own}/turns`);
    expect(fieldsOf(mild.html, `${own}/turns/keep`).basis).not.toBe(
      fieldsOf(cold.html, `${own}/turns/keep`).basis,
    );
    expect(await house.app.get(TurnsService).kept(studio.id, sessionId)).toBeNull();
  }, 60_000);

  it('sets the bench of a day: mistakes beside their fields, starting figures with their source, turns that follow', async () => {
    const { own, sessionId } = await day('2027-01-20T09:00');
    const path = `${own}/bench`;
    const page = await owner.get(path);
    expect(wordsOf(page.html)).toContain('Estabrooke');
    expect(wordsOf(page.html)).toContain('common practice, no source');
    const form = fieldsOf(page.html, path);
    const wrong = await owner.post(path, {
      ...form,
      'bench/steps/fix/low': '100',
      'bench/steps/fix/likely': '90',
      'bench/steps/fix/high': '120',
      'bench/further/rackPlaces': 'many',
    });
    expect(wrong.status).toBe(422);
    expect(errorAt(wrong.html, 'bench/steps/fix/likely')).toContain('not below the shortest');
    expect(errorAt(wrong.html, 'bench/further/rackPlaces')).toContain('whole number from 1');
    expect(fieldsOf(wrong.html, path)).toMatchObject({ 'bench/further/rackPlaces': 'many' });
    await keepTurns(house, studio, sessionId);
    const saved = await owner.postAndFollow(path, {
      ...form,
      'stations/tanks': '3',
      'bench/helpers': '1',
      'bench/steps/fix/low': '60',
      'bench/steps/fix/likely': '90',
      'bench/steps/fix/high': '120',
    });
    expect(wordsOf(saved.html)).toContain('The bench is saved.');
    expect(wordsOf(saved.html)).toContain('laid for other people, another course or another bench');
    expect(fieldsOf((await owner.get(path)).html, path)).toMatchObject({
      'stations/tanks': '3',
      'bench/helpers': '1',
      'bench/steps/fix/likely': '90',
    });
    const now = fieldsOf((await owner.get(path)).html, path);
    const none = await owner.postAndFollow(path, { ...now, 'stations/cameras': '0' });
    // kept turns stay until they are laid again
    expect(wordsOf(none.html)).toContain('The turns of Ada Fell');
  }, 60_000);

  it('writes bench and parts that all take part in into a kind of day', async () => {
    const path = `${desk}/templates/new`;
    const saved = await owner.postAndFollow(path, {
      ...fieldsOf((await owner.get(path)).html, path),
      name: 'Together',
      'parts/0/title': 'Shown',
      'parts/0/minutes': '45',
      'parts/0/where': 'darkroom',
      'parts/0/together': 'yes',
      'bench/weather': 'hot',
      'bench/steps/wash/low': '600',
      'bench/steps/wash/likely': '700',
      'bench/steps/wash/high': '900',
    });
    const again = /href="([^"]*\/templates\/[0-9a-f-]{36})"[^>]*>[^<]*Together/.exec(saved.html)?.[1];
    const shown = fieldsOf((await owner.get(again ?? '')).html, again ?? '');
    expect(shown).toMatchObject({
      'parts/0/together': 'yes',
      'bench/weather': 'hot',
      'bench/steps/wash/likely': '700',
    });
  });
});

describe('On the day', () => {
  it('the assistant tells who is late, what is done and who has left; mistakes lose nothing', async () => {
    const { own, sessionId } = await day('2027-01-27T09:00');
    await keepTurns(house, studio, sessionId);
    await on('2027-01-27T09:20');
    const { html } = await assistant.get(`${own}/turns`);
    const late = `${own}/turns/late`;
    const wrong = await assistant.post(late, { ...fieldsOf(html, late), minutes: 'soon' });
    expect([wrong.status, errorAt(wrong.html, 'studentId'), errorAt(wrong.html, 'minutes')]).toEqual([
      422,
      expect.stringContaining('choose a student'),
      expect.stringContaining('whole minutes'),
    ]);
    expect(fieldsOf(wrong.html, late)).toMatchObject({ minutes: 'soon' });
    const found = await house.app.get(TurnsService).kept(studio.id, sessionId);
    const [ada, bo] = ['Ada Fell', 'Bo Fell'].map(
      (name) => found?.students.find((one) => one.name === name)?.id,
    );
    const told = await assistant.postAndFollow(late, {
      ...fieldsOf(html, late),
      studentId: ada ?? '',
      minutes: '40',
    });
    expect(wordsOf(told.html)).toContain('The rest of the day is planned around it.');
    expect(wordsOf(told.html)).toContain('Ada Fell comes at 10:00.');
    const plate = `${own}/turns/plate`;
    const skipped = await assistant.postAndFollow(plate, {
      ...fieldsOf(told.html, plate),
      plate: `${bo} 3`,
      what: 'skip',
    });
    expect(wordsOf(skipped.html)).toContain('Skipped: Bo Fell, plate 3.');
    const empty = await assistant.post(plate, { ...fieldsOf(told.html, plate), plate: '', what: 'done' });
    expect([empty.status, errorAt(empty.html, 'plate')]).toEqual([
      422,
      expect.stringContaining('choose a plate'),
    ]);
    const left = `${own}/turns/left`;
    const gone = await assistant.postAndFollow(left, { ...fieldsOf(told.html, left), leaverId: ada ?? '' });
    expect(wordsOf(gone.html)).toContain('Ada Fell has left.');
    expect(wordsOf(gone.html)).not.toContain('The turns of Ada Fell');
    const again = `${own}/turns/again`;
    const nobody = await assistant.post(again, { ...fieldsOf(gone.html, again), again: 'x' });
    expect([nobody.status, errorAt(nobody.html, 'again')]).toEqual([
      422,
      expect.stringContaining('choose who is here'),
    ]);
    const back = await assistant.postAndFollow(again, { ...fieldsOf(gone.html, again), again: ada ?? '' });
    expect(wordsOf(back.html)).not.toContain('Ada Fell has left.');
    const made = await assistant.postAndFollow(again, { ...fieldsOf(back.html, again), again: `${bo} 3` });
    expect(wordsOf(made.html)).not.toContain('Skipped: Bo Fell, plate 3.');
    expect(made.html).not.toContain(again);
  }, 60_000);

  it('the red screen tells now and next, is pure, and takes a tap', async () => {
    const { own, sessionId } = await day('2027-02-03T09:00');
    expect((await assistant.get(`${own}/turns/red`)).status).toBe(404);
    await keepTurns(house, studio, sessionId);
    await on('2027-02-03T11:00');
    const red = `${own}/turns/red`;
    const { html } = await assistant.get(red);
    expect(html).toMatch(/href="\/static\/red\.[0-9a-f]+\.css"/);
    expect(html).not.toMatch(/<script|static\/app|<svg|<img/);
    const words = wordsOf(html);
    expect(words).toContain('11:00 Wednesday 3 February 2027');
    for (const name of ['Ada Fell', 'Bo Fell', 'Cy Marsh']) expect(words).toContain(name);
    expect(words).toMatch(/Now, until|At \d\d:\d\d:/);
    const plate = /name="plate" value="([^"]+)"/.exec(html)?.[1] ?? '';
    const tapped = await assistant.post(`${own}/turns/plate`, {
      ...fieldsOf(html, `${own}/turns/plate`),
      plate,
      what: 'done',
      from: 'red',
    });
    expect([tapped.status, tapped.location]).toEqual([303, red]);
    expect((await house.app.get(TurnsService).kept(studio.id, sessionId))?.kept.told.done).toEqual([plate]);
  }, 60_000);
});
