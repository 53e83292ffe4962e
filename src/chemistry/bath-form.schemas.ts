// The form of the bath calculator: one way of telling the strength, and, for topping up, what is in the bath. All text.
import type { FieldProblem } from '../platform/problems.js';
import { type AskedBath, MEASURES, type NoStrength, type Reading, strengthOf } from './bath-asked.calc.js';
import { COLDEST_READING, type Strength, WARMEST_READING } from './bath-density.calc.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';

export const FIRST_BATH: Record<string, unknown> = {
  celsius: '20',
  measure: 'grams in a litre',
  target: '90',
  least: '70',
  size: 'whole',
};

export const WAYS = {
  hydrometer: ['density'],
  strength: ['amount'],
  titration: ['thiocyanateMl', 'normality', 'titratedMl'],
  chloride: ['chlorideG', 'precipitatedMl'],
} as const;
type Way = keyof typeof WAYS;

const REFUSED: Record<NoStrength, { field: string; message: string }> = {
  'lighter than water': { field: 'density', message: 'This is lighter than water; a bath is about 1.07.' },
  'heavier than the table': { field: 'density', message: 'The table ends at 1.474, 40 g in 100 g.' },
  'too cold or warm': {
    field: 'celsius',
    message: `Please give degrees Celsius, ${COLDEST_READING} to ${WARMEST_READING}.`,
  },
  'beyond the table': { field: '', message: 'This is stronger than the table, which ends at about 590 g/L.' },
};

type Sent = Record<string, unknown>;
export type ReadBath =
  | { ok: true; way: Way; strength: Strength; bath: AskedBath | null }
  | { ok: false; problems: FieldProblem[] };

export function readBathForm(sent: Sent): ReadBath {
  const problems: FieldProblem[] = [];
  const number = (field: string, from: number, to: number, message: string): number => {
    const text = textOf(sent[field]);
    const value = /^\d{1,9}([.,]\d{1,6})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
    if (value >= from && value <= to) return value;
    problems.push({ field, message });
    return from;
  };
  const told = (Object.keys(WAYS) as Way[]).filter((way) => WAYS[way].some((name) => textOf(sent[name])));
  const [way] = told;
  if (!way || told.length > 1) {
    const message = way
      ? 'Please tell the strength in one way only.'
      : 'Please give the density, or tell the strength in another way.';
    return { ok: false, problems: [{ field: way ? WAYS[told[1] ?? way][0] : 'density', message }] };
  }
  const reading = readingOf(way, sent, number);
  const found = problems.length === 0 ? strengthOf(reading) : null;
  if (found && !found.ok) {
    const refused = REFUSED[found.reason];
    problems.push({ ...refused, field: refused.field || WAYS[way][0] });
  }
  const bath = textOf(sent.volume) === '' ? null : bathOf(sent, number, problems);
  if (problems.length > 0 || !found?.ok) return { ok: false, problems };
  return { ok: true, way, strength: found.strength, bath };
}

type ReadNumber = (field: string, from: number, to: number, message: string) => number;

function readingOf(way: Way, sent: Sent, number: ReadNumber): Reading {
  if (way === 'hydrometer')
    return {
      way,
      density: number('density', 0.5, 3, 'Please give the density, such as 1.073.'),
      celsius: number(
        'celsius',
        COLDEST_READING,
        WARMEST_READING,
        `Please give degrees Celsius, ${COLDEST_READING} to ${WARMEST_READING}.`,
      ),
    };
  if (way === 'strength')
    return {
      way,
      amount: number('amount', 0, 1000, 'Please give a number, such as 90.'),
      measure: MEASURES.find((one) => one === textOf(sent.measure)) ?? MEASURES[0],
    };
  if (way === 'titration')
    return {
      way,
      thiocyanateMl: number('thiocyanateMl', 0, 1000, 'Please give the millilitres used.'),
      normality: number('normality', 0.001, 10, 'Please give moles in a litre, such as 0.1.'),
      sampleMl: number('titratedMl', 0.01, 1000, 'Please give the millilitres of bath taken.'),
    };
  return {
    way,
    chlorideG: number('chlorideG', 0, 1000, 'Please give the grams of dried silver chloride.'),
    sampleMl: number('precipitatedMl', 0.01, 1000, 'Please give the millilitres of bath taken.'),
  };
}

function bathOf(sent: Sent, number: ReadNumber, problems: FieldProblem[]): AskedBath | null {
  const ml = 'Please give millilitres, such as 2000.';
  const grams = 'Please give grams in a litre, 1 to 500.';
  const volume = number('volume', 1, 1_000_000, ml);
  const full = textOf(sent.full) === '' ? volume : number('full', 1, 1_000_000, ml);
  const leastVolume = textOf(sent.leastVolume) === '' ? 0 : number('leastVolume', 0, 1_000_000, ml);
  const [target, least] = ['target', 'least'].map((field) => number(field, 1, 500, grams)) as [
    number,
    number,
  ];
  const size = STARTER_PLATE_SIZES.find(({ key }) => key === textOf(sent.size));
  if (!size) problems.push({ field: 'size', message: 'Please choose a size.' });
  if (least > target) problems.push({ field: 'least', message: 'The least is above the strength wanted.' });
  if (leastVolume > full) problems.push({ field: 'leastVolume', message: 'This is more than a full bath.' });
  if (!size) return null;
  const microlitres = (millilitres: number) => BigInt(Math.round(millilitres * 1000));
  return {
    volume: microlitres(volume),
    full: { volume: microlitres(full), strength: target * 1000 },
    least: { volume: microlitres(leastVolume), strength: least * 1000 },
    plate: size,
  };
}

const textOf = (answer: unknown): string => (typeof answer === 'string' ? answer.trim() : '');
