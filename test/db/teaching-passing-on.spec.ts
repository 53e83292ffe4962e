// Who is offered a place at a day of teaching that came free, where the studio passes places on by rule.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { DEFAULT_WAITING_RULES } from '../../src/waiting/rules.schemas.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { offering } from '../support/offering.js';
import { signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
let sessionId: string;
let first: Awaited<ReturnType<typeof signUp>>;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
  const rules = { ...DEFAULT_WAITING_RULES, mode: 'automatic' } as const;
  await house.app.get(WaitingService).saveRules(at.studio.id, at.studio.owner, rules);
  ({ sessionId } = await teachingDay(house, at.studio, { most: 3 }));
  first = await comes('Ada', 'Abe');
  await comes('Una');
});

/** Signs up, a minute after whoever came before, or waits. */
async function comes(...names: string[]) {
  house.clock.forward({ minutes: 1 });
  const students = names.map((name) => ({ name }));
  return signUp(house, at.studio, sessionId, {
    orWait: true,
    name: names[0],
    email: `${names[0]}@post.example`,
    students,
  });
}

const own = () => house.app.get(OwnSignUpService);
/** Leaves, or says no; and whoever is asked then is. */
async function act(what: 'leave' | 'refuse', { token }: { token: string }) {
  house.clock.forward({ minutes: 1 });
  await own()[what](at.studio.id, token);
  await house.work();
}

/** The owner changes how many there are. */
async function places(count: string): Promise<void> {
  const changes = house.app.get(TeachingChanges);
  const wanted = { day: '2027-04-07', time: '10:00', places: count, least: '2', decideOn: '2027-03-17' };
  const { hash } = await changes.preview(at.studio.id, sessionId, wanted);
  await changes.confirm(at.studio.id, at.studio.owner, sessionId, wanted, hash);
  await house.work();
}

/** By their name, in the order they came. */
async function states(): Promise<string> {
  const rows = await at.rows<{ name: string; state: string }>(
    'select c.name, s.state from sign_up s join contact c using (studio_id, contact_id) order by s.asked_at',
  );
  return rows.map(({ name, state }) => `${name} ${state}`).join(', ');
}

it('is the first whom the places suffice', async () => {
  await comes('Three', 'Of', 'Them');
  await comes('Bo');
  await act('leave', first);
  expect(await states()).toBe('Ada released, Una signed, Three waiting, Bo offered');
});

it('are as many as there are places for', async () => {
  for (const name of ['Bo', 'Cy', 'Di']) await comes(name);
  await act('leave', first);
  expect(await states()).toBe('Ada released, Una signed, Bo offered, Cy offered, Di waiting');
});

it('are those for whom the owner makes more places, of a day that is full and of one that is not', async () => {
  for (const name of ['Bo', 'Cy']) await comes(name);
  await comes('Three', 'Of', 'Them');
  await places('4');
  expect(await states()).toMatch(/Bo offered, Cy waiting, Three waiting$/);
  await places('6');
  expect(await states()).toMatch(/Bo offered, Cy offered, Three waiting$/);
  await places('8');
  expect(await states()).toMatch(/Bo offered, Cy offered, Three offered$/);
});

it('is nobody who said no to it, or let it pass, until another place comes free', async () => {
  const bo = await comes('Bo', 'Ben');
  await comes('Cy', 'Cora');
  await act('leave', first);
  expect(await states()).toMatch(/Bo offered, Cy waiting$/);
  await act('refuse', bo);
  expect(await states()).toMatch(/Bo waiting, Cy offered$/);
  house.clock.forward({ hours: 24 * 14 });
  await house.work(); // it runs out
  expect(await states()).toMatch(/Bo waiting, Cy waiting$/);
  const di = await comes('Di');
  await house.work(); // who comes now waits behind nobody's no
  expect(await states()).toMatch(/Bo waiting, Cy waiting, Di offered$/);
  await own().accept(at.studio.id, di.token);
  await act('leave', di);
  expect(await states()).toMatch(/Bo offered, Cy waiting, Di released$/);
});
