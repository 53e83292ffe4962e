// The steps in which a sitting is asked for, filled in well; each test says what is otherwise.
import { z } from 'zod';
import { RoomService } from '../../src/room/room.service.js';
import { firstAnswers } from '../../src/sittings/ask-form.calc.js';
import { STEPS, stepOf } from '../../src/sittings/ask-steps.calc.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import type { TestHouse } from './house.js';
import type { Sent } from './page-forms.js';
import type { TestStudio } from './studio.js';
import { type Answer, Visitor } from './visitor.js';

export const askPath = (studio: TestStudio) => `/s/${studio.slug}/ask`;

/** `more` replaces or adds answers, of whichever step. Nothing is sent yet. */
export async function filledForm(
  house: TestHouse,
  studio: TestStudio,
  more: Sent = {},
): Promise<{ visitor: Visitor; answers: Sent }> {
  const visitor = new Visitor(house);
  const page = await visitor.get(askPath(studio));
  if (page.status !== 200) throw new Error(`The form answered ${page.status}.`);
  const found = await house.app.get(StudiosService).at(studio.slug);
  const answers = {
    ...(firstAnswers(house.app.get(RoomService).bookable(found), undefined) as Sent),
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

/** An answer of one of the steps, where its form is sent, and the address of the draft; '' where there is none. */
export interface StepAnswer extends Answer {
  action: string;
  draft: string;
}

export const ofStep = (step: string, answers: Sent): Sent =>
  Object.fromEntries(Object.entries(answers).filter(([name]) => stepOf(name) === step));

/**
 * Goes through the steps with some answers, each step with its own, and sends the request.
 * @returns the first answer that does not lead on; else that of the sending, which leads to the own page
 */
export async function sendForm(visitor: Visitor, studio: TestStudio, answers: Sent): Promise<StepAnswer> {
  let action = askPath(studio);
  for (const step of STEPS) {
    const sent = await visitor.post(action, ofStep(step, answers));
    // the first step, refused, is told at the address of the draft that it began
    const answer = sent.location.endsWith('?again=yes') ? await visitor.get(sent.location) : sent;
    const form = new RegExp(`action="(${askPath(studio)}[^"#]*)"`).exec(answer.html)?.[1] ?? action;
    if (answer.status !== 303) return { ...answer, action: form, draft: form.replace(/\/[a-z]+$/, '') };
    action = answer.location;
  }
  const draft = action.replace(/\/check$/, '');
  return { ...(await visitor.post(`${draft}/send`)), action, draft };
}

/** How many sittings were ever asked for. */
export function countSittings(house: TestHouse, studio: TestStudio): Promise<number> {
  const count = z.object({ count: z.bigint() });
  return house.db.inStudio(studio.id, async (tx) =>
    Number((await tx.one(count, 'select count(*) from sitting where studio_id = $1', [studio.id])).count),
  );
}
