// Planning the rest of a day anew stays quick: told as a ratio, so that a busy machine slows both sides.
import { expect, test } from '@jest/globals';
import { ratio } from '../bench/ratio.js';
import { MOST_OF_A_DAY, planningTheDay, planningTheRest } from '../bench/rota-rest.js';

test('the rest of twelve students’ day at noon takes a part of planning all of it', async () => {
  const times = { counted: 5, warming: 2 };
  const found = await ratio('', planningTheDay, planningTheRest, MOST_OF_A_DAY, times);
  expect(planningTheRest()).toMatchObject({ ok: true });
  expect(found.ratio).toBeLessThan(MOST_OF_A_DAY);
}, 60_000);
