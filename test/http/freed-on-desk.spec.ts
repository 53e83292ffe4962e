// A place that came free while somebody waits, on the desk's front page: told as long as there is something to do.
import { jest } from '@jest/globals';
import { Tx } from '../../src/platform/db/tx.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { type Asked, offering, OTHER, START } from '../support/offering.js';
import { wordsOf } from '../support/page-forms.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn } from '../support/visitor.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
  desk = `/s/${at.studio.slug}/desk`;
});

const look = async (path = desk) => (await (await signedIn(house, at.studio, 'owner')).get(path)).html;
/** What the front page says under the heading of such places; null where there is none. */
async function told(kind = 'freed', part = 'today'): Promise<string | null> {
  const section = new RegExp(`<section aria-labelledby="${part}-${kind}".*?</section>`, 's');
  const found = section.exec(await look())?.[0];
  return found === undefined ? null : wordsOf(found);
}
/** Had a place and gave it back. */
async function gaveBack(one: Asked, start = START): Promise<void> {
  await at.offer(one, start);
  await at.refuse(one);
}

describe('a sitting given back', () => {
  it('is told with who is next and a link to where it is passed on, until it is offered', async () => {
    const [first, second] = [await at.waiter({ name: 'First' }), await at.waiter({ name: 'Second' })];
    expect(await told()).toBeNull();
    await gaveBack(first);
    await at.waiter({ name: 'Third' });
    expect(await told()).toBe(
      'Places that came free, and somebody waits (1) Friday 2 April 2027, 09:30 ' +
        'Next on the list: Second, and one more could be asked after them. Nobody is asked until you offer it.',
    );
    expect(wordsOf(await look())).toContain('1 to decide today');
    const [, id = ''] = /href="[^"]*\/desk\/waiting#(freed-[^"]+)"/.exec(await look()) ?? [];
    expect(await look(`${desk}/waiting`)).toContain(`<article class="day" id="${id}"`);
    await at.offer(second);
    expect(await told()).toBeNull();
  });

  it('is not told where nobody waits who could take it, nor once its hour has come', async () => {
    const one = await at.waiter({ name: 'First' });
    await gaveBack(one);
    await at.waiter({ name: 'Another day', suits: { kind: 'these', days: ['2027-04-09'] } });
    expect(await told()).toBeNull(); // the first said no to it, and the other's day it is not
    await at.waiter({ name: 'Third' });
    expect(await told()).toContain('Next on the list: Third.');
    house.clock.set('2027-04-02T08:30:00Z');
    expect(await told()).toBeNull();
  });

  it('costs no more statements for several than for one', async () => {
    const [one] = [await at.waiter({ name: 'First' }), await at.waiter({ name: 'Second' })];
    await gaveBack(one);
    const owner = await signedIn(house, at.studio, 'owner');
    const statements = jest.spyOn(Tx.prototype, 'many');
    const count = async () => {
      statements.mockClear();
      const { html } = await owner.get(desk);
      return { asked: statements.mock.calls.length, places: /somebody waits \((\d)\)/.exec(html)?.[1] };
    };
    const few = await count();
    await gaveBack(one, OTHER);
    await gaveBack(one, '2027-04-09T09:30');
    expect([few.places, await count()]).toEqual(['1', { asked: few.asked, places: '3' }]);
    statements.mockRestore();
  });

  it('is told as nothing to do while the rule is about to offer it, and to be done where it did not', async () => {
    await at.setMode('automatic');
    const [first] = [await at.waiter({ name: 'First' }), await at.waiter({ name: 'Second' })];
    await gaveBack(first);
    expect(await told('freed', 'week')).toContain(
      'Your rule offers it by itself: to Second. There is nothing to do.',
    );
    expect(await told()).toBeNull();
    expect(wordsOf(await look(`${desk}/waiting`))).toContain(
      'Your rule offers it by itself in a few minutes',
    );
    await house.work();
    expect([await told('freed', 'week'), await told()]).toEqual([null, null]);
  });

  it('is to be offered by hand where the rule asked nobody, as of who came to the list later', async () => {
    await at.setMode('automatic');
    await gaveBack(await at.waiter({ name: 'First' }));
    await house.work();
    await at.waiter({ name: 'Second' });
    house.clock.forward({ minutes: 10 });
    expect(await told()).toContain(
      'Your rule has offered it to nobody: on the list Second could be asked. Offer it yourself.',
    );
  });
});

describe('a place to learn that was given back', () => {
  const own = () => house.app.get(OwnSignUpService);
  async function fullDay() {
    const { sessionId } = await teachingDay(house, at.studio, { most: 1, least: 1 });
    const comes = async (name: string) => {
      house.clock.forward({ minutes: 1 });
      const more = { orWait: true, name, email: `${name}@post.example`, students: [{ name }] };
      return signUp(house, at.studio, sessionId, more);
    };
    const [has, waits] = [await comes('Ada'), await comes('Bo')];
    await house.work();
    return { sessionId, has, waits, comes };
  }

  it('is told with who waits, until it is offered; not to who let it pass, nor with too little time', async () => {
    const { sessionId, has, waits, comes } = await fullDay();
    expect(await told('teaching-offer')).toBeNull();
    await own().leave(at.studio.id, has.token);
    expect(await told('teaching-offer')).toContain(
      'Bo First Plates, Wednesday 7 April 2027, 10:00 to 16:00; waits for one place, and there is one.',
    );
    expect(await look()).toContain(`${desk}/teaching/${sessionId}#sign-up-${waits.signUpId}`);
    await house.app.get(TeachingRequestsService).offer(at.studio.id, at.studio.owner, waits.signUpId);
    expect(await told('teaching-offer')).toBeNull();
    await own().refuse(at.studio.id, waits.token);
    expect(await told('teaching-offer')).toBeNull();
    await comes('Cy');
    await at.rows(`update sign_up set state = 'waiting' where state = 'signed'`);
    await at.rows('update teaching_session set taken = 0');
    expect(await told('teaching-offer')).toContain('Cy First Plates');
    house.clock.set('2027-04-07T08:55:00Z'); // five minutes before
    expect(await told('teaching-offer')).toBeNull();
  });

  it('is told as nothing to do where the rule is about to offer it', async () => {
    await at.setMode('automatic');
    const { has } = await fullDay();
    await own().leave(at.studio.id, has.token);
    expect(await told('teaching-offer')).toBeNull();
    expect(await told('teaching-offer', 'week')).toContain(
      'there is one. Your rule offers it by itself; there is nothing to do.',
    );
    await house.work();
    expect([await told('teaching-offer'), await told('teaching-offer', 'week')]).toEqual([null, null]);
  });
});
