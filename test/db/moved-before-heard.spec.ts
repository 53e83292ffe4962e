// Moved before any letter of ours told them of their day: who was promised it by the old diary hears that it is off, and
// why; who never heard of it hears of one day, as of a yes.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { BringInService } from '../../src/desk/bring-in/bring-in.service.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { WHY } from '../support/letter-acts.js';
import { approve, foundTestStudio, type TestStudio } from '../support/studio.js';

type Wall = Temporal.PlainDateTime;

let house: TestHouse;
let studio: TestStudio;
let studios = 0;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-25T10:00:00Z' });
});
beforeEach(async () => {
  studio = await foundTestStudio(house, { slug: `loft-${++studios}` });
});
afterEach(() => {
  house.mail.sent.length = 0;
});
afterAll(() => house.close());

const [FIRST, SECOND, THIRD] = ['2027-05-07T09:30', '2027-05-14T09:30', '2027-05-21T09:30'].map((one) =>
  Temporal.PlainDateTime.from(one),
) as [Wall, Wall, Wall];

const move = (
  sittingId: string,
  from: Wall,
  to: Wall,
  why: Parameters<MovingService['move']>[4]['why'] = WHY,
) => house.app.get(MovingService).move(studio.id, studio.owner, sittingId, from, { why, to });
const kinds = async () =>
  (await house.app.get(OutboxService).latest(studio.id))
    .filter(({ kind }) => kind === 'confirmed' || kind === 'moved')
    .map(({ kind, sequence, state }) => `${kind} ${sequence} ${state}`);

/** Somebody of the old diary. @returns their sitting */
async function brought(promised: string, reach = 'kit@example.org'): Promise<string> {
  const bringIn = house.app.get(BringInService);
  const diary = `Name,Contact,Promised\nKit Ruff,${reach},${promised}`;
  const id = await bringIn.begin(studio.id, 'diary', diary, false);
  const { seen } = await bringIn.check(studio.id, studio.owner, id);
  const done = await bringIn.confirm(studio.id, studio.owner, id, seen);
  return house.db.inStudio(studio.id, async (tx) => {
    const sql = 'select became_id as id from bring_in_line where studio_id = $1 and bring_in_id = $2';
    return (await tx.one(z.object({ id: z.uuid() }), sql, [studio.id, done])).id;
  });
}

describe('somebody of the old diary', () => {
  it('who was promised a day hears that it is off, and why, however often it is moved before', async () => {
    const sittingId = await brought('7 May 2027 09:30');
    await move(sittingId, FIRST, SECOND);
    await house.work();
    const [letter, ...others] = house.mail.sent;
    expect(others).toEqual([]);
    expect(letter?.subject).toBe('Your place at Sandpiper Loft is moved to Friday 14 May 2027, 09:30');
    expect(letter?.text).toContain('Friday 7 May 2027, 09:30 cannot be held.');
    expect(letter?.text).toContain(WHY.words);
    await move(sittingId, SECOND, THIRD);
    await house.work();
    expect(house.mail.sent.at(-1)?.text).toContain('Friday 14 May 2027, 09:30 cannot be held.');
  });

  it('who is moved twice before they hear is told once, from the day they were promised', async () => {
    const sittingId = await brought('7 May 2027 09:30');
    await move(sittingId, FIRST, SECOND);
    await move(sittingId, SECOND, THIRD);
    await house.work();
    expect(house.mail.sent).toHaveLength(1);
    expect(house.mail.sent[0]?.text).toContain(
      'Friday 7 May 2027, 09:30 cannot be held. Your place is now on Friday 21 May 2027, 09:30.',
    );
  });

  it('who is moved and moved back is told nothing', async () => {
    const sittingId = await brought('7 May 2027 09:30');
    await move(sittingId, FIRST, SECOND);
    await move(sittingId, SECOND, FIRST);
    await house.work();
    expect(house.mail.sent).toEqual([]);
  });

  it('who is on the telephone is told the same', async () => {
    const sittingId = await brought('7 May 2027 09:30', '01632 960111');
    await move(sittingId, FIRST, SECOND);
    await house.work();
    expect(await kinds()).toEqual(['moved 2 sent']);
  });

  it('who was promised no day hears of the one given here as of a yes', async () => {
    const sittingId = await brought('');
    await approve(house, studio, sittingId, FIRST.toString());
    await move(sittingId, FIRST, SECOND);
    await house.work();
    expect(await kinds()).toEqual(['confirmed 2 sent']);
  });

  it('whose promised day was called off hears of the next as of a yes', async () => {
    const sittingId = await brought('7 May 2027 09:30');
    const how = { why: WHY, again: true };
    await house.app.get(MovingService).callOff(studio.id, studio.owner, sittingId, FIRST, how);
    await house.work();
    await approve(house, studio, sittingId, SECOND.toString());
    await move(sittingId, SECOND, THIRD);
    await house.work();
    expect((await kinds()).map((one) => one.split(' ')[0])).toEqual(['confirmed']);
    expect(house.mail.sent.at(-1)?.text).not.toContain('cannot be held');
  });
});
