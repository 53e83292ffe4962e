// A closure laid over confirmed sittings takes the room in pieces and loses nobody; a change does what its
// preview told; the limits of a day hold when two people are given its last place at once.
import { Temporal } from 'temporal-polyfill';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import type { Occupancy } from '../../src/room/occupancy.schemas.js';
import { RoomService } from '../../src/room/room.service.js';
import { type Preview, SettingsService } from '../../src/room/settings.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { firstAndSecond } from '../support/two-sessions.js';

let house: TestHouse;
let studio: TestStudio;

let studios = 0;

beforeAll(async () => {
  house = await openTestHouse();
});
beforeEach(async () => {
  studio = await foundTestStudio(house, { slug: `sandpiper-loft-${++studios}` });
});
afterAll(() => house.close());

const settings = () => house.app.get(SettingsService);

async function make(change: object): Promise<Preview> {
  const preview = await settings().preview(studio.id, change);
  const done = await settings().confirm(studio.id, studio.owner, change, preview.seen);
  expect(done.ok).toBe(true);
  return preview;
}

/** All that holds the room in April 2027, checked to be free of overlaps whatever the constraint says. */
function holding(): Promise<Occupancy[]> {
  return house.db.inStudio(studio.id, async (tx) => {
    const at = (text: string) => Temporal.Instant.from(text);
    const all = await house.app
      .get(RoomService)
      .between(tx, at('2027-03-31T00:00Z'), at('2027-05-01T00:00Z'), at('2100-01-01T00:00Z'));
    all.reduce((before, one) => {
      expect(Temporal.Instant.compare(before.busyUntil, one.startsAt)).toBeLessThanOrEqual(0);
      return one;
    });
    return all;
  });
}

async function given(name: string, start: string, plates = 1) {
  const plate = { plateSizeId: studio.sizes.half.id, sitters: [0] };
  const asked = await askForSitting(house, studio, {
    name,
    plates: Array.from({ length: plates }, () => plate),
  });
  await approve(house, studio, asked.sittingId, start);
  return asked;
}

const wall = (all: Occupancy[]) =>
  all.map(
    (one) => `${one.kind} ${one.wallStart.toString().slice(5, 16)} ${one.wallEnd.toString().slice(5, 16)}`,
  );
const counter = () =>
  house.db.inStudio(studio.id, async (tx) => (await house.app.get(StudiosService).load(tx)).calendarCounter);
const CLOSED = { do: 'close', title: 'Roof', from: '2027-04-08', until: '2027-04-16' };

