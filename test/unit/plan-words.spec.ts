import { leftOutInWords, namesInWords, qualityInWords } from '../../src/desk/plan-words.calc.js';
import { type LeftOutShown, leftOutShown } from '../../src/sittings/plans.schemas.js';

const around = { nameOf: (id: string) => id, dayOf: () => 'Friday 2 April', itemOf: () => 'whole plates' };
const left: LeftOutShown = {
  why: 'room taken',
  by: ['Ebba'],
  allBefore: true,
  item: 'glass',
  day: '2027-04-02',
};

test('who stands before somebody is said only where all of them do', () => {
  expect(leftOutInWords(left, around)).toBe(
    'The nearest place on Friday 2 April goes to Ebba, before them on the list.',
  );
  expect(leftOutInWords({ ...left, allBefore: false }, around)).toBe(
    'The nearest place on Friday 2 April goes to Ebba.',
  );
});

test('every reason is a whole sentence of its own', () => {
  const sentences = leftOutShown.shape.why.options.map((why) => leftOutInWords({ ...left, why }, around));
  expect(sentences.filter((one) => !/^[A-Z].*\.$/.test(one))).toEqual([]);
  expect(new Set(sentences).size).toBe(sentences.length);
});

test('many names are counted', () => {
  expect(namesInWords([])).toBe('others');
  expect(namesInWords(['Ada'])).toBe('Ada');
  expect(namesInWords(['Ada', 'Ben', 'Ada'])).toBe('Ada and Ben');
  expect(namesInWords(['Ada', 'Ben', 'Cleo', 'Dora', 'Emil'])).toBe('Ada, Ben, Cleo and 2 others');
});

test('a gap is told as a share, rounded up', () => {
  expect(qualityInWords({ points: 1000, bound: 1000 })).toBe(
    'No better plan exists for what you said matters.',
  );
  expect(qualityInWords({ points: 1000, bound: 1004 })).toContain('by at most 0.4 %');
});
