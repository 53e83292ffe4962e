// New places for sittings that must leave theirs: who comes first, who is to be telephoned now, and that nothing is
// touched by a proposal.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { RoomService } from '../../src/room/room.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MoveProposalsService } from '../../src/sittings/move-proposals.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, type Asking, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let moves: MoveProposalsService;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
  moves = house.app.get(MoveProposalsService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `move-${++count}`, email: `desk-${count}@move.example` });
});
afterAll(() => house.close());

const DAY = '2027-04-02';
const SPRING = { kind: 'any', from: '2027-03-01', until: '2027-05-31' } as const;

async function placed(start: string, asking: Asking = {}): Promise<string> {
  const { sittingId } = await askForSitting(house, studio, { suits: SPRING, ...asking });
  await approve(house, studio, sittingId, start);
  return sittingId;
}
async function offered(start: string): Promise<string> {
  const { sittingId } = await askForSitting(house, studio, { suits: SPRING });
  await house.app.get(ListService).wait(studio.id, studio.owner, sittingId);
  const wallStart = Temporal.PlainDateTime.from(start);
  await house.app.get(OffersService).make(studio.id, studio.owner, sittingId, wallStart);
  return sittingId;
}
const close = (from: string, until: string) =>
  house.db.inStudio(studio.id, async (tx) => {
    const range = { from: Temporal.PlainDate.from(from), until: Temporal.PlainDate.from(until) };
    await house.app.get(RoomService).close(tx, await house.app.get(StudiosService).load(tx), range, 'Works');
  });
const day = Temporal.PlainDate.from(DAY);
const propose = (ids: string[]) => moves.propose(studio.id, ids, { from: day, until: day });
const startsOf = async (ids: string[], closed: Temporal.PlainDate) => {
  const found = await moves.propose(studio.id, ids, { from: closed, until: closed });
  return found.map(({ to }) => to?.slot.wallStart.toString());
};
const dayOf = (to: { slot: { wallStart: Temporal.PlainDateTime } } | null) =>
  to?.slot.wallStart.toPlainDate().toString();

it('far ahead everybody gets a near day they asked for, nobody is telephoned, nothing is touched', async () => {
  const ids = [await placed(`${DAY}T09:30`), await placed(`${DAY}T11:15`)];
  const found = await propose(ids);
  expect(found.map((one) => one.view.sitting.id)).toEqual(ids);
  expect(found.map(({ urgency, telephoneNow, why }) => ({ urgency, telephoneNow, why }))).toEqual(
    ids.map(() => ({ urgency: 'in time', telephoneNow: false, why: null })),
  );
  for (const { to } of found) {
    expect(to?.askedFor).toBe(true);
    expect(['2027-03-26', '2027-04-09']).toContain(dayOf(to));
  }
  const starts = found.map(({ to }) => to?.slot.wallStart.toString());
  expect(new Set(starts).size).toBe(2);
  const views = await house.db.inStudio(studio.id, (tx) =>
    house.app.get(SittingViews).byIds(tx, { lat: 0, lon: 0 } as never, ids),
  );
  expect(views.every(({ sitting, place }) => sitting.state === 'confirmed' && place?.holds)).toBe(true);
});

it('whoever is on the way comes first and is telephoned now, then who needs longer notice than is left', async () => {
  const near = await placed(`${DAY}T09:30`, { home: 'Whitby, United Kingdom' });
  const far = await placed(`${DAY}T11:15`, { home: 'London, United Kingdom' });
  house.clock.set('2027-03-31T10:00:00Z');
  const later = await propose([near, far]);
  expect(later.map((one) => [one.view.sitting.id, one.urgency, one.telephoneNow])).toEqual([
    [far, 'within their notice', true],
    [near, 'in time', false],
  ]);
  house.clock.set(`${DAY}T06:00:00Z`);
  const now = await propose([near, far]);
  expect(now.map((one) => one.urgency)).toEqual(['on the way', 'on the way']);
  expect(now.every((one) => one.telephoneNow)).toBe(true);
});

it('somebody for whom there is no place is told so', async () => {
  const one = await placed(`${DAY}T09:30`);
  const range = { from: day, until: Temporal.PlainDate.from('2029-12-31') };
  house.clock.set('2027-03-27T10:00:00Z');
  const none = await moves.propose(studio.id, [one], {
    ...range,
    from: Temporal.PlainDate.from('2027-03-01'),
  });
  expect(none).toMatchObject([{ to: null, why: 'no open place' }]);
});

it('the place that another leaves counts as free, where no closure takes it', async () => {
  for (const start of ['09:30', '13:00', '14:45']) await placed(`2027-04-09T${start}`);
  const [one, two] = [await placed(`${DAY}T09:30`), await placed('2027-04-09T11:15')];
  await close('2026-11-25', '2027-04-01');
  await close('2027-04-03', '2027-04-08');
  await close('2027-04-10', '2027-12-31');
  expect(await startsOf([one, two], day)).toEqual(['2027-04-09T11:15:00', undefined]);
  await close('2027-04-09', '2027-04-09');
  expect(await startsOf([one, two], day)).toEqual([undefined, undefined]);
});

it('a full year of their kind keeps nobody from moving within it', async () => {
  const kindId = await house.db.inStudio(studio.id, (tx) =>
    house.app.get(RoomService).enterKind(tx, {
      ...{ name: 'Series', position: 1, offered: 'public', plates: 1, firstPlateMinutes: null },
      ...{ keepsPlate: 'series', weekdays: [], yearlyQuota: 1, fee: '', deposit: '' },
    }),
  );
  const id = await placed(`${DAY}T09:30`, { kindId });
  const [to] = await startsOf([id], day);
  expect(to?.slice(0, 4)).toBe('2027');
  const why = { reason: 'storm', words: '' } as const;
  const act = { to: Temporal.PlainDateTime.from(to ?? '') };
  const from = Temporal.PlainDateTime.from(`${DAY}T09:30`);
  const choice = { sittingId: id, from, act };
  const moving = house.app.get(MovingService);
  expect(await moving.carryOut(studio.id, studio.owner, why, [choice])).toEqual([
    { sittingId: id, done: act },
  ]);
});

it('the one free place goes to whoever can be moved there, not to one who is only offered a place', async () => {
  for (const start of ['09:30', '11:15', '13:00']) await placed(`2027-04-09T${start}`);
  const [maybe, firm] = [await offered(`${DAY}T09:30`), await placed(`${DAY}T11:15`)];
  await close('2026-11-25', '2027-04-01');
  await close('2027-04-10', '2027-12-31');
  const found = await propose([maybe, firm]);
  expect(found.map(({ view, to, why }) => [view.sitting.id, to?.slot.wallStart.toString(), why])).toEqual([
    [maybe, undefined, null],
    [firm, '2027-04-09T14:45:00', null],
  ]);
});