describe('a closure over confirmed sittings', () => {
  it('takes the room around them, keeps them confirmed, and frees its pieces when it goes', async () => {
    await given('Linnea Harrow', '2027-04-09T11:15');
    await given('Odo Larch', '2027-04-16T14:45');
    const raised = await counter();
    const preview = await make(CLOSED);
    expect(await counter()).toBe(raised + 1n);
    expect(preview.touched.map(({ occupancy, reason }) => [occupancy.wallStart.toString(), reason])).toEqual([
      ['2027-04-09T11:15:00', 'closed'],
      ['2027-04-16T14:45:00', 'closed'],
    ]);
    expect(wall(await holding())).toEqual([
      'closure 04-08T00:00 04-09T11:15',
      'sitting 04-09T11:15 04-09T12:30',
      'closure 04-09T13:00 04-16T14:45',
      'sitting 04-16T14:45 04-16T16:00',
      'closure 04-16T16:30 04-17T00:00',
    ]);
    const { views } = await house.app.get(SittingViews).list(studio.id, ['confirmed']);
    // Both asked at the same moment, so their order is nobody's.
    expect(new Map(views.map((view) => [view.contact.name, view.place?.holds]))).toEqual(
      new Map([
        ['Linnea Harrow', true],
        ['Odo Larch', true],
      ]),
    );
    const { closures } = (await settings().all(studio.id)).rules;
    await make({ do: 'reopen', closureId: closures[0]?.id });
    expect(wall(await holding())).toEqual([
      'sitting 04-09T11:15 04-09T12:30',
      'sitting 04-16T14:45 04-16T16:00',
    ]);
    expect(await counter()).toBe(raised + 2n);
  });

  it('takes the room of a place that is given back, so that nobody is given it again', async () => {
    const { token } = await given('Linnea Harrow', '2027-04-09T11:15');
    await make(CLOSED);
    await house.app.get(RequestsService).giveUp(studio.id, token);
    expect(wall(await holding())).toEqual([
      'closure 04-08T00:00 04-09T11:15',
      'closure 04-09T11:15 04-09T13:00',
      'closure 04-09T13:00 04-17T00:00',
    ]);
    expect(await openStarts(house, studio, { from: '2027-04-09', until: '2027-04-09' })).toEqual([]);
  });

  it('stays shut where another closure lies under the one that goes', async () => {
    await make(CLOSED);
    await make({ ...CLOSED, from: '2027-04-15', until: '2027-04-23', title: 'Away' });
    const [first] = (await settings().all(studio.id)).rules.closures;
    const preview = await make({ do: 'reopen', closureId: first?.id });
    expect(preview.diff.opens.map(String)).toEqual([
      '2027-04-09T09:30:00',
      '2027-04-09T11:15:00',
      '2027-04-09T13:00:00',
      '2027-04-09T14:45:00',
    ]);
    expect(await openStarts(house, studio, { from: '2027-04-09', until: '2027-04-23' })).toHaveLength(4);
  });

  it('waits for a place that is being given back, and takes it too', async () => {
    const { token } = await given('Linnea Harrow', '2027-04-09T11:15');
    const views = await house.app.get(SittingViews).list(studio.id, ['confirmed']);
    const place = views.views[0]?.place?.id ?? '';
    const room = house.app.get(RoomService);
    await firstAndSecond(
      house,
      studio.id,
      (tx) => room.giveBack(tx, place, true),
      async (tx) => {
        const facts = await house.app.get(StudiosService).load(tx);
        const [from, until] = ['2027-04-08', '2027-04-16'].map((day) => Temporal.PlainDate.from(day));
        if (from && until) await room.close(tx, facts, { from, until }, 'Roof');
      },
    );
    expect(token).not.toBe('');
    expect(wall(await holding())).toEqual(['closure 04-08T00:00 04-17T00:00']);
  });

  it('of part of a day closes what it overlaps and no more', async () => {
    await make({ ...CLOSED, from: '2027-04-09', until: '2027-04-09', fromTime: '12:00', untilTime: '14:00' });
    expect(await openStarts(house, studio, { from: '2027-04-09', until: '2027-04-09' })).toEqual([
      '2027-04-09T09:30',
      '2027-04-09T14:45',
    ]);
  });
});

describe('a preview', () => {
  const numbers = {
    firstPlateMinutes: 75,
    furtherPlateMinutes: 25,
    furtherSitterMinutes: 10,
    changeoverMinutes: 30,
    breaks: [{ from: '12:40', until: '13:20' }],
    mostSittings: 3,
    mostSittingsWithHelper: 6,
    mostPlates: 10,
    heldBack: 1,
    heldBackDays: 14,
  };
  it.each<[string, object]>([
    ['closing', CLOSED],
    ['an extra day', { do: 'extra day', date: '2027-04-13', starts: ['10:00', '12:00'] }],
    [
      'another rhythm',
      { do: 'rhythm', weekday: 5, starts: ['10:00', '13:00'], from: '2027-04-10', until: null, ...numbers },
    ],
    [
      'another weekday',
      { do: 'rhythm', weekday: 2, starts: ['10:00'], from: '2027-04-10', until: '2027-06-30', ...numbers },
    ],
    ['the end of a weekday', { do: 'end weekday', weekday: 5, last: '2027-04-12' }],
    [
      'the owner away',
      {
        do: 'people',
        ownerWeekdays: [1, 2, 3, 4, 5, 6, 7],
        ownerAlso: [],
        ownerAway: ['2027-04-16'],
        helperWeekdays: [5],
        helperAlso: [],
        helperAway: [],
      },
    ],
    [
      'darker light',
      {
        do: 'light',
        windowKind: 'north window',
        lightFloorDegrees: 35,
        referenceSeconds: 6,
        referenceAltitudeDegrees: 45,
        exposureCapSeconds: 20,
      },
    ],
    ['a shorter horizon', { do: 'booking', horizonMonths: 5, leastNoticeDays: 3 }],
  ])('of %s tells just what then opens and closes', async (_, change) => {
    await given('Linnea Harrow', '2027-04-16T13:00');
    const all = { from: '2026-11-25', until: '2027-11-25' };
    const inBooking = async () => {
      const { until } = house.app.get(RoomService).bookable((await settings().all(studio.id)).studio);
      return (await openStarts(house, studio, { ...all, until: until.toString() })).sort();
    };
    const before = await inBooking();
    const { diff, touched } = await make(change);
    const after = await inBooking();
    const text = (starts: Temporal.PlainDateTime[]) =>
      starts.map((one) => one.toString({ smallestUnit: 'minute' }));
    expect(text(diff.opens)).toEqual(after.filter((one) => !before.includes(one)));
    expect(text(diff.closes)).toEqual(before.filter((one) => !after.includes(one)));
    expect(diff.opens.length + diff.closes.length).toBeGreaterThan(0);
    const { views } = await house.app.get(SittingViews).list(studio.id, ['confirmed']);
    expect(views).toHaveLength(1);
    expect(touched.length).toBeLessThanOrEqual(1);
  });

  it('of a kind over its year tells whose sitting is one too many', async () => {
    const kind = {
      do: 'kind',
      kindId: null,
      name: 'Series sitting',
      offered: 'public',
      firstPlateMinutes: null,
    };
    const rest = { plates: 1, keepsPlate: 'series', weekdays: [], yearlyQuota: null };
    await make({ ...kind, ...rest });
    await given('Linnea Harrow', '2027-04-16T13:00');
    const [entered] = (await settings().all(studio.id)).rules.kinds;
    const none = await make({ ...kind, ...rest, kindId: entered?.id, yearlyQuota: 0 });
    expect(none.touched.map(({ reason }) => reason)).toEqual(['year full']);
    const { sittingId } = await askForSitting(house, studio, { name: 'Odo Larch' });
    await expect(approve(house, studio, sittingId, '2027-04-16T09:30')).rejects.toMatchObject({
      code: 'not_an_opening',
      detail: 'That place is not open: all sittings of this kind are given that year.',
    });
  });
});

