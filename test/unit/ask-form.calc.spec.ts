import { Temporal } from 'temporal-polyfill';
import { firstAnswers, problemsOnForm, rowsOf, toRequest } from '../../src/sittings/ask-form.calc.js';

const SIZE = '8c1f0a52-5f0e-4f0c-9a66-0f3f2f6f9b11';
const noDate = () => '';

const people = (...names: string[]) => Object.fromEntries(names.map((name, at) => [`sitters/${at}`, name]));
const plates = (count: number) =>
  Object.fromEntries(Array.from({ length: count }, (_, at) => [`plates/${at}/plateSizeId`, SIZE]));
const request = (answers: Record<string, unknown>) =>
  toRequest(answers, noDate) as { sitters: string[]; plates: { sitters: number[] }[] };

describe('The rows that the form shows', () => {
  it('begin with one of each', () => {
    expect(rowsOf({})).toEqual({ sitters: 1, plates: 1 });
  });

  it('are those that were sent, and one more where "Add" was pressed', () => {
    const sent = { ...people('A', 'B'), ...plates(1) };
    expect(rowsOf(sent)).toEqual({ sitters: 2, plates: 1 });
    expect(rowsOf({ ...sent, more: 'sitter' })).toEqual({ sitters: 3, plates: 1 });
    expect(rowsOf({ ...sent, more: 'plate' })).toEqual({ sitters: 2, plates: 2 });
    expect(rowsOf({ ...sent, more: ['plate'] })).toEqual({ sitters: 2, plates: 1 });
  });

  it('end at what a sitting takes, but show one too many that was sent', () => {
    const twelve = { ...people(...'ABCDEFGHIJKL'), ...plates(6) };
    expect(rowsOf({ ...twelve, more: 'sitter' })).toEqual({ sitters: 12, plates: 6 });
    expect(rowsOf({ ...twelve, more: 'plate' })).toEqual({ sitters: 12, plates: 6 });
    expect(rowsOf({ ...people(...'ABCDEFGHIJKLMNOP'), ...plates(9) })).toEqual({ sitters: 13, plates: 7 });
  });

  it('do not count what objects bring along', () => {
    expect(rowsOf(Object.create({ 'sitters/0': 'A', 'sitters/1': 'B' }))).toEqual({ sitters: 1, plates: 1 });
  });
});

