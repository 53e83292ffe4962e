// A surprise voucher holds back every message to whoever sits, by every way, until the owner says so; then the newest
// of them is told. Letters to the owner go as ever.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { isReminder } from '../../src/reminders/letters.schemas.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { letterActs, REACH, TO_THEM } from '../support/letter-acts.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { surprise, VOUCHER } from '../support/vouchers.js';

const NOW = '2026-11-25T10:00:00Z';

let house: TestHouse;
let studio: TestStudio;
let starts: string[];
let number = 0;

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
  const much = 90_000_000_000n;
  studio = await foundTestStudio(house, {
    shelf: { wholeGlass: 900n, collodion: much, developer: much, fixer: much, varnish: much },
  });
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-10-29' });
});
afterAll(() => house.close());

const wall = () => Temporal.PlainDateTime.from(starts.shift() ?? '');
const acts = () => letterActs(house, studio, { wall, now: NOW, beforeWork: () => {} });
const vouchers = () => house.app.get(VouchersService);
const suits = { kind: 'any', from: '2027-03-01', until: '2027-10-31' } as const;
const ask = (name: string, reach: keyof typeof REACH) =>
  askForSitting(house, studio, { name, sitters: [name], suits, ...REACH[reach] });

/** The letters to them about a sitting, the oldest first, with their states. */
const letters = async (sittingId: string) =>
  (await house.app.get(OutboxService).latest(studio.id, 1000))
    .filter((one) => one.about_id === sittingId && !one.kind.startsWith('owner:'))
    .sort((a, b) => a.sequence - b.sequence);
const entry = async (sittingId: string) =>
  (await house.app.get(TelephoneService).list(studio.id)).entries.find(
    ({ view }) => view.sitting.id === sittingId,
  );
/** To whoever asked, or to the studio to be passed on to them. */
const isToThem = ({ to, subject }: { to: { address: string }; subject: string }) =>
  to.address === REACH.email.email || subject.startsWith('To pass on');
const onPaper = async (sittingId: string) =>
  (await house.app.get(TelephoneService).letters(studio.id)).filter((one) => one.mail.about_id === sittingId);

it('holds a reminder back with the yes; let go, both go, but none that has stood too long', async () => {
  const person = await ask('Odile Fenn', 'email');
  const voucherId = await surprise(house, studio, person.sittingId, `${++number}`);
  await acts()['reminder: week']?.(person);
  const held = await letters(person.sittingId);
  const reminder = held.find((one) => isReminder(one.kind));
  expect(held.map((one) => one.kind).sort()).toEqual(['asked', 'confirmed', 'reminder: week']);
  expect(held.every((one) => one.state === 'held')).toBe(true);
  house.clock.set(reminder?.created_at.add({ hours: 30 }).toString() ?? '');
  await vouchers().tell(studio.id, studio.owner, voucherId);
  await house.work();
  house.clock.set(NOW);
  const told = new Map((await letters(person.sittingId)).map((one) => [one.kind, one.state]));
  expect(told.get('asked')).toBe('dropped');
  expect(told.get('confirmed')).toBe('sent');
  expect(told.get('reminder: week')).toBe('dropped');
});

describe.each(['email', 'telephone', 'letter'] as const)('a surprise for somebody reached by %s', (reach) => {
  it.each(TO_THEM.filter((kind) => !isReminder(kind)))(
    'holds back "%s", and lets the newest go when the owner says so',
    async (kind) => {
      const name = `${kind} by ${reach}`;
      const person = await ask(name, reach);
      const voucherId = await surprise(house, studio, person.sittingId, `${++number}`);
      house.mail.sent.length = 0;
      await acts()[kind]?.(person);
      await house.work();
      const held = await letters(person.sittingId);
      expect(held.at(-1)?.kind).toBe(kind);
      expect(held.map((one) => one.state)).toEqual(held.map(() => 'held'));
      expect(house.mail.sent.filter((one) => isToThem(one) && one.text.includes(name))).toEqual([]);
      expect(await entry(person.sittingId)).toBeUndefined();
      expect(await onPaper(person.sittingId)).toEqual([]);

      await vouchers().tell(studio.id, studio.owner, voucherId);
      await house.work();
      const told = await letters(person.sittingId);
      // of a move of which the first place was never told, the place is told
      const newest = kind === 'moved' ? 'confirmed' : kind;
      expect(told.map((one) => one.state)).toEqual([...held.slice(1).map(() => 'dropped'), 'sent']);
      expect(told.at(-1)?.kind).toBe(newest);
      expect(house.mail.sent.filter((one) => isToThem(one) && one.text.includes(name))).toHaveLength(1);
      if (reach !== 'email') expect(await entry(person.sittingId)).toMatchObject({ kind: newest });
    },
    30_000,
  );
});