describe('the limits of a day', () => {
  it('hold when its last two sittings are given at the same moment', async () => {
    const { do: _, ...numbers } = {
      do: '',
      firstPlateMinutes: 75,
      furtherPlateMinutes: 25,
      furtherSitterMinutes: 0,
    };
    await make({
      do: 'rhythm',
      weekday: 5,
      starts: ['09:30', '11:15', '13:00'],
      from: '2027-01-01',
      until: null,
      breaks: [],
      changeoverMinutes: 30,
      mostSittings: 1,
      mostSittingsWithHelper: 1,
      mostPlates: 10,
      heldBack: 0,
      heldBackDays: 0,
      ...numbers,
    });
    const take = (heldFor: string, start: string) => async (tx: Parameters<RoomService['take']>[0]) => {
      const facts = await house.app.get(StudiosService).load(tx);
      const wallStart = Temporal.PlainDateTime.from(start);
      await house.app.get(RoomService).take(tx, facts, { wallStart, plates: 1, heldFor });
    };
    const [one, two] = await firstAndSecond(
      house,
      studio.id,
      take('00000000-0000-4000-8000-000000000001', '2027-04-09T09:30'),
      take('00000000-0000-4000-8000-000000000002', '2027-04-09T13:00'),
    );
    expect(one.status).toBe('fulfilled');
    expect(two).toMatchObject({ status: 'rejected', reason: { code: 'not_an_opening' } });
    expect(await holding()).toHaveLength(1);
  });

  it('count the plates of all its sittings', async () => {
    await given('Linnea Harrow', '2027-04-09T09:30', 6);
    const { sittingId } = await askForSitting(house, studio, {
      plates: Array.from({ length: 5 }, () => ({ plateSizeId: studio.sizes.half.id, sitters: [0] })),
    });
    const day = Temporal.PlainDateTime.from('2027-04-09T14:45');
    await expect(
      house.app.get(DecisionsService).approve(studio.id, studio.owner, sittingId, day),
    ).rejects.toMatchObject({ detail: 'That place is not open: the day has no room for so many plates.' });
  });
});

it('the openings of 24 months take two statements', async () => {
  const statements = await house.db.inStudio(studio.id, async (tx) => {
    const facts = await house.app.get(StudiosService).load(tx);
    let count = 0;
    const counted = (method: 'many' | 'one' | 'run') => ({
      value: (...all: [never, never, never]) => {
        count++;
        return tx[method](...all);
      },
    });
    const methods = { many: counted('many'), one: counted('one'), run: counted('run') };
    const counting = Object.create(tx, methods) as typeof tx;
    const range = {
      from: Temporal.PlainDate.from('2026-11-25'),
      until: Temporal.PlainDate.from('2028-11-25'),
    };
    const days = await house.app.get(RoomService).days(counting, facts, range, 1);
    expect(days).toHaveLength(105);
    return count;
  });
  expect(statements).toBe(2);
});
