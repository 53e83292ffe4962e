// Nobody falls silent: every kind of message to somebody without e-mail stands on the list of whom to telephone or to
// write to, until it is ticked; so does what a mail server refuses, and what may come too late by mail.
import { Temporal } from 'temporal-polyfill';
import { LETTER_KINDS } from '../../src/reminders/letters.schemas.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

const NOW = '2026-11-25T10:00:00Z';
const REFUSED = Object.assign(new Error('550 no such box'), { responseCode: 550 });
/** Every kind that is to somebody outside the studio. */
const TO_THEM = LETTER_KINDS.filter((kind) => kind !== 'sign-in' && !kind.startsWith('owner:'));
const WHY = { reason: 'storm', words: 'The harbour road is closed.' } as const;

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

interface Person {
  sittingId: string;
  token: string;
}

const REACH = {
  telephone: { reachBy: 'telephone', telephone: '01632 960188' },
  letter: { reachBy: 'letter', postalAddress: '4 Chandlery Row\nHull' },
  email: { reachBy: 'email', email: 'somebody@post.example' },
} as const;

/** As for somebody whose mail is refused. */
let refusing = false;
const refuseAll = () => {
  house.mail.failures.push(...Array.from({ length: 12 }, () => REFUSED));
};

const wall = () => Temporal.PlainDateTime.from(starts.shift() ?? '');
const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
const by = ({ sittingId }: Person) => ({ who: studio.owner, sittingId });

async function offer(person: Person): Promise<Temporal.PlainDateTime> {
  const start = wall();
  await get(OffersService).make(studio.id, studio.owner, person.sittingId, start);
  return start;
}

async function given(person: Person): Promise<Temporal.PlainDateTime> {
  const start = wall();
  await approve(house, studio, person.sittingId, start.toString());
  return start;
}

/** Lets an offer run out, then sets the clock back for the next. */
async function lapse(person: Person): Promise<void> {
  await offer(person);
  house.clock.forward({ hours: 24 * 16 });
  if (refusing) refuseAll();
  await house.work(); // the offer's own job
  house.clock.set(NOW);
}

/** The acts that end with each kind of message. */
const ACTS: Record<string, (person: Person) => Promise<unknown>> = {
  asked: async () => undefined,
  waiting: ({ sittingId }) => get(ListService).wait(studio.id, studio.owner, sittingId),
  offered: offer,
  refused: async (person) => {
    await offer(person);
    await get(OffersService).refuse(studio.id, by(person));
  },
  lapsed: lapse,
  'run out': async (person) => {
    await lapse(person);
    await lapse(person);
  },
  'called back': async (person) => {
    const from = await offer(person);
    await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
      why: WHY,
      again: true,
    });
  },
  'called off': async (person) => {
    const from = await given(person);
    await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
      why: WHY,
      again: true,
    });
  },
  'called off for good': async (person) => {
    const from = await given(person);
    await get(MovingService).callOff(studio.id, studio.owner, person.sittingId, from, {
      why: WHY,
      again: false,
    });
  },
  moved: async (person) => {
    const from = await given(person);
    await get(MovingService).move(studio.id, studio.owner, person.sittingId, from, { why: WHY, to: wall() });
  },
  'another day': async (person) => {
    await given(person);
    await get(OffersService).askAnotherDay(studio.id, by(person));
  },
  confirmed: given,
  declined: ({ sittingId }) =>
    get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Not this year.'),
  withdrawn: ({ token }) => get(RequestsService).giveUp(studio.id, token),
  released: async ({ token, sittingId }) => {
    await approve(house, studio, sittingId, wall().toString());
    await get(RequestsService).giveUp(studio.id, token);
  },
};

const onList = async (sittingId: string) =>
  (await get(TelephoneService).list(studio.id)).entries.find(({ view }) => view.sitting.id === sittingId);

it('knows an act for every kind of message', () => {
  expect(Object.keys(ACTS).sort()).toEqual([...TO_THEM].sort());
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
      await ACTS[kind]?.(person);
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
