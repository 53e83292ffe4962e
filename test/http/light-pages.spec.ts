// The owner's year, month and day of light, through their doors.
import { gzipSync } from 'node:zlib';
import { Temporal } from 'temporal-polyfill';
import { RoomService } from '../../src/room/room.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let light: string;
let sittingId: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  light = `/s/${studio.slug}/desk/light`;
  sittingId = (await askForSitting(house, studio, { name: 'Ebba Fjordvik' })).sittingId;
  await approve(house, studio, sittingId, '2027-05-14T11:15');
  const { whole, half } = studio.sizes;
  const plates = [whole, half].map((size) => ({ plateSizeId: size.id, sitters: [0] }));
  const long = await askForSitting(house, studio, { name: 'Corin Ashby', plates });
  await approve(house, studio, long.sittingId, '2027-05-21T11:15');
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const textOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');
const marks = (html: string, state: string) =>
  new RegExp(`<path class="place-mark ${state}" d="([^"]*)"`).exec(html)?.[1]?.match(/M/g)?.length ?? 0;

describe('the year of light', () => {
  it('draws as many marks as its table counts, and two are taken', async () => {
    const { status, html } = await owner.get(light);
    expect(status).toBe(200);
    const counts = [...html.matchAll(/data-head="(Open|Held|Taken)"[^>]*>(\d+)</g)];
    const total = (name: string) =>
      counts.filter(([, head]) => head === name).reduce((sum, [, , number]) => sum + Number(number), 0);
    expect(counts).toHaveLength(36);
    expect(total('Open')).toBe(marks(html, 'open'));
    expect(total('Open')).toBeGreaterThan(100);
    expect([total('Taken'), marks(html, 'taken')]).toEqual([2, 2]);
    expect(textOf(html)).toContain(`${total('Open')} places open, 2 taken.`);
  });

  it('begins with this month, which its title names, and has today in it', async () => {
    const { html } = await owner.get(light);
    expect(html).toContain('>The light of November 2026 to October 2027</h1>');
    expect(/Month by month[\s\S]*?>(Nov 2026)</.exec(html)?.[1]).toBe('Nov 2026');
    expect(html).toContain('class="today-line"');
    expect((await owner.get(`${light}/2029`)).html).not.toContain('class="today-line"');
  });

  it('weighs little', async () => {
    const { html } = await owner.get(`${light}/2027`);
    expect(gzipSync(html).length).toBeLessThan(20_000);
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('opens nothing beyond the horizon of booking', async () => {
    expect(marks((await owner.get(`${light}/2029`)).html, 'open')).toBe(0);
  });
});

describe('the month and the day of light', () => {
  it('tells each day of the month, with what is open and taken', async () => {
    const { status, html } = await owner.get(`${light}/2027-05`);
    expect(status).toBe(200);
    expect(html.match(/scope="row"/g)).toHaveLength(31);
    expect(textOf(html)).toMatch(/Fri 14 May 2027 06:22–19:36 3 open, 1 taken/);
    expect(html).toContain(`href="${light}/2027-05-14"`);
    expect(html).toContain('class="light-chart"');
  });

  it('tells a day: the sun, the places with who sits, and the seconds', async () => {
    const { status, html } = await owner.get(`${light}/2027-05-14`);
    expect(status).toBe(200);
    const text = textOf(html);
    expect(text).toContain('11:15 to 12:30');
    expect(html).toContain(`href="/s/${studio.slug}/desk/requests/${sittingId}">Ebba Fjordvik</a>`);
    expect(text).toMatch(/09:30 to 10:45 Open: hold still/);
    expect(text).toContain('not confirmed');
    expect(html.match(/class="place-mark (open|taken)"/g)?.length).toBeGreaterThan(4); // places and legend
  });

  it('says why nothing is open on a dark day', async () => {
    const { html } = await owner.get(`${light}/2026-12-18`);
    expect(textOf(html)).toMatch(/Not open: 09:30, the light is not yet good/);
  });

  it('names a start that has no room left after a longer sitting, and not the start of that sitting', async () => {
    const text = textOf((await owner.get(`${light}/2027-05-21`)).html);
    expect(text).toMatch(/11:15 to 12:55 Corin Ashby/);
    expect(text).toContain('Not open: 13:00, the room is taken in that time.');
    expect(textOf((await owner.get(`${light}/2027-05-14`)).html)).not.toContain('Not open');
  });

  it('shows a closed day as closed', async () => {
    const other = await foundTestStudio(house, { slug: 'dunlin-loft', email: 'desk@dunlin-loft.example' });
    const range = {
      from: Temporal.PlainDate.from('2027-05-10'),
      until: Temporal.PlainDate.from('2027-05-16'),
    };
    await house.db.inStudio(other.id, async (tx) =>
      house.app.get(RoomService).close(tx, await house.app.get(StudiosService).load(tx), range, 'Holiday'),
    );
    const there = await signedIn(house, other, 'owner');
    const month = (await there.get(`/s/${other.slug}/desk/light/2027-05`)).html;
    expect(textOf(month).match(/ closed /g)).toHaveLength(7);
    expect(month).toMatch(/class="closed-days" d="M/);
    expect(textOf((await there.get(`/s/${other.slug}/desk/light/2027-05-14`)).html)).toContain(
      'The room is closed.',
    );
  });

  it.each(['2027-13', '2027-02-30', '1850', '2100', 'may', '2027-5', '20270514', '2027-05-14x'])(
    'has no page for %s',
    async (when) => {
      expect((await owner.get(`${light}/${when}`)).status).toBe(404);
    },
  );

  it('is for the owner alone', async () => {
    const assistant = await signedIn(house, studio, 'assistant');
    for (const path of ['', '/2027', '/2027-05', '/2027-05-14']) {
      expect((await new Visitor(house).get(`${light}${path}`)).status).toBe(401);
      expect((await assistant.get(`${light}${path}`)).status).toBe(403);
    }
  });
});
