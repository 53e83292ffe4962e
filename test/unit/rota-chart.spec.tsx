// The turns as each student reads them, and the picture: a bar for every line, in its place.
import { render } from 'preact-render-to-string';
import { planRota, type Rota } from '../../src/teaching/rota.calc.js';
import type { Bench } from '../../src/teaching/rota-bench.calc.js';
import { RotaChart, RotaLegend } from '../../src/desk/teaching/rota-chart.pages.js';
import { TurnsTable } from '../../src/desk/teaching/turns-table.pages.js';
import { peopleColumns, stationColumns, timetableOf } from '../../src/teaching/rota-timetable.calc.js';
import {
  bottleneckInWords,
  changeInWords,
  clockEnd,
  clockTime,
  lineInWords,
  outcomeInWords,
  refusalInWords,
} from '../../src/teaching/rota-words.calc.js';
import { HOUR, stressDay, teachingDay } from '../bench/rota-days.js';

const rotaOf = (bench: Bench): Rota => {
  const answer = planRota(bench, 2_000);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.rota;
};
const NAMES: Record<string, string> = { s1: 'Ada', s2: 'Bo', half: 'half plate', whole: 'whole plate' };
const nameOf = (id: string) => NAMES[id] ?? id;
const bench = teachingDay(4, 3);
const rota = rotaOf(bench);

describe('a student’s day', () => {
  test('has three turns of their own, three sittings of two parts, and nothing at one time', () => {
    for (const { id } of bench.students) {
      const lines = timetableOf(bench, rota, id);
      const count = (doing: string) => lines.filter((one) => one.doing === doing).length;
      expect([count('plate'), count('sit'), count('step'), count('break')]).toEqual([3, 6, 6, 2]);
      lines.forEach((line, at) => {
        const next = lines[at + 1];
        if (next) expect(next.from).toBeGreaterThanOrEqual(line.until);
      });
    }
  });

  test('whoever sits is told at the time at which the other makes the plate', () => {
    const sitting = timetableOf(bench, rota, 's2').filter(
      ({ doing, with: other }) => doing === 'sit' && other === 's1',
    );
    expect(sitting).toHaveLength(6);
    for (const plate of rota.plates.filter(({ student }) => student === 's1')) {
      const [pose, still] = sitting.filter((one) => one.plate === plate.plate);
      expect(pose?.from).toBe(plate.runs[1]?.start);
      expect(still?.until).toBe(plate.runs[1]?.steps.find(({ step }) => step === 'expose')?.until);
    }
  });

  test('reads in plain words', () => {
    const words = timetableOf(bench, rota, 's1').map(
      (line) => `${clockTime(line.from)} ${lineInWords(line, nameOf)}`,
    );
    expect(words.slice(0, 2)).toEqual([
      '09:30 Everybody together, or a break.',
      '10:15 Clean the glass for your first plate.',
    ]);
    const text = words.join('\n');
    for (const wanted of [
      'Make your second plate; Bo sits for you.',
      'Hold still for Bo.',
      'Fix your third plate.',
      'Varnish your first plate.',
    ])
      expect(text).toContain(wanted);
    expect(text).not.toMatch(/undefined|null|NaN/);
  });

  test('stands in a table of one student for page and paper, or in a sentence for who has no turns', () => {
    const lines = timetableOf(bench, rota, 's1');
    const html = render(<TurnsTable name="Ada" lines={lines} nameOf={nameOf} />);
    expect(html).toContain('<caption>The turns of Ada</caption>');
    expect(html.match(/scope="row"/g)).toHaveLength(lines.length);
    expect(html).toContain('Make your second plate; Bo sits for you.');
    expect(html).toContain('09:30 to 10:15');
    expect(render(<TurnsTable name="Cy" lines={[]} nameOf={nameOf} />)).toBe(
      '<p class="empty">Cy has no turns on this day.</p>',
    );
  });

  test('who works alone is told that nobody needs to sit', () => {
    const alone = teachingDay(1, 1);
    const lines = timetableOf(alone, rotaOf(alone), 's1').map((line) => lineInWords(line, nameOf));
    expect(lines).toContain('Make your first plate; nobody needs to sit for it.');
    expect(timetableOf(alone, rotaOf(alone), 'nobody')).toEqual([]);
  });
});

