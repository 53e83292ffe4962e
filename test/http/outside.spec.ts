// Another calendar through the owner's pages: pasted, looked at, put in use, and what visitors see of it.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { calendarOf } from '../support/outside.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { courseOf, teachingDay } from '../support/teaching.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let base: string;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-25T10:00:00Z' });
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  base = `/s/${studio.slug}/desk/settings/outside`;
});
afterAll(() => house.close());

const FRIDAY = '2027-04-02';
/** What a visitor is told of the Friday’s starts; the public page leads on to that day where there is any. */
async function publicStarts(): Promise<string[]> {
  const answer = await new Visitor(house).get(
    `/api/v1/s/${studio.slug}/openings?from=${FRIDAY}&until=${FRIDAY}&plates=1`,
  );
  const page = await new Visitor(house).get(`/s/${studio.slug}`);
  const starts = [...answer.html.matchAll(/"start":"2027-04-02T(\d\d:\d\d)/g)].map(([, time = '']) => time);
  expect(page.html.includes(`ask?day=${FRIDAY}`)).toBe(starts.length > 0);
  return starts;
}
const FILE = calendarOf(
  ['SUMMARY:Dentist <left>', 'DTSTART;TZID=Europe/London:20270402T111500', 'DURATION:PT1H'],
  ['SUMMARY:Not mine', 'DTSTART;TZID=Europe/London:20270402T130000', 'DURATION:PT1H', 'TRANSP:TRANSPARENT'],
  ['SUMMARY:Away', 'DTSTART;TZID=Europe/London:20270407T100000', 'DURATION:PT2H'],
);

test('a slip is told beside its field, and nothing that was typed is lost', async () => {
  await owner.get(base);
  const empty = await owner.post(base, { name: '', address: '', file: '' });
  expect(empty.status).toBe(422);
  expect(errorAt(empty.html, 'name')).toBe('Please give it a name, so that you know it again.');
  expect(errorAt(empty.html, 'address')).toBe('Please give an address or a file.');
  const inside = await owner.post(base, { name: 'Mine', address: 'http://127.0.0.1/private.ics', file: '' });
  expect(errorAt(inside.html, 'address')).toBe(
    'The address leads into a private network, where we do not look.',
  );
  expect(fieldsOf(inside.html, base)).toMatchObject({
    name: 'Mine',
    address: 'http://127.0.0.1/private.ics',
  });
  const torn = await owner.post(base, { name: 'Mine', address: '', file: 'BEGIN:VCALENDAR\r\nBEGIN:VEVENT' });
  expect(errorAt(torn.html, 'file')).toBe('The calendar is damaged and cannot be read.');
  const both = await owner.post(base, { name: 'Mine', address: 'https://calendar.example/', file: FILE });
  expect(errorAt(both.html, 'file')).toBe('Please give either an address or a file, not both.');
  expect(wordsOf((await owner.get(base)).html)).toContain('No other calendar is here yet.');
});

test('it closes what was shown and nothing before, spares who is there, and gives it back', async () => {
  expect(await publicStarts()).toEqual(['09:30', '11:15', '13:00', '14:45']);
  const sitting = await askForSitting(house, studio, { name: 'Ebba Fjordvik' });
  await approve(house, studio, sitting.sittingId, `${FRIDAY}T13:00`);
  await teachingDay(house, studio);
  const added = await owner.postAndFollow(base, { name: 'Mine', address: '', file: FILE });
  const words = wordsOf(added.html);
  expect(words).toContain('It blocks nothing before you put it in use below.');
  expect(words).toContain('Friday 2 April 2027, 11:15 to 12:15: Dentist <left>');
  expect(words).toContain('3 entries, of which 1 is marked as free or called off');
  expect(await publicStarts()).toEqual(['09:30', '11:15', '14:45']);

  const id = /settings\/outside\/([0-9a-f-]{36})/.exec(added.html)?.[1] ?? '';
  const path = `${base}/${id}`;
  const wrong = await owner.get(`${path}?blocks=hours&marginMinutes=soon`);
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'marginMinutes')).toBe('Please give 0 to 240 minutes.');
  const looked = await owner.get(`${path}?blocks=hours&marginMinutes=50`);
  expect(wordsOf(looked.html)).toContain('Friday 2 April 2027, 11:15');
  expect(wordsOf(looked.html)).toContain(
    '2 places already given or offered would be while you are elsewhere',
  );
  expect(wordsOf(looked.html)).toContain('Ebba Fjordvik');
  expect(wordsOf(looked.html)).toContain(`Wednesday 7 April 2027, 10:00 Teaching: ${courseOf(studio).name}`);
  expect(await publicStarts()).toEqual(['09:30', '11:15', '14:45']);

  const confirm = fieldsOf(looked.html, `${path}/confirm`);
  const late = await owner.post(`${path}/confirm`, { ...confirm, seen: 'something else' });
  expect(late.status).toBe(409);
  expect(await publicStarts()).toEqual(['09:30', '11:15', '14:45']);
  const used = await owner.postAndFollow(`${path}/confirm`, confirm);
  expect(wordsOf(used.html)).toContain('The calendar is in use.');
  // 10:25 to 13:05 with the margin: 9:30 ends at 10:45
  expect(await publicStarts()).toEqual(['14:45']);
  const desk = wordsOf((await owner.get(`/s/${studio.slug}/desk`)).html);
  expect(desk).toContain(
    'Ebba Fjordvik Friday 2 April 2027, 13:00: you are elsewhere then, by an outside calendar',
  );

  const paused = await owner.postAndFollow(`${path}/pause`, {});
  expect(wordsOf(paused.html)).toContain('it blocks nothing now');
  expect(await publicStarts()).toEqual(['09:30', '11:15', '14:45']);
  const again = await owner.get(`${path}?blocks=days&marginMinutes=`);
  await owner.post(`${path}/confirm`, fieldsOf(again.html, `${path}/confirm`));
  expect(await publicStarts()).toEqual([]);
  expect(wordsOf((await owner.get(base)).html)).toContain('Mine in use from a file; blocks whole days');
  const removed = await owner.postAndFollow(`${path}/remove`, {});
  expect(wordsOf(removed.html)).toContain('The calendar is removed; what it blocked is open again.');
  expect(await publicStarts()).toEqual(['09:30', '11:15', '14:45']);
  expect((await owner.get(path)).status).toBe(404);
});

