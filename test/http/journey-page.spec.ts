// The public journey calculator, without a script: by name, by coordinates, with plans, with mistakes.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
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

const path = () => `/s/${studio.slug}/journey`;
const look = (query: Record<string, string>) => visitor.get(`${path()}?${new URLSearchParams(query)}`);
const textOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/[\s\u00a0]+/g, ' ');
const DAY = { 'date-day': '14', 'date-month': 'May', 'date-year': '2027', time: '10:00' };

describe('the journey page', () => {
  it('is linked from the studio’s public page and asks where from first', async () => {
    expect((await visitor.get(`/s/${studio.slug}`)).html).toContain(`href="${path()}"`);
    const { status, html } = await visitor.get(path());
    expect(status).toBe(200);
    expect(html).toContain('method="get"');
    expect(textOf(html)).toContain('GeoNames');
  });

  it('tells how, how long, the night and by when to leave, with the date spelled out', async () => {
    const { status, html } = await look({ place: 'York, United Kingdom', ...DAY });
    const text = textOf(html);
    expect(status).toBe(200);
    expect(text).toContain('From York, England, United Kingdom, to be there for Friday 14 May 2027, 10:00.');
    expect(text).toContain('Leave home by Friday 14 May 2027, 07:30');
    expect(text).toMatch(/Car: 1 h 15 to 2 h from door to door/);
    expect(text).toContain('There and back fit into one day.');
    expect(text).toContain('Speeds, waits and changes are assumptions.');
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('tells the way alone where no day is given, and the sea', async () => {
    const { html } = await look({ place: 'Bergen, Norway' });
    const text = textOf(html);
    expect(text).toContain('A sea is on the way from the mainland of Europe and Asia to Great Britain');
    expect(text).toContain('Flight');
    expect(text).not.toContain('Leave home by');
  });

  it('takes coordinates, another zone, and what people know better', async () => {
    const known = { mode: 'train', hours: '3:20', night: 'no', margin: '45' };
    const { html } = await look({ place: '53.958, -1.083', zone: 'Europe/Paris', ...known, ...DAY });
    const text = textOf(html);
    // 09:00Z less 45 minutes and 3 h 20 is 04:55Z, 06:55 in Paris
    expect(text).toContain('Friday 14 May 2027, 06:55');
    expect(text).toContain('Train, as you say: 3 h 20 from door to door, as you say');
    expect(text).toContain('You come and go in one day, as you say.');
    expect(text).toContain('Clocks at the studio are 1 h behind yours that day.');
  });

  it('asks which place is meant, and takes the answer', async () => {
    const first = await look({ place: 'Springfield', ...DAY });
    expect(first.status).toBe(422);
    expect(textOf(first.html)).toContain('Please choose which of these places it is.');
    const id = /type="radio" name="placeId" value="(\d+)"/.exec(first.html)?.[1] ?? '';
    const { status, html } = await look({ place: 'Springfield', placeId: id, ...DAY });
    expect(status).toBe(200);
    expect(textOf(html)).toContain('From Springfield');
  });

  it.each<[string, Record<string, string>, string, RegExp]>([
    ['no place', { ...DAY }, 'place', /Please give a town or village/],
    ['an unknown place', { place: 'Zzyqqx' }, 'place', /not known here/],
    ['a postcode', { place: 'YO1 7HH' }, 'place', /Postcodes are not known here/],
    ['a postcode of figures in two groups', { place: '113 30' }, 'place', /Postcodes are not known here/],
    ['coordinates beyond the pole', { place: '99, 3' }, 'place', /at most 90 degrees/],
    ['coordinates far out at sea', { place: '-50, -120' }, 'zone', /No town is near these coordinates/],
    [
      'an unknown zone',
      { place: 'York, United Kingdom', zone: 'Mars' },
      'zone',
      /This time zone is not known/,
    ],
    [
      'half a date',
      { place: 'York, United Kingdom', 'date-day': '5' },
      'date-day',
      /a date that the calendar has/,
    ],
    ['no hour', { place: 'York, United Kingdom', ...DAY, time: '' }, 'time', /Please give the time as well/],
    [
      'an hour that is none',
      { place: 'York, United Kingdom', ...DAY, time: '25:00' },
      'time',
      /such as 10:00/,
    ],
    [
      'an hour without a day',
      { place: 'York, United Kingdom', time: '10:00' },
      'time',
      /Please give the day as well/,
    ],
    ['hours in words', { place: 'York, United Kingdom', hours: 'long' }, 'hours', /Please give hours/],
    ['three weeks on the way', { place: 'York, United Kingdom', hours: '500' }, 'hours', /a week at most/],
    ['an unknown way', { place: 'York, United Kingdom', mode: 'broom' }, 'mode', /choose one of these ways/],
    ['a margin of days', { place: 'York, United Kingdom', margin: '999' }, 'margin', /0 to 720/],
  ])('tells a mistake beside its box and keeps what was typed: %s', async (_name, sent, field, message) => {
    const { status, html } = await look(sent);
    expect(status).toBe(422);
    expect(textOf(html)).toMatch(message);
    expect(html).toMatch(/aria-invalid="true"/);
    const kept = fieldsOf(html, path());
    expect(kept).toMatchObject(Object.fromEntries(Object.entries(sent).filter(([name]) => name !== 'mode')));
    expect(Object.keys(kept)).toContain(field);
  });

  it('an hour that the clocks skip is refused beside the time', async () => {
    const sent = { place: 'York, United Kingdom', 'date-day': '28', 'date-month': '3', 'date-year': '2027' };
    const { status, html } = await look({ ...sent, time: '01:30' });
    expect([status, textOf(html).includes('Clocks at the studio skip this hour that day.')]).toEqual([
      422,
      true,
    ]);
  });

  it('bears what no form sends', async () => {
    const odd = await visitor.get(
      `${path()}?place=a&place=b&mode=car&mode=train&time=%00&placeId=x&margin[]=3`,
    );
    expect(odd.status).toBe(422);
    const long = await look({ place: 'x'.repeat(5000) });
    expect(long.status).toBe(422);
  });
});
