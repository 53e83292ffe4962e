// Keys that no door of the API has a place for: told by name at every door, before anything is done.
import { bodyOf, operations, shapeOf, type Shape } from '../../src/platform/openapi.js';
import { unknownKeys } from '../../src/platform/known-keys.js';
import { call, callerAt, type Caller } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, requestBody, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Caller;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owner = await callerAt(house, studio, 'owner');
});
afterAll(() => house.close());

interface Told {
  code: string;
  errors: { pointer: string; detail: string }[];
}
const NO_FIELD = 'There is no field of this name.';
const toldAs = (body: string) =>
  (JSON.parse(body) as Told).errors.filter(({ detail }) => detail === NO_FIELD).map(({ pointer }) => pointer);

const doors = operations().flatMap(({ method, path, operation: { body } }) =>
  body ? [{ method: method.toUpperCase() as 'POST' | 'PUT', path, body }] : [],
);

/** An object for each way to each object that a shape describes, with a key in it that is in none. */
function misspelt(shape: Shape): { sent: unknown; pointer: string }[] {
  const either = shape.anyOf ?? shape.oneOf;
  if (either) return either.flatMap(misspelt);
  if (shape.items)
    return misspelt(shape.items).map(({ sent, pointer }) => ({ sent: [sent], pointer: `/0${pointer}` }));
  if (!shape.properties) return [];
  const told = Object.entries(shape.properties).flatMap(([key, { const: word }]) =>
    word === undefined ? [] : [[key, word] as const],
  );
  const inside = Object.entries(shape.properties).flatMap(([key, inner]) =>
    misspelt(inner).map(({ sent, pointer }) => ({
      sent: { ...Object.fromEntries(told), [key]: sent },
      pointer: `/${key}${pointer}`,
    })),
  );
  return [...inside, { sent: { ...Object.fromEntries(told), misspelt: 1 }, pointer: '/misspelt' }];
}

it('there are as many doors with a body as handlers that take one', () => {
  expect(doors.length).toBeGreaterThan(15);
});

it.each(doors.map((door) => [`${door.method} ${door.path}`, door] as const))(
  '%s tells of them',
  async (_, door) => {
    const all = misspelt(shapeOf(door.body));
    expect(all.length).toBeGreaterThan(0);
    for (const { sent, pointer } of all) {
      const answer = await call(house, studio, door, owner, { sent });
      expect([answer.status, toldAs(answer.body)]).toEqual([422, [pointer]]);
    }
  },
);

it('what a misspelt key leaves out is told with it, and nothing is done', async () => {
  const { name, ...rest } = requestBody(house, studio) as { name: string };
  const answer = await house.app.inject({
    method: 'POST',
    url: `/api/v1/s/${studio.slug}/requests`,
    headers: { 'idempotency-key': 'misspelt' },
    payload: { ...rest, nmae: name, 'a/b~c': 1 },
  });
  expect([answer.statusCode, answer.json<Told>().code]).toEqual([422, 'bad_input']);
  expect(answer.json<Told>().errors).toEqual([
    { pointer: '/nmae', detail: NO_FIELD },
    { pointer: '/a~1b~0c', detail: NO_FIELD },
    { pointer: '/name', detail: 'Please check this answer.' },
  ]);
});

it('what a change of the settings lacks is told where it stands in what was sent', async () => {
  const door = { method: 'PUT', path: '/api/v1/s/:slug/settings' } as const;
  const pointers = async (change: object) => {
    const answer = await call(house, studio, door, owner, { sent: { change } });
    return (JSON.parse(answer.body) as Told).errors.map(({ pointer }) => pointer);
  };
  expect(await pointers({ do: 'booking', horizonMonths: 6 })).toEqual(['/change/leastNoticeDays']);
  const booking = { do: 'booking', horizonMonths: 6, leastNoticeDays: 3, leastNotice: 1 };
  expect(await pointers(booking)).toEqual(['/change/leastNotice']);
  expect(await pointers({ do: 'drop rhythm', rhythmId: studio.id })).toEqual(['/change']);
});

it('of many, twenty are told', async () => {
  const many = Object.fromEntries(Array.from({ length: 500 }, (_, at) => [`k${at}`, at]));
  const answer = await call(house, studio, { method: 'POST', path: '/api/v1/chemistry/estimate' }, owner, {
    sent: many,
  });
  expect(toldAs(answer.body).length).toBe(20);
});

it('keys that objects bring along are known nowhere', () => {
  const shape = { type: 'object', properties: { one: {} } };
  expect(unknownKeys(JSON.parse('{"constructor":1,"toString":2,"one":3}'), shape)).toEqual([
    ['constructor'],
    ['toString'],
  ]);
});

it('of a handler without a body nothing is asked', () => {
  expect(bodyOf(() => 0)).toBeUndefined();
});