test('its file is taken as it is chosen, and a wrong one is told beside it', async () => {
  const upload = (fields: Record<string, string>, bytes: Uint8Array) =>
    owner.postFiles(
      base,
      { name: 'Chosen', address: '', file: '', ...fields },
      { upload: { name: 'a.ics', bytes } },
    );
  await owner.get(base);
  const before = (await owner.get(base)).html;
  const cases: [string, Record<string, string>, Uint8Array, number, string][] = [
    [
      'a picture',
      {},
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0]),
      422,
      'This is no calendar file: such a file ends in .ics, and holds text.',
    ],
    [
      'a torn one',
      {},
      Buffer.from('BEGIN:VCALENDAR\r\nBEGIN:VEVENT'),
      422,
      'The calendar is damaged and cannot be read.',
    ],
    ['both', { file: FILE }, Buffer.from(FILE), 422, 'Please choose the file or paste its text, not both.'],
    [
      'an address too',
      { address: 'https://calendar.example/' },
      Buffer.from(FILE),
      422,
      'Please give either an address or a file, not both.',
    ],
    ['more than 2 MB', {}, Buffer.alloc(2_200_000, 65), 413, 'This is more than 2 MB, so it was not read.'],
  ];
  for (const [what, fields, bytes, status, sentence] of cases) {
    const answer = await upload(fields, bytes);
    expect([what, answer.status, errorAt(answer.html, 'upload')]).toEqual([what, status, sentence]);
    if (status === 422) expect(fieldsOf(answer.html, base)).toMatchObject({ name: 'Chosen', ...fields });
  }
  expect(wordsOf((await owner.get(base)).html)).toBe(wordsOf(before));
  const chosen = await upload({}, Buffer.from(FILE));
  expect(chosen.status).toBe(303);
  const words = wordsOf((await owner.get(chosen.location)).html);
  expect(words).toContain('It blocks nothing before you put it in use below.');
  expect(words).toContain('3 entries, of which 1 is marked as free or called off');
});
