// Nobody falls silent: every kind of message to somebody without e-mail stands on the list of whom to telephone or to
// write to, until it is ticked; so does what a mail server refuses, and what may come too late by mail.
import { Temporal } from 'temporal-polyfill';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { letterActs, REACH, TO_THEM, WHY } from '../support/letter-acts.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

const NOW = '2026-11-25T10:00:00Z';
const REFUSED = Object.assign(new Error('550 no such box'), { responseCode: 550 });

let house: TestHouse;
let studio: TestStudio;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
  const much = 90_000_000_000n;
  studio = await foundTestStudio(house, {
    shelf: { wholeGlass: 900n, collodion: much, developer: much, fixer: much, varnish: much },
  });
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-10-29' });
});
afterAll(() => house.close());

/** As for somebody whose mail is refused. */
let refusing = false;
const refuseAll = () => {
  house.mail.failures.push(...Array.from({ length: 12 }, () => REFUSED));
};

const wall = () => Temporal.PlainDateTime.from(starts.shift() ?? '');
const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
const acts = () =>
  letterActs(house, studio, { wall, now: NOW, beforeWork: () => (refusing ? refuseAll() : undefined) });

const onList = async (sittingId: string) =>
  (await get(TelephoneService).list(studio.id)).entries.find(({ view }) => view.sitting.id === sittingId);

it('knows an act for every kind of message', () => {
  expect(Object.keys(acts()).sort()).toEqual([...TO_THEM].sort());
});

describe.each(['telephone', 'letter', 'email'] as const)('somebody reached by %s', (reach) => {
  it.each(TO_THEM)(
    'stands on the list for "%s", and no longer once it is ticked',
    async (kind) => {
      const suits = { kind: 'any', from: '2027-03-01', until: '2027-10-31' } as const;
      const person = await askForSitting(house, studio, {
        name: `${kind} by ${reach}`,
        suits,
        ...REACH[reach],
      });
      refusing = reach === 'email';
      await acts()[kind]?.(person);
      if (refusing) refuseAll();
      await house.work();
      house.mail.failures.length = 0;
      const entry = await onList(person.sittingId);
      expect(entry).toMatchObject({
        kind,
        way: reach === 'letter' ? 'letter' : 'telephone',
        why: reach === 'email' ? 'mail refused' : 'no e-mail',
      });
      const ids = [...(entry?.before ?? []), ...(entry ? [entry.mail] : [])].map((one) => one.mail_id);
      await get(TelephoneService).tell(studio.id, studio.owner, person.sittingId, ids);
      expect(await onList(person.sittingId)).toBeUndefined();
      await get(TelephoneService).untell(studio.id, studio.owner, person.sittingId, ids);
      expect(await onList(person.sittingId)).toBeDefined();
      await get(TelephoneService).tell(studio.id, studio.owner, person.sittingId, ids);
    },
    30_000,
  );
});

it('keeps on the list what came after the page was looked at', async () => {
  const person = await askForSitting(house, studio, { name: 'Two in a row', ...REACH.telephone });
  await house.work();
  const seen = await onList(person.sittingId);
  await get(ListService).wait(studio.id, studio.owner, person.sittingId);
  await house.work();
  await get(TelephoneService).tell(studio.id, studio.owner, person.sittingId, [seen?.mail.mail_id ?? '']);
  expect(await onList(person.sittingId)).toMatchObject({ kind: 'waiting', before: [] });
  await expect(
    get(TelephoneService).tell(studio.id, studio.owner, person.sittingId, [seen?.mail.mail_id ?? '']),
  ).rejects.toMatchObject({ code: 'wrong_state' });
});

it('asks to telephone somebody with e-mail too, where the day that goes is so near that a letter may come too late', async () => {
  const suits = { kind: 'any', from: '2026-11-28', until: '2027-10-31' } as const;
  const person = await askForSitting(house, studio, {
    name: 'Close to the day',
    home: 'Boston, Massachusetts',
    suits,
  });
  const [near = ''] = await openStarts(house, studio, { from: '2026-12-04', until: '2026-12-11' });
  await approve(house, studio, person.sittingId, near);
  await house.work();
  expect(await onList(person.sittingId)).toBeUndefined();
  const from = Temporal.PlainDateTime.from(near);
  await get(MovingService).move(studio.id, studio.owner, person.sittingId, from, { why: WHY, to: wall() });
  await house.work();
  expect(await onList(person.sittingId)).toMatchObject({ kind: 'moved', why: 'too near', now: true });
});
