// What a line of an old book of plates, or of a list of what is on the shelf, is taken for.
import { expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { plateLines, plateNumber } from '../../src/desk/bring-in/plates.calc.js';
import { firstChoices, reading } from '../../src/desk/bring-in/reading.calc.js';
import { sizeCalled } from '../../src/desk/bring-in/sizes.calc.js';

const SIZES = [
  { id: '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a51', name: 'Whole plate' },
  { id: '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a52', name: 'Half plate' },
  { id: '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a53', name: 'Half plate, long' },
];

function plates(text: string, next: number | null = null) {
  const choices = firstChoices('plates', text, 'day first');
  return plateLines(reading('plates', text, choices).lines, {
    today: Temporal.PlainDate.from('2026-11-26'),
    order: choices.order,
    sizes: SIZES,
    next,
    taken: new Set([7]),
  });
}

test('numbers as they stand in books', () => {
  expect(
    ['12', 'No. 12', '#0012', 'nr 12', '0', '-1', '12a', '1.5', '99999999', ''].map(plateNumber),
  ).toEqual([...[12, 12, 12, 12], ...[null, null, null, null, null, null]]);
});

test('a size is taken where only one is called so', () => {
  const named = (typed: string) => sizeCalled(typed, SIZES)?.name;
  expect(['whole', 'WHOLE PLATE', 'Half plate', 'half', 'mammoth', ''].map(named)).toEqual([
    ...['Whole plate', 'Whole plate', 'Half plate'],
    ...[undefined, undefined, undefined],
  ]);
});

test('a plate with all that is said of it, kept where nobody says otherwise', () => {
  const [one, other] = plates(
    [
      'No.,Date,Who,Size,Seconds,Result,Kept,Where is it,Remarks',
      '3,5 May 2019,Ada Plover,whole,"6,5 s",fog at the edge,,town archive,blue coat',
      '4,6 May 2019,,whole,,,no,,',
    ].join('\n'),
  );
  expect(one?.value).toMatchObject({
    ...{ number: 3, names: 'Ada Plover', plateSizeId: SIZES[0]?.id, keeper: true, seconds: 6.5 },
    ...{ result: 'fog at the edge', note: 'blue coat Now at: town archive' },
  });
  expect(one?.value?.day.toString()).toBe('2019-05-05');
  expect(other?.value).toMatchObject({ number: 4, keeper: false, seconds: null, names: '', note: '' });
});

test('what is wrong is told at its cell, and a number comes once', () => {
  const lines = plates(
    [
      'No.,Date,Size,Seconds,Kept',
      '7,5 May 2019,whole,,',
      '8,soon,mammoth,long,perhaps',
      '9,5 May 2030,whole,,',
      '10,5 May 2019,whole,,',
      '10,6 May 2019,whole,,',
      '20,6 May 2019,whole,,',
      ',6 May 2019,whole,,',
    ].join('\n'),
    20,
  );
  expect(lines.map(({ problems }) => problems.map(({ column, why }) => `${column}: ${why}`))).toEqual([
    ['Running number: A plate of this number stands in the book already.'],
    [
      'Day: This is no date.',
      'Plate size: Plates of this size are not known here.',
      'Kept (yes or no): Please write yes or no.',
      'Seconds: This is no number of seconds up to 3600.',
    ],
    ['Day: This day is still to come.'],
    [],
    ['Running number: The same number stands in line 5.'],
    ['Running number: The book goes on from 20: a plate made before has a smaller number.'],
    ['Running number: This is no running number.'],
  ]);
});