describe('what was held back', () => {
  const used = async (more: object = {}) => {
    const name = `Somebody ${++number}`;
    const person = await ask(name, 'email');
    const fields = { ...VOUCHER, number: `${number}`, ...more };
    await vouchers().save(studio.id, studio.owner, null, fields);
    await vouchers().use(studio.id, studio.owner, { number: fields.number, request: person.sittingId });
    const voucher = (await vouchers().list(studio.id)).vouchers.find((one) => one.number === fields.number);
    house.mail.sent.length = 0;
    return { ...person, voucherId: voucher?.id ?? '', fields };
  };
  const states = async (sittingId: string) => (await letters(sittingId)).map((one) => one.state);

  it('is nothing where the voucher is no surprise, while the owner hears of everything all the same', async () => {
    const { sittingId } = await used({ surprise: undefined });
    await house.work();
    expect(await states(sittingId)).toEqual(['sent']);
    const secret = await used();
    await house.work();
    expect(await states(secret.sittingId)).toEqual(['held']);
    expect(house.mail.sent.map(({ to }) => to.address)).toEqual(['desk@sandpiper-loft.example']);
  });

  it('goes when the voucher is taken back, or is no surprise any more', async () => {
    const back = await used();
    const open = await used();
    await house.work();
    await vouchers().takeBack(studio.id, studio.owner, back.voucherId);
    await vouchers().save(studio.id, studio.owner, open.voucherId, { ...open.fields, surprise: undefined });
    await house.work();
    expect([await states(back.sittingId), await states(open.sittingId)]).toEqual([['sent'], ['sent']]);
  });

  it('stays where a second voucher on the same sitting is a surprise still', async () => {
    const { sittingId, voucherId } = await used();
    const second = await surprise(house, studio, sittingId, `${++number}`);
    await house.work();
    await vouchers().tell(studio.id, studio.owner, voucherId);
    await house.work();
    expect(await states(sittingId)).toEqual(['held']);
    await vouchers().tell(studio.id, studio.owner, second);
    await house.work();
    expect(await states(sittingId)).toEqual(['sent']);
  });

  it('is also a letter that the mail server refused before and that is sent again', async () => {
    const person = await ask(`Refused ${++number}`, 'email');
    house.mail.failures.push(Object.assign(new Error('550 no such box'), { responseCode: 550 }));
    await house.work();
    house.mail.failures.length = 0;
    const [letter] = await letters(person.sittingId);
    if (letter?.state !== 'parked') throw new Error(`The letter is ${letter?.state}.`);
    expect(await entry(person.sittingId)).toBeDefined();
    await surprise(house, studio, person.sittingId, `${++number}`);
    expect(await entry(person.sittingId)).toBeUndefined();
    await house.app.get(OutboxService).sendAgain(studio.id, studio.owner, letter.mail_id);
    await house.work();
    expect(await states(person.sittingId)).toEqual(['held']);
  });

  it('can still be undone at the desk, since nobody was told', async () => {
    const { sittingId } = await used();
    await approve(house, studio, sittingId, wall().toString());
    await house.work();
    const was = await house.db.inStudio(studio.id, (tx) =>
      house.app.get(TelephoneService).wasTold(tx, sittingId, 1),
    );
    expect(was).toBe(false);
  });
});
