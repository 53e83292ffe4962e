// Two people change the same thing: whoever is second is told what the first wrote, beside what they typed themselves.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { refuseChanged, SEEN_FIELD, seenOf } from '../../src/platform/seen.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { teachingDay } from '../support/teaching.js';
import { signedIn } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
const at: Record<string, string> = {};

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  const desk = `/s/${studio.slug}/desk`;
  at.studio = `${desk}/settings/studio`;
  at.item = `${desk}/shelf/items/${studio.items.collodion.id}`;
  at.template = `${desk}/teaching/templates/${(await teachingDay(house, studio)).templateId}`;
});
afterAll(() => house.close());

describe.each([
  ['studio', 'telephone', '01632 960001', '01632 960002'],
  ['item', 'storage', 'cellar', 'attic'],
  ['template', 'bring', 'An apron.', 'Two aprons.'],
] as const)('of two who change the same %s', (what, field, ones, others) => {
  it('the second is told, sees both, and puts theirs in its place only knowingly', async () => {
    const [one, other] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
    const path = at[what] ?? '';
    const shown = fieldsOf((await one.get(path)).html, path);
    const alsoShown = fieldsOf((await other.get(path)).html, path);
    expect(alsoShown[SEEN_FIELD]).toBe(shown[SEEN_FIELD]);
    expect((await one.post(path, { ...shown, [field]: ones })).status).toBe(303);

    const told = await other.post(path, { ...alsoShown, [field]: others });
    expect(told.status).toBe(409);
    expect(errorAt(told.html, field)).toBe(`Meanwhile it says: ${ones}`);
    const again = fieldsOf(told.html, path);
    expect(again[field]).toBe(others);
    expect(fieldsOf((await one.get(path)).html, path)[field]).toBe(ones);
    expect((await other.post(path, again)).status).toBe(303);
    expect(fieldsOf((await one.get(path)).html, path)[field]).toBe(others);
  });

  it('would lose what the first wrote without the mark', async () => {
    const one = await signedIn(house, studio, 'owner');
    const path = at[what] ?? '';
    const { [SEEN_FIELD]: _, ...unmarked } = fieldsOf((await one.get(path)).html, path);
    await one.post(path, { ...fieldsOf((await one.get(path)).html, path), [field]: ones });
    expect((await one.post(path, { ...unmarked, [field]: others })).status).toBe(303);
    expect(fieldsOf((await one.get(path)).html, path)[field]).toBe(others);
  });

  it('a slip in between does not make the first change unseen', async () => {
    const [one, other] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
    const path = at[what] ?? '';
    const before = fieldsOf((await other.get(path)).html, path);
    await one.post(path, { ...fieldsOf((await one.get(path)).html, path), [field]: ones });
    const slipped = await other.post(path, { ...before, name: '', [field]: others });
    expect(slipped.status).toBe(422);
    const mended = { ...fieldsOf(slipped.html, path), name: before.name ?? '' };
    expect((await other.post(path, mended)).status).toBe(409);
  });
});

it('a mark is the same for the same answers and for no others; without one nothing is refused', () => {
  const answers = fc.dictionary(fc.constantFrom('a', 'b', 'c'), fc.constantFrom('', 'x', 'y'));
  fc.assert(
    fc.property(answers, answers, (sent, stands) => {
      const same = ['a', 'b', 'c'].every((name) => (sent[name] ?? '') === (stands[name] ?? ''));
      const refused = (mark: string | undefined) => {
        try {
          refuseChanged({ ...sent, ...(mark !== undefined && { [SEEN_FIELD]: mark }) }, stands);
          return false;
        } catch {
          return true;
        }
      };
      expect(refused(undefined)).toBe(false);
      expect(refused(seenOf(stands))).toBe(false);
      if (same) expect(refused('an old mark')).toBe(false);
      const differs = Object.keys(stands).some((name) => (sent[name] ?? '') !== stands[name]);
      expect(refused('an old mark')).toBe(differs);
    }),
  );
  expect(seenOf({ a: '1', b: '2' })).toBe(seenOf({ b: '2', a: '1' }));
});