describe('the day in words', () => {
  test('times are to the minute, the end of the day upwards', () => {
    expect([clockTime(9 * HOUR + 89), clockTime(9 * HOUR + 90), clockEnd(9 * HOUR + 61)]).toEqual([
      '09:01',
      '09:02',
      '09:02',
    ]);
  });

  test('says whether it fits, what holds it up, and what would help', () => {
    expect(outcomeInWords({ ...rota, end: 12 * HOUR, bound: 11 * HOUR, fits: true, over: 0 })).toBe(
      'The day fits: all is done by 12:00 even if every step takes its longest. No order of turns could end before 11:00.',
    );
    expect(outcomeInWords({ ...rota, end: 18 * HOUR, bound: 18 * HOUR, fits: false, over: 61 })).toBe(
      'The day does not fit: it would end at 18:00, 2 minutes too late.',
    );
    expect(outcomeInWords({ ...rota, unplaced: ['s1 3'] })).toMatch(/^One plate cannot have a turn/);
    expect(bottleneckInWords({ what: 'stations', stations: ['tank', 'teacher'] }, nameOf, [])).toBe(
      'What holds the day up most: the silver tank and the teacher’s hands.',
    );
    expect(bottleneckInWords({ what: 'team', team: 0 }, nameOf, [['s1', 's2']])).toContain(
      'the turns of Ada and Bo',
    );
    expect(bottleneckInWords({ what: 'student', student: 's1' }, nameOf, [])).toContain('Ada’s own time');
    expect(changeInWords({ what: 'more', stations: ['tank', 'tank', 'camera'] }, nameOf)).toBe(
      '2 more silver tanks and one more camera.',
    );
    expect(changeInWords({ what: 'smaller', from: 'whole', to: 'half' }, nameOf)).toBe(
      'Half plate instead of whole plate.',
    );
    expect(changeInWords({ what: 'without plates', plates: ['s1 3'] }, nameOf)).toBe('One plate fewer.');
    expect(changeInWords({ what: 'fewer each', by: 2 }, nameOf)).toBe('2 plates fewer for each student.');
    expect(changeInWords({ what: 'without students', students: ['s1'] }, nameOf)).toBe('One student fewer.');
  });

  test('says why there is no plan at all', () => {
    expect(
      refusalInWords(
        { ok: false, reason: 'clock', clock: 'wet', size: 'half', worst: 330, most: 300 },
        nameOf,
      ),
    ).toContain('shorten them by 30');
    expect(refusalInWords({ ok: false, reason: 'too large', station: 'tank', size: 'whole' }, nameOf)).toBe(
      'A whole plate is too large for every silver tank there is.',
    );
    expect(
      refusalInWords({ ok: false, reason: 'no stretch', plate: 's1 1', without: 'light' }, nameOf),
    ).toContain('good light');
    expect(
      refusalInWords({ ok: false, reason: 'wait', step: 'fix', size: 'half', worst: 90, most: 60 }, nameOf),
    ).toContain('90 seconds');
  });
});

describe('the picture', () => {
  const draw = (of: Bench, one: Rota, columns = peopleColumns(of, one)) =>
    render(
      <RotaChart
        columns={columns}
        day={of.day}
        light={of.light}
        breaks={of.breaks}
        nameOf={nameOf}
        label="Turns"
      />,
    );
  const count = (html: string, name: string) =>
    html.match(new RegExp(`class="rota-${name}"`, 'g'))?.length ?? 0;

  test('has a bar for every line of every student, and the number of each turn', () => {
    const html = draw(bench, rota);
    const varnished = rota.plates.filter(({ varnish }) => varnish).length;
    expect(['plate', 'sit', 'step', 'varnish', 'round', 'name'].map((name) => count(html, name))).toEqual([
      12,
      24,
      24,
      varnished,
      12,
      4,
    ]);
    expect(varnished).toBeGreaterThan(0);
    expect(html).toContain('aria-label="Turns"');
    expect(html).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('bars stand where their times are, from top to bottom', () => {
    const first = peopleColumns(bench, rota)[0];
    const bars = first?.bars.filter(({ kind }) => kind === 'plate') ?? [];
    const html = draw(bench, rota, first ? [{ ...first, bars }] : []);
    const tops = [...html.matchAll(/class="rota-plate" d="M[\d.]+ ([\d.]+)H[\d.]+V([\d.]+)/g)].map(
      (found) => [Number(found[1]), Number(found[2])],
    );
    expect(tops).toHaveLength(3);
    tops.forEach(([top = 0, bottom = 0], at) => {
      const bar = bars[at];
      // a minute and a half of a pixel, from nine o'clock on
      expect(top).toBeCloseTo(116 + (((bar?.from ?? 0) - 9 * HOUR) / 60) * 1.5, 0);
      expect(bottom - top).toBeCloseTo((((bar?.until ?? 0) - (bar?.from ?? 0)) / 60) * 1.5, 0);
    });
  });

  test('stations have a column for each unit, and every use of it', () => {
    const columns = stationColumns(bench, rota, ['tank', 'camera', 'varnish lamp']);
    expect(columns.map(({ id }) => id)).toEqual(['camera 1', 'camera 2', 'tank 1', 'varnish lamp 1']);
    expect(columns[2]?.bars).toHaveLength(12);
    expect((columns[0]?.bars.length ?? 0) + (columns[1]?.bars.length ?? 0)).toBe(12);
    expect(count(draw(bench, rota, columns), 'use')).toBe(columns.flatMap(({ bars }) => bars).length);
  });

  test('bears nobody, no light, and twelve students, and weighs little', () => {
    expect(draw(bench, rota, [])).toBe('');
    expect(draw({ ...bench, light: null }, rota)).not.toContain('class="light"');
    const large = stressDay();
    expect(draw(large, rotaOf(large)).length).toBeLessThan(40_000);
    expect(render(<RotaLegend />).match(/<li>/g)).toHaveLength(5);
  });
});
