// How the lines of a record fit on a label, and where labels stand on a sheet.
import { describe, expect, it } from '@jest/globals';
import {
  fitLabel,
  LEADING,
  PADDING,
  PAPERS,
  roomOn,
  sheetsOf,
  USUAL_SHEET,
  widthOf,
  wrap,
} from '../../src/plates/labels.calc.js';
import type { RecordLine } from '../../src/plates/record.calc.js';

const line = (value: string, what: RecordLine['what'] = 'typed'): RecordLine => ({
  label: 'Remark',
  what,
  value,
});
const HOSTILE = [
  'W'.repeat(120),
  'Æthelflæd Wŵnhölme-Mmmwwm née Quartermaine, Ægir, Øystein & Żółć',
  '漢字'.repeat(40),
  'مرحبا بالعالم '.repeat(8),
  'e\u0301\u0302\u0303'.repeat(90),
  '👩‍👩‍👧‍👦 '.repeat(20),
  'ﷺ'.repeat(30),
];

describe('a line that is too long', () => {
  it('is wrapped between words, and within a word only where that is longer than a line', () => {
    expect(wrap('one two three', widthOf('one two'))).toEqual(['one two', 'three']);
    expect(wrap('a bbbbbb', widthOf('bbbb'))).toEqual(['a', 'bbbb', 'bb']);
    expect(wrap('  ', 5)).toEqual([]);
  });

  it('loses nothing but spaces, and parts no letter from the marks over it', () => {
    for (const text of HOSTILE)
      expect(wrap(text, 6).join('').replace(/\s/g, '')).toBe(text.replace(/\s+/g, ''));
    for (const part of wrap('e\u0301'.repeat(50), 5)) expect(part).toMatch(/^e/);
  });
});

describe('a label', () => {
  it('is set in the largest letters in which all fits', () => {
    const short = fitLabel([line('Tam Orrell', 'names')], USUAL_SHEET);
    expect(short).toMatchObject({ size: 3.6, lines: [{ text: 'Tam Orrell', strong: true, exact: true }] });
    const long = fitLabel(
      Array.from({ length: 8 }, () => line('net maker of the lower harbour')),
      USUAL_SHEET,
    );
    expect(long?.size).toBeLessThan(3.6);
  });

  it('never says more than there is room for, and says nothing rather than part of it', () => {
    for (const [width, height] of [
      [60, 40],
      [20, 10],
      [25, 60],
      [200, 12],
    ] as const)
      for (const text of HOSTILE) {
        const sheet = { ...USUAL_SHEET, width, height };
        const fitted = fitLabel([line(text, 'names'), line(text)], sheet);
        if (!fitted) continue;
        expect(fitted.lines.length * fitted.size * LEADING).toBeLessThanOrEqual(height - 2 * PADDING + 1e-6);
        for (const one of fitted.lines.filter((each) => [...each.text].length > 1))
          expect(one.width).toBeLessThanOrEqual(width - 2 * PADDING + 1e-6);
      }
    expect(fitLabel([line('x'.repeat(300))], { ...USUAL_SHEET, width: 20, height: 10 })).toBeNull();
  });
});

describe('a sheet', () => {
  it('takes as many labels as stand on its paper', () => {
    expect(roomOn(USUAL_SHEET)).toEqual({ down: 6, fitsAcross: true });
    expect(roomOn({ ...USUAL_SHEET, across: 4 }).fitsAcross).toBe(false);
    expect(roomOn({ ...USUAL_SHEET, height: 290 }).down).toBe(0);
  });

  it('has its labels within the paper, none over another', () => {
    const text = { size: 3, lines: [] };
    const labels = Array.from({ length: 30 }, (_, number) => ({ number, text }));
    for (const paper of ['A4', 'Letter'] as const) {
      const sheet = { ...USUAL_SHEET, paper, gap: 0 };
      const sheets = sheetsOf(labels, sheet);
      expect(sheets.flat().map((one) => one.number)).toEqual(labels.map((one) => one.number));
      for (const placed of sheets)
        for (const one of placed) {
          expect(one.x + sheet.width).toBeLessThanOrEqual(PAPERS[paper].width);
          expect(one.y + sheet.height).toBeLessThanOrEqual(PAPERS[paper].height);
          const over = placed.filter(
            (each) => Math.abs(each.x - one.x) < sheet.width && Math.abs(each.y - one.y) < sheet.height,
          );
          expect(over).toEqual([one]);
        }
    }
  });
});
