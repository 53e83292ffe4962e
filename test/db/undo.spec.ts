// An act of the desk can be undone until somebody is told of it: then as if it had never been, and no letter goes.
// After that it is refused. Undo and the letter may come at one moment: exactly one of them wins.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { UndoActs } from '../../src/desk/undo-acts.service.js';
import { MailStore } from '../../src/reminders/mail.store.js';
import { Composing } from '../../src/reminders/composing.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { RoomService } from '../../src/room/room.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { DEFAULT_WAITING_RULES } from '../../src/waiting/rules.schemas.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { UndoService } from '../../src/sittings/undo.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { firstAndSecond } from '../support/two-sessions.js';

const DELAY = 60;
let house: TestHouse;
let studio: TestStudio;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse({ env: { UNDO_SECONDS: String(DELAY) } });
  studio = await foundTestStudio(house);
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-05-28' });
});
afterAll(() => house.close());

const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
const last = (sittingId: string) => house.db.inStudio(studio.id, (tx) => get(UndoActs).last(tx, sittingId));
const viewOf = async (sittingId: string) => {
  const [view] = await get(SittingViews).some(studio.id, [sittingId]);
  if (!view) throw new Error('The sitting is gone.');
  return view;
};
const undo = async (sittingId: string) => {
  const act = await last(sittingId);
  return get(UndoActs).takeBack(studio.id, studio.owner, sittingId, act?.id ?? '');
};
const ask = async (asking = {}) => {
  const asked = await askForSitting(house, studio, asking);
  await house.work();
  house.mail.sent.length = 0;
  return asked;
};
const standing = (sittingId: string) =>
  house.db.inStudio(studio.id, async (tx) => ({
    setAside: await get(StockService).setAside(tx, sittingId),
    places: await get(RoomService).between(
      tx,
      Temporal.Instant.from('2026-01-01T00:00Z'),
      Temporal.Instant.from('2028-01-01T00:00Z'),
      Temporal.Instant.from('2026-01-01T00:00Z'),
      [sittingId],
    ),
  }));

it('gives a place back as if it had never been given, and no letter goes', async () => {
  const { sittingId } = await ask();
  const start = starts[0] ?? '';
  await approve(house, studio, sittingId, start);
  expect(await last(sittingId)).toMatchObject({ event: 'approve', told: false });
  house.clock.forward({ seconds: DELAY - 1 });
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await undo(sittingId)).toBe('approve');
  const { sitting, place } = await viewOf(sittingId);
  expect([sitting.state, place, sitting.message]).toEqual(['requested', null, '']);
  expect(await standing(sittingId)).toEqual({ setAside: [], places: [] });
  house.clock.forward({ hours: 1 });
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await last(sittingId)).toBeNull();
  await approve(house, studio, sittingId, start); // the place is open as before
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent.map(({ subject }) => subject)).toEqual([
    expect.stringContaining('Your place at Sandpiper Loft'),
  ]);
});

it('refuses once the letter went, and changes nothing then', async () => {
  const { sittingId } = await ask();
  await get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Not this year.');
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent).toHaveLength(1);
  expect(await last(sittingId)).toMatchObject({ event: 'decline', told: true, until: null });
  await expect(undo(sittingId)).rejects.toMatchObject({ code: 'wrong_state' });
  expect((await viewOf(sittingId)).sitting.state).toBe('declined');
});

it('undoes a decline and a turn to the list, to where it came from, with the message it had', async () => {
  const { sittingId } = await ask();
  const other = await ask();
  const lists = get(ListService);
  await lists.wait(studio.id, studio.owner, sittingId);
  house.clock.forward({ seconds: 1 });
  await get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'A slip.');
  expect(await undo(sittingId)).toBe('decline');
  expect((await viewOf(sittingId)).sitting).toMatchObject({ state: 'waiting', message: '' });
  house.clock.forward({ seconds: 1 });
  await lists.wait(studio.id, studio.owner, other.sittingId);
  expect(await undo(other.sittingId)).toBe('wait');
  expect((await viewOf(other.sittingId)).sitting.state).toBe('requested');
  house.clock.forward({ hours: 1 });
  await house.work();
  expect(house.mail.sent.map(({ subject }) => subject)).toEqual([
    'You are on the waiting list of Sandpiper Loft',
  ]);
});

