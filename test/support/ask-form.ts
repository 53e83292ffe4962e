// The form by which a sitting is asked for, opened and filled in well; each test says what is otherwise.
import { z } from 'zod';
import type { TestHouse } from './house.js';
import { fieldsOf, type Sent } from './page-forms.js';
import type { TestStudio } from './studio.js';
import { Visitor } from './visitor.js';

export const askPath = (studio: TestStudio) => `/s/${studio.slug}/ask`;

/** `more` replaces or adds answers. Nothing is sent yet. */
export async function filledForm(
  house: TestHouse,
  studio: TestStudio,
  more: Sent = {},
): Promise<{ visitor: Visitor; answers: Sent }> {
  const visitor = new Visitor(house);
  const page = await visitor.get(askPath(studio));
  if (page.status !== 200) throw new Error(`The form answered ${page.status}.`);
  const answers = {
    ...fieldsOf(page.html, askPath(studio)),
    name: 'Linnea Harrow',
    reachBy: 'email',
    email: 'linnea@post.example',
    'sitters/0': 'Linnea Harrow',
    'plates/0/plateSizeId': studio.sizes.whole.id,
    home: 'Whitby, United Kingdom',
    ...more,
  };
  return { visitor, answers };
}

/** How many sittings were ever asked for. */
export function countSittings(house: TestHouse, studio: TestStudio): Promise<number> {
  const count = z.object({ count: z.bigint() });
  return house.db.inStudio(studio.id, async (tx) =>
    Number((await tx.one(count, 'select count(*) from sitting where studio_id = $1', [studio.id])).count),
  );
}
