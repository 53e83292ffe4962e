// Two people at the desk change the same thing, each with the form as it was before the other.
import { expect } from '@jest/globals';
import { SEEN_FIELD } from '../../src/platform/seen.js';
import type { TestHouse } from './house.js';
import { errorAt, fieldsOf } from './page-forms.js';
import type { TestStudio } from './studio.js';
import { signedIn } from './visitor.js';

export interface Edit {
  /** Where the form stands. */
  page: string;
  /** Where it is sent to. */
  action: string;
  field: string;
  /** What each of the two writes, as the form's field holds it. */
  ones: string;
  others: string;
  /** As the page tells it, where that is not as the field holds it. */
  told?: string;
}

/** The second is told, sees both, and puts theirs in its place only knowingly. */
export async function secondIsTold(house: TestHouse, studio: TestStudio, edit: Edit): Promise<void> {
  const { page, action, field, ones, others, told: words = ones } = edit;
  const [one, other] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
  const standing = async () => fieldsOf((await one.get(page)).html, action)[field];
  const shown = fieldsOf((await one.get(page)).html, action);
  const alsoShown = fieldsOf((await other.get(page)).html, action);
  expect(shown[SEEN_FIELD]).toMatch(/^[\w-]{22}$/);
  expect(alsoShown[SEEN_FIELD]).toBe(shown[SEEN_FIELD]);
  expect((await one.post(action, { ...shown, [field]: ones })).status).toBe(303);

  const told = await other.post(action, { ...alsoShown, [field]: others });
  expect(told.status).toBe(409);
  expect(errorAt(told.html, field)).toBe(`Meanwhile it says: ${words}`);
  const again = fieldsOf(told.html, action);
  expect(again[field]).toBe(others);
  expect(await standing()).toBe(ones);
  expect((await other.post(action, again)).status).toBe(303);
  expect(await standing()).toBe(others);

  // without the mark it would have been lost
  const { [SEEN_FIELD]: _, ...unmarked } = shown;
  expect((await one.post(action, { ...unmarked, [field]: ones })).status).toBe(303);
  expect(await standing()).toBe(ones);
}
