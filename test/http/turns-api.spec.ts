// A teaching day's turns through the API: read by the owner, told on the day, once for each key.
import { TurnsService } from '../../src/teaching/turns.service.js';
import { callerAt } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { keepTurns, signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let studio: TestStudio;
let sessionId: string;
let owner: Record<string, string>;

interface TurnsAnswer {
  kept: boolean;
  stale: boolean;
  none: string | null;
  fits: boolean;
  endsAt: string | null;
  students: {
    studentId: string;
    name: string;
    lines: { from: string; doing: string; round: number | null }[];
  }[];
}

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { halfGlass: 400n } });
  ({ sessionId } = await teachingDay(house, studio, { start: '2027-04-07T09:00' }));
  await signUp(house, studio, sessionId, { students: [{ name: 'Ada' }, { name: 'Bo' }] });
  await signIn();
}, 60_000);
afterAll(() => house.close());

async function signIn() {
  owner = { authorization: `Bearer ${(await callerAt(house, studio, 'owner')).secret}` };
}

async function ask(
  method: 'GET' | 'POST',
  path: string,
  sent?: unknown,
  headers: Record<string, string> = {},
) {
  const answer = await house.app.inject({
    method,
    url: `/api/v1/s/${studio.slug}/teaching/${path}`,
    headers: { ...owner, ...headers, ...(sent === undefined ? {} : { 'content-type': 'application/json' }) },
    ...(sent === undefined ? {} : { payload: JSON.stringify(sent) }),
  });
  return { status: answer.statusCode, body: answer.body === '' ? undefined : JSON.parse(answer.body) };
}
const read = async (): Promise<TurnsAnswer> => (await ask('GET', `${sessionId}/turns`)).body;

describe('turns by API', () => {
  it('are read before and after they are kept, with times of the studio', async () => {
    const first = await read();
    expect(first).toMatchObject({ kept: false, stale: false, none: null, fits: true });
    expect(first.students.map(({ name }) => name).sort()).toEqual(['Ada', 'Bo']);
    for (const { lines } of first.students) {
      expect(lines.filter(({ doing }) => doing === 'plate').map(({ round }) => round)).toEqual([1, 2, 3]);
      expect(lines[0]?.from).toMatch(/^2027-04-07T09:\d\d:\d\d\+01:00$/);
    }
    await keepTurns(house, studio, sessionId);
    expect(await read()).toEqual({ ...first, kept: true });
    const { sessionId: empty } = await teachingDay(house, studio, { start: '2027-04-14T09:00' });
    expect((await ask('GET', `${empty}/turns`)).body).toMatchObject({ none: 'nobody', students: [] });
  });

  it('are planned anew when somebody is late, leaves or a plate is done, once for each key', async () => {
    house.clock.set('2027-04-07T08:10:00Z');
    await signIn();
    const [ada, bo] = (await read()).students.map(({ studentId }) => studentId);
    const late = { studentId: ada, minutes: 25 };
    const key = { 'idempotency-key': 'late-ada-twenty-five' };
    const revision = async () =>
      (await house.app.get(TurnsService).kept(studio.id, sessionId))?.kept.revision;
    for (let times = 0; times < 2; times++)
      expect((await ask('POST', `${sessionId}/turns/late`, late, key)).status).toBe(204);
    expect(await revision()).toBe(2);
    const other = await ask('POST', `${sessionId}/turns/late`, { ...late, minutes: 5 }, key);
    expect([other.status, other.body.code]).toEqual([422, 'same_key_other_request']);
    expect((await ask('POST', `${sessionId}/turns/done`, { studentId: bo, round: 1 })).status).toBe(204);
    expect((await ask('POST', `${sessionId}/turns/skip`, { studentId: bo, round: 3 })).status).toBe(204);
    expect((await ask('POST', `${sessionId}/turns/skip`, { studentId: ada })).status).toBe(204);
    expect(await revision()).toBe(5);
    const after = await read();
    const rounds = after.students.map(({ lines }) => lines.filter(({ doing }) => doing === 'plate').length);
    expect(rounds).toEqual([0, 1]);
  });

  it('refuse what is not of this day, each beside its field, and a day without kept turns', async () => {
    const wrong = await ask('POST', `${sessionId}/turns/late`, { studentId: 'Ada', minutes: -1 });
    expect([wrong.status, wrong.body.errors.map((one: { pointer: string }) => one.pointer)]).toEqual([
      422,
      ['/studentId', '/minutes'],
    ]);
    const { sessionId: other } = await teachingDay(house, studio, { start: '2027-04-21T09:00' });
    const none = await ask('POST', `${other}/turns/late`, { studentId: studio.id, minutes: 5 });
    expect([none.status, none.body.code]).toEqual([404, 'not_found']);
  });
});