it('undoes a mark, while nothing was done since', async () => {
  const { sittingId } = await ask();
  const mark = (priority: string) =>
    get(ListService).mark(studio.id, studio.owner, sittingId, { priority, hardship: '', noticeDays: '' });
  await mark('Sat for us before.');
  house.clock.forward({ seconds: 1 });
  await mark('Another reason.');
  const stale = await last(sittingId);
  expect(await undo(sittingId)).toBe('mark');
  expect((await viewOf(sittingId)).sitting.marks.priority).toBe('Sat for us before.');
  await expect(
    get(UndoActs).takeBack(studio.id, studio.owner, sittingId, stale?.id ?? ''),
  ).rejects.toMatchObject({ code: 'wrong_state' });
});

it('lets somebody without e-mail be undone until they are told, also after the studio had its letter', async () => {
  const { sittingId } = await ask({ reachBy: 'telephone', telephone: '01632 960188' });
  await approve(house, studio, sittingId, starts[3] ?? '');
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent).toHaveLength(1);
  expect(await last(sittingId)).toMatchObject({ event: 'approve', told: false, until: null });
  const entries = async () =>
    (await get(TelephoneService).list(studio.id)).entries.filter(({ view }) => view.sitting.id === sittingId);
  const [entry] = await entries();
  expect(entry?.kind).toBe('confirmed');
  await get(TelephoneService).tell(studio.id, studio.owner, sittingId, [entry?.mail.mail_id ?? '']);
  await expect(undo(sittingId)).rejects.toMatchObject({ code: 'wrong_state' });
  await get(TelephoneService).untell(studio.id, studio.owner, sittingId, [entry?.mail.mail_id ?? '']);
  await undo(sittingId);
  expect((await entries()).map(({ kind }) => kind)).toEqual(['asked']);
});

it('refuses when the contact did something since', async () => {
  const { sittingId } = await ask();
  await get(ListService).wait(studio.id, studio.owner, sittingId);
  const act = await last(sittingId);
  await approve(house, studio, sittingId, starts[4] ?? '');
  await expect(
    get(UndoActs).takeBack(studio.id, studio.owner, sittingId, act?.id ?? ''),
  ).rejects.toMatchObject({ code: 'wrong_state' });
  expect((await viewOf(sittingId)).sitting.state).toBe('confirmed');
});

it('lets one of undo and letter win when both come at one moment', async () => {
  const { sittingId } = await ask();
  await get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Not this year.');
  const act = await last(sittingId);
  const { turns } = (await viewOf(sittingId)).sitting;
  const change = { studioId: studio.id, sittingId, change: 'declined' as const, sequence: turns };
  const undoing =
    (id: string, sitting: string, sequence: number) => async (tx: Parameters<typeof turnOf>[0]) => {
      await get(UndoService).undo(tx, studio.owner, sitting, id);
      if (!(await get(TelephoneService).drop(tx, sitting, sequence))) throw new Error('told');
    };
  const turnOf = (tx: Parameters<Parameters<TestHouse['db']['inStudio']>[1]>[0]) =>
    new MailStore().lockTurn(tx, sittingId, turns);
  // the undo is first: the letter waits for it, and is not written
  await firstAndSecond(house, studio.id, undoing(act?.id ?? '', sittingId, turns), (tx) =>
    get(Composing).aboutChange(tx, change),
  );
  expect(await house.db.inStudio(studio.id, turnOf)).toEqual([]);

  // the letter is written first: the undo waits for it, and drops it
  const other = await ask();
  await get(DecisionsService).decline(studio.id, studio.owner, other.sittingId, 'Not this year.');
  const second = await last(other.sittingId);
  const after = (await viewOf(other.sittingId)).sitting.turns;
  const [, undone] = await firstAndSecond(
    house,
    studio.id,
    (tx) => get(Composing).aboutChange(tx, { ...change, sittingId: other.sittingId, sequence: after }),
    undoing(second?.id ?? '', other.sittingId, after),
  );
  expect(undone.status).toBe('fulfilled');
  const mails = await house.db.inStudio(studio.id, (tx) =>
    new MailStore().lockTurn(tx, other.sittingId, after),
  );
  expect(mails.map(({ state }) => state)).toEqual(['dropped']);

  // it is being sent: the undo is refused, and everything stays
  const third = await ask();
  await get(DecisionsService).decline(studio.id, studio.owner, third.sittingId, 'Not this year.');
  const thirdAct = await last(third.sittingId);
  const sequence = (await viewOf(third.sittingId)).sitting.turns;
  await house.db.inStudio(studio.id, (tx) =>
    get(Composing).aboutChange(tx, { ...change, sittingId: third.sittingId, sequence }),
  );
  const now = house.clock.now();
  const [, refused] = await firstAndSecond(
    house,
    studio.id,
    async (tx) => {
      const [mail] = await new MailStore().lockTurn(tx, third.sittingId, sequence);
      await new MailStore().lease(tx, mail?.mail_id ?? '', now, now.add({ seconds: 60 }));
    },
    undoing(thirdAct?.id ?? '', third.sittingId, sequence),
  );
  expect(refused).toMatchObject({ status: 'rejected' });
  expect((await viewOf(third.sittingId)).sitting.state).toBe('declined');
});

