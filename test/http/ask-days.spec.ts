// The days on the form for asking are those for what is asked: the kind of sitting, plates and people, without script.
import { Temporal } from 'temporal-polyfill';
import { RoomService } from '../../src/room/room.service.js';
import { countSittings, filledForm, sendForm } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { choicesOf, errorAt, fieldsOf, type Sent, wordsOf } from '../support/page-forms.js';
import { askForSitting, dayOf, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let portrait: string;
let series: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { horizonMonths: 3 });
  const room = house.app.get(RoomService);
  await house.db.inStudio(studio.id, async (tx) => {
    await room.enterRhythm(tx, {
      weekday: 6,
      starts: [660],
      firstPlateMinutes: 75,
      furtherPlateMinutes: 25,
      changeoverMinutes: 30,
      mostSittings: 1,
      effectiveFrom: dayOf(house),
      effectiveUntil: null,
    });
    const kind = { offered: 'public', firstPlateMinutes: null, plates: 1, fee: '', deposit: '' } as const;
    const more = { ...kind, keepsPlate: 'sitter', yearlyQuota: null } as const;
    portrait = await room.enterKind(tx, { ...more, position: 1, name: 'Portrait', weekdays: [] });
    series = await room.enterKind(tx, { ...more, position: 2, name: 'Saturday series', weekdays: [6] });
  });
});
afterAll(() => house.close());

/** Weekdays (1 is Monday) of the days that can be ticked. */
const weekdaysOn = (html: string) =>
  new Set([...choicesOf(html, 'suits/days').keys()].map((day) => Temporal.PlainDate.from(day).dayOfWeek));

/** The page of days, for whoever asks for this. */
async function daysFor(more: Sent) {
  const { visitor, answers } = await filledForm(house, studio, { ...more, home: '' });
  return sendForm(visitor, studio, answers);
}

it('the usual kind has all days, and another its own', async () => {
  const usual = await daysFor({ kindId: portrait });
  expect(weekdaysOn(usual.html)).toEqual(new Set([5, 6]));
  expect(wordsOf(usual.html)).toContain('Open days are shown for one plate and one person, Portrait.');
  const other = await daysFor({ kindId: series });
  expect(weekdaysOn(other.html)).toEqual(new Set([6]));
  expect(wordsOf(other.html)).toContain('shown for one plate and one person, Saturday series.');
});

it('more plates leave only the days with light enough, and a ticked day that is not open says so', async () => {
  const countOf = (html: string) => choicesOf(html, 'suits/days').size;
  const one = countOf((await daysFor({})).html);
  const plates = Object.fromEntries(
    [0, 1, 2, 3, 4, 5].map((at) => [`plates/${at}/plateSizeId`, studio.sizes.half.id]),
  );
  const ticked = '2027-01-01';
  const six = await daysFor({ ...plates, 'suits/kind': 'these', 'suits/days': ticked });
  expect(wordsOf(six.html)).toContain('Open days are shown for 6 plates and one person');
  expect(countOf(six.html)).toBeLessThan(one);
  expect(choicesOf(six.html, 'suits/days').get(ticked)).toBe('Friday 1 January 2027: not open for this');
});

it('a day on which that kind never is, is told beside the days and to the API', async () => {
  const before = await countSittings(house, studio);
  const days = ['2027-02-05', '2027-02-06'];
  const { visitor, answers } = await filledForm(house, studio, {
    kindId: series,
    'suits/kind': 'these',
    'suits/days': days,
  });
  const page = await sendForm(visitor, studio, answers);
  expect(page.status).toBe(422);
  const sentence =
    'Saturday series is on Saturdays only. Please choose other days than Friday 5 February 2027.';
  expect(errorAt(page.html, 'suits/days')).toBe(sentence);
  const asking = { suits: { kind: 'these' as const, days }, kindId: series };
  await expect(askForSitting(house, studio, asking)).rejects.toMatchObject({
    fields: [{ field: 'suits/days', message: sentence }],
  });
  expect(await countSittings(house, studio)).toBe(before);
  const mended = { ...fieldsOf(page.html, page.action), 'suits/days': '2027-02-06' };
  expect((await visitor.post(page.action, mended)).location).toBe(`${page.draft}/more`);
});