describe('The request made of the answers', () => {
  it('drops empty rows of people on no plate, and plates then name those that stay', () => {
    const answers = { ...people('A', ' ', 'C', '', 'E'), ...plates(2) };
    const made = request({ ...answers, 'plates/0/sitters': ['0', '2'], 'plates/1/sitters': '4' });
    expect(made.sitters).toEqual(['A', 'C', 'E']);
    expect(made.plates.map((plate) => plate.sitters)).toEqual([[0, 1], [2]]);
    expect(request(people('', 'B')).sitters).toEqual(['', 'B']);
  });

  it('keeps somebody without a name who is on a plate, so that the name is asked for', () => {
    const made = request({ ...people('A', ''), ...plates(1), 'plates/0/sitters': ['0', '1'] });
    expect(made.sitters).toEqual(['A', '']);
    expect(made.plates.map((plate) => plate.sitters)).toEqual([[0, 1]]);
  });

  it('puts whoever sits alone on every plate, but guesses nothing once a second person was thought of', () => {
    const alone = request({ ...people('A'), ...plates(3) });
    expect(alone.plates.map((plate) => plate.sitters)).toEqual([[0], [0], [0]]);
    const nobodyTicked = request({ ...people('A', ''), ...plates(1) });
    expect(nobodyTicked.plates.map((plate) => plate.sitters)).toEqual([[]]);
  });

  it('takes whoever asks for the first sitter, when that row is left empty', () => {
    const both = request({ name: 'Ida', ...people(' ', 'B'), ...plates(1), 'plates/0/sitters': ['0', '1'] });
    expect(both.sitters).toEqual(['Ida', 'B']);
    expect(request({ name: 'Ida', ...people('A') }).sitters).toEqual(['A']);
    const problems = [{ field: 'name' }, { field: 'sitters/0' }];
    expect(problemsOnForm({ name: '', ...people('') }, problems)).toEqual([{ field: 'name' }]);
    expect(problemsOnForm({ name: '', ...people('A') }, problems)).toEqual(problems);
  });

  it('leaves out people who are not there', () => {
    const made = request({
      ...people('A', 'B'),
      ...plates(1),
      'plates/0/sitters': ['1', '7', '-1', 'x', '0.5'],
    });
    expect(made.plates.map((plate) => plate.sitters)).toEqual([[1]]);
  });

  it('reads dates for a range, and lists of days for particular ones', () => {
    const dates = (name: string) => `date of ${name}`;
    expect(toRequest({}, dates)).toMatchObject({
      suits: { kind: 'any', from: 'date of suits/from', until: 'date of suits/until' },
    });
    const these = { 'suits/kind': 'these', 'suits/days': '2027-05-14' };
    expect(toRequest(these, dates)).toMatchObject({ suits: { kind: 'these', days: ['2027-05-14'] } });
    expect(toRequest({ 'suits/kind': 'these' }, dates)).toMatchObject({ suits: { days: [] } });
  });

  it('takes what is neither text nor a list of texts for nothing', () => {
    const odd: unknown[] = [null, 7, true, {}, [[]], { toString: null }];
    for (const value of odd)
      expect(
        request({
          name: value,
          'sitters/0': value,
          'plates/0/plateSizeId': value,
          'plates/0/sitters': value,
        }),
      ).toMatchObject({ name: '', sitters: [''], plates: [{ plateSizeId: '', sitters: [0] }] });
    for (const value of [...odd, '', '-1', '1.5', '1e3', '9'.repeat(13)])
      expect(request({ homeId: value })).toMatchObject({ homeId: 0 });
    expect(request({ homeId: '2634135' })).toMatchObject({ homeId: 2634135 });
  });
});

describe('Problems find their field', () => {
  const answers = { ...people('A', '', 'C'), ...plates(2) };
  const fields = (...sent: string[]) =>
    problemsOnForm(
      answers,
      sent.map((field) => ({ field, message: field })),
    ).map(({ field, message }) => `${message} at ${field}`);

  it('in the rows as they are shown, dropped ones counted', () => {
    expect(fields('sitters/0', 'sitters/1')).toEqual(['sitters/0 at sitters/0', 'sitters/1 at sitters/2']);
  });

  it('at the last row for a list as a whole', () => {
    expect(fields('sitters', 'bands', 'plates')).toEqual([
      ...['sitters at sitters/2', 'plates at plates/1/plateSizeId'],
    ]);
  });

  it('at the group for one tick of several, and once a field', () => {
    expect(fields('suits/days/3', 'suits/days/4')).toEqual(['suits/days/3 at suits/days']);
    expect(fields('plates/1/sitters/0')).toEqual(['plates/1/sitters/0 at plates/1/sitters']);
  });

  it('in the order of the form', () => {
    const sent = ['hopes', 'suits/until', 'homeId', 'plates/0/sitters', 'email', 'reachBy', 'name', ''];
    expect(fields(...sent).map((one) => one.split(' at ')[0])).toEqual([
      ...['name', 'reachBy', 'email', 'plates/0/sitters', 'homeId', 'suits/until', 'hopes', ''],
    ]);
  });
});

describe('An empty form', () => {
  const bookable = {
    from: Temporal.PlainDate.from('2026-11-28'),
    until: Temporal.PlainDate.from('2027-11-25'),
  };

  it('proposes every day that can be asked for', () => {
    expect(firstAnswers(bookable, undefined)).toEqual({
      'suits/kind': 'any',
      ...{ 'suits/from-day': '28', 'suits/from-month': '11', 'suits/from-year': '2026' },
      ...{ 'suits/until-day': '25', 'suits/until-month': '11', 'suits/until-year': '2027' },
    });
  });

  it('has the day ticked that was tapped', () => {
    expect(firstAnswers(bookable, '2027-05-14')).toMatchObject({
      'suits/kind': 'these',
      'suits/days': ['2027-05-14'],
    });
  });
});