it('asks whoever waits for a place given back at the desk only once it cannot be undone', async () => {
  const one = await ask();
  const next = await ask();
  await approve(house, studio, one.sittingId, starts[9] ?? '');
  await get(ListService).wait(studio.id, studio.owner, next.sittingId);
  house.clock.forward({ seconds: DELAY });
  await house.work();
  await get(WaitingService).saveRules(studio.id, studio.owner, {
    ...DEFAULT_WAITING_RULES,
    mode: 'automatic',
  });
  await get(RequestsService).giveBackFor(studio.id, studio.owner, one.sittingId);
  house.clock.forward({ seconds: DELAY - 1 });
  await house.work();
  const offered = async () =>
    (await get(SittingViews).list(studio.id, ['offered'], house.clock.now())).views.length;
  expect(await offered()).toBe(0);
  house.clock.forward({ seconds: 1 });
  await house.work();
  expect(await offered()).toBe(1);
});

it('gives back at the desk no request that only waits', async () => {
  const { sittingId } = await ask();
  await get(ListService).wait(studio.id, studio.owner, sittingId);
  await expect(get(RequestsService).giveBackFor(studio.id, studio.owner, sittingId)).rejects.toMatchObject({
    code: 'wrong_state',
  });
  expect((await viewOf(sittingId)).sitting.state).toBe('waiting');
});

it('gives a place back for somebody on the telephone, and undone it is theirs as before, with no letter', async () => {
  const { sittingId } = await ask();
  await approve(house, studio, sittingId, starts[5] ?? '');
  house.clock.forward({ seconds: DELAY });
  await house.work();
  house.mail.sent.length = 0;
  const planned = () =>
    house.db.inStudio(studio.id, async (tx) =>
      (await get(Reminding).ofSitting(tx, sittingId)).flatMap((one) =>
        one.state === 'planned' ? [`${one.kind} ${one.due_at}`] : [],
      ),
    );
  const [before, reminders] = [await standing(sittingId), await planned()];
  const amounts = ({ setAside }: typeof before) => setAside.map(({ quantity }) => quantity);
  // the evening before the eve's reminder
  house.clock.set(
    Temporal.Instant.from(reminders.at(-2)?.split(' ')[1] ?? '')
      .subtract({ hours: 12 })
      .toString(),
  );
  await house.work();
  house.mail.sent.length = 0;
  const ahead = await planned();
  expect(ahead).toHaveLength(2);

  await get(RequestsService).giveBackFor(studio.id, studio.owner, sittingId);
  const back = await standing(sittingId);
  expect([back.setAside, back.places.map(({ holds }) => holds)]).toEqual([[], [false]]);
  expect(await last(sittingId)).toMatchObject({ event: 'release', told: false });
  expect(await undo(sittingId)).toBe('release');
  const again = await standing(sittingId);
  expect((await viewOf(sittingId)).sitting.state).toBe('confirmed');
  expect(amounts(again)).toEqual(amounts(before));
  expect(again.places).toMatchObject([{ id: before.places[0]?.id, uid: before.places[0]?.uid, holds: true }]);
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await planned()).toEqual(ahead);

  await get(RequestsService).giveBackFor(studio.id, studio.owner, sittingId);
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent.map(({ subject }) => subject)).toContainEqual(
    expect.stringContaining('Your place at Sandpiper Loft is given back'),
  );
  await expect(undo(sittingId)).rejects.toMatchObject({ code: 'wrong_state' });
});

it('tells of the yes of which the giving back was undone before it was told', async () => {
  const { sittingId } = await ask();
  await house.work();
  house.mail.sent.length = 0;
  await approve(house, studio, sittingId, starts.at(-1) ?? '');
  house.clock.forward({ seconds: 10 });
  await get(RequestsService).giveBackFor(studio.id, studio.owner, sittingId);
  expect(await undo(sittingId)).toBe('release');
  house.clock.forward({ seconds: DELAY });
  await house.work();
  expect(house.mail.sent.map(({ subject }) => subject)).toEqual([
    expect.stringContaining('Your place at Sandpiper Loft: '),
  ]);
});
