import { render } from 'preact-render-to-string';
import { Temporal } from 'temporal-polyfill';
import { DayList, type ListedDay } from '../../src/platform/html/kit/day-list.js';
import { Steps } from '../../src/platform/html/kit/facts.js';
import { hoursAround, LightBar, lightInWords } from '../../src/platform/html/kit/light-bar.js';
import { StockMark } from '../../src/platform/html/kit/stock-mark.js';
import { Table } from '../../src/platform/html/kit/table.js';

const at = (text: string) => Temporal.PlainTime.from(text);
const between = (from: string, until: string) => ({ from: at(from), until: at(until) });
const LIGHT = between('07:10', '18:40');
const PLACES = [
  {
    ...between('09:30', '10:45'),
    state: 'open',
    href: '/ask?at=0930',
    hold: 'hold still for 2 to 4 seconds',
  },
  { ...between('11:15', '12:30'), state: 'taken' },
  { ...between('13:30', '14:45'), state: 'held' },
] as const;
const textOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');

describe('a light bar', () => {
  it('says in words all that it draws', () => {
    const words =
      'Good light from 07:10 to 18:40. Open: 09:30 to 10:45. Held: 13:30 to 14:45. Taken: 11:15 to 12:30.';
    expect(lightInWords(LIGHT, [...PLACES])).toBe(words);
    expect(render(<LightBar window={LIGHT} slots={[...PLACES]} />)).toContain(
      `role="img" aria-label="${words}"`,
    );
    expect(lightInWords(null, [])).toBe('No good light.');
  });

  it('draws the light and each place to the scale of the hours', () => {
    const html = render(<LightBar window={between('06:00', '21:00')} slots={[...PLACES]} />);
    const boxes = [...html.matchAll(/<rect class="([^"]+)" x="([\d.]+)"[^>]* width="([\d.]+)"/g)];
    const hour = 284 / 15; // 300 wide less two edges of 8, from six to nine in the evening
    const expected = [
      ['light', 6, 15],
      ['place-mark open', 9.5, 1.25],
      ['place-mark taken', 11.25, 1.25],
      ['place-mark held', 13.5, 1.25],
    ] as const;
    expect(boxes.map(([, name]) => name)).toEqual(expected.map(([name]) => name));
    expected.forEach(([, from, hours], index) => {
      expect(Math.abs(Number(boxes[index]?.[2]) - (8 + (from - 6) * hour))).toBeLessThan(0.11);
      expect(Math.abs(Number(boxes[index]?.[3]) - hours * hour)).toBeLessThan(0.11);
    });
  });

  it('makes room for light before six and until midnight', () => {
    expect(hoursAround([between('03:20', '00:00')])).toEqual({ from: 3, until: 24 });
    expect(hoursAround([between('09:00', '21:01')])).toEqual({ from: 6, until: 24 });
    expect(hoursAround([])).toEqual({ from: 6, until: 21 });
  });

  it('draws no light on a day without', () => {
    expect(render(<LightBar window={null} slots={[]} />)).not.toContain('class="light"');
  });
});

describe('a list of days', () => {
  const day = (date: string, over: Partial<ListedDay> = {}): ListedDay => ({
    date: Temporal.PlainDate.from(date),
    light: LIGHT,
    places: [...PLACES],
    ...over,
  });
  const html = render(
    <DayList
      days={[
        day('2027-05-14'),
        day('2027-05-21'),
        day('2027-12-17', { light: null, places: [], note: 'The sun is too low.' }),
      ]}
    />,
  );

  it('groups the days under their months', () => {
    expect([...html.matchAll(/<h2>([^<]+)/g)].map(([, month]) => month)).toEqual([
      'May 2027',
      'December 2027',
    ]);
    expect(textOf(html)).toContain('Friday 14 May Good light from 07:10 to 18:40');
  });

  it('links the open places only, and each link says its day by itself', () => {
    const links = [...html.matchAll(/<a href="([^"]+)">(.*?)<\/a>/g)].map(([, href, inside]) => [
      href,
      textOf(inside ?? '').trim(),
    ]);
    expect(links).toEqual([
      ['/ask?at=0930', 'Friday 14 May at 09:30 hold still for 2 to 4 seconds'],
      ['/ask?at=0930', 'Friday 21 May at 09:30 hold still for 2 to 4 seconds'],
    ]);
  });

  it('draws all the days to one scale', () => {
    const long = render(
      <DayList days={[day('2027-05-14'), day('2027-06-18', { light: between('04:50', '20:00') })]} />,
    );
    const scales = [...long.matchAll(/<svg class="light-bar".*?<\/svg>/g)].map(([bar]) =>
      bar.match(/>\d+<\/text>/g),
    );
    expect(scales).toHaveLength(2);
    expect(scales[0]).toEqual(scales[1]);
    expect(scales[0]?.[0]).toBe('>3</text>');
  });

  it('says why a day has no places', () => {
    expect(textOf(html)).toContain('Friday 17 December No good light that day');
    expect(html).toContain('The sun is too low.');
  });

  it('explains only the marks it uses', () => {
    expect(textOf(html)).toContain('good light a place is open held for someone taken');
    expect(render(<DayList days={[day('2027-12-17', { light: null, places: [] })]} />)).not.toContain(
      'taken',
    );
  });

  it('says so when there are no days', () => {
    expect(render(<DayList days={[]} empty="Ask again in June." />)).toBe(
      '<p class="empty">Ask again in June.</p>',
    );
  });
});

describe('the other pieces', () => {
  const monday = Temporal.PlainDate.from('2027-03-01');

  it('the shelf is told in words and by five different shapes', () => {
    const states = ['enough', 'mix by', 'order by', 'nothing to do yet', 'cannot be had'] as const;
    const marks = states.map((state) =>
      render(<StockMark state={state} by={state.endsWith('by') ? monday : null} />),
    );
    expect(marks.map((mark) => textOf(mark).trim())).toEqual([
      'enough',
      'mix by Monday 1 March',
      'order by Monday 1 March',
      'nothing to do yet',
      'cannot be had',
    ]);
    expect(new Set(marks.map((mark) => / d="([^"]+)"/.exec(mark)?.[1])).size).toBe(5);
  });

  it('a path says which step one is at and which are done', () => {
    const html = render(
      <Steps
        label="Your request"
        steps={[
          { label: 'You asked', state: 'done' },
          { label: 'We look', state: 'now' },
        ]}
      />,
    );
    expect(textOf(html)).toContain('You asked (done)');
    expect(html.match(/aria-current="step"/g)).toHaveLength(1);
  });

  it('a table cell knows the head of its column, so that it can be read on a narrow screen', () => {
    const columns = [{ head: 'Day' }, { head: 'Glass', figures: true }];
    const html = render(<Table caption="Needs" columns={columns} rows={[['Friday', '3']]} />);
    expect(html).toContain('<th scope="row" role="rowheader">Friday</th>');
    expect(html).toContain('<td class="figures" data-head="Glass" role="cell">3</td>');
    expect(render(<Table caption="Needs" columns={columns} rows={[]} empty="No days." />)).toBe(
      '<p class="empty">No days.</p>',
    );
  });
});
