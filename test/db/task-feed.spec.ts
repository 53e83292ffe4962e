// The feed of tasks: equal tags mean equal bytes after any act, every act that changes a task changes the tag, both
// readers agree with the list, and nothing a sitter told is in it.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { SettingsService } from '../../src/room/settings.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { DaysService } from '../../src/stock/days.service.js';
import { PreparationService } from '../../src/stock/preparation.service.js';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { byIcalJs, byNodeIcal } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { enterBath, putAside, ruleOf, writeDown } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let feed: string;
let starts: string[];
const DAY = '2027-04-02';

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { wholeGlass: 500n, collodion: 90_000_000n } });
  starts = await openStarts(house, studio, { from: DAY, until: '2027-05-28' });
  const links = house.app.get(LinksService);
  const link = await house.db.inStudio(studio.id, (tx) => links.ensure(tx, 'feed', studio.owner.id, 'tasks'));
  feed = `/s/${studio.slug}/calendar/${links.token(link)}.ics`;
});
afterAll(() => house.close());
beforeEach(() => house.clock.forward({ minutes: 1 }));

async function fetched() {
  const answer = await house.app.inject({ url: feed });
  expect(answer.statusCode).toBe(200);
  return {
    etag: String(answer.headers.etag),
    body: answer.body,
    unfolded: answer.body.replace(/\r\n /g, ''),
  };
}

async function sit(asking: Parameters<typeof askForSitting>[2] = {}): Promise<string> {
  const { sittingId, token } = await askForSitting(house, studio, asking);
  await approve(house, studio, sittingId, starts.shift() ?? '');
  return token;
}
const preparation = () => house.app.get(PreparationService);

async function change(settings: object): Promise<void> {
  const service = house.app.get(SettingsService);
  const { seen } = await service.preview(studio.id, settings);
  expect(await service.confirm(studio.id, studio.owner, settings, seen)).toMatchObject({ ok: true });
}

describe('the feed of tasks', () => {
  it.each([
    ['ical.js', byIcalJs],
    ['node-ical', byNodeIcal],
  ])('holds the list’s tasks at their hours: %s', async (_name, read) => {
    await sit();
    const { tasks, studio: facts } = await preparation().list(studio.id);
    expect(tasks.length).toBeGreaterThan(3);
    const at = (wall: Temporal.PlainDateTime) => {
      const answer = wallToInstant(facts.zone, wall);
      return answer.ok ? new Date(answer.instant.epochMilliseconds).toISOString() : '';
    };
    const told = [...read((await fetched()).body).values()].map((one) => `${one.starts} ${one.ends}`);
    expect(told.sort()).toEqual(tasks.map((task) => `${at(task.from)} ${at(task.until)}`).sort());
  });

  it('holds nothing that a sitter told, and no way to them', async () => {
    const token = await sit({
      name: 'Ottoline Vane',
      telephone: '01632 960111',
      hopes: 'hands, not faces',
      anything: 'a bad hip',
    });
    const { unfolded } = await fetched();
    const secret = ['Ottoline', '960111', 'hands', 'hip', 'requests', '@', token];
    expect(secret.filter((word) => unfolded.includes(word))).toEqual([]);
    expect(unfolded).toContain('/desk/prepare');
  });

  it('has another tag after every act that changes a task, and the same bytes under the same tag', async () => {
    const bath = await enterBath(house, studio, { careAfterPlates: '12' });
    const token = await sit();
    const [task] = (await preparation().list(studio.id)).tasks;
    const day = task?.ahead.date.toString() ?? '';
    const rule = ruleOf(/developer/);
    const owner = studio.owner;
    const ruleAnswers = {
      what: 'Sweep the floor',
      forDay: 'both',
      daysBefore: '1',
      minutes: '10',
      condition: 'always',
      amount: 'none',
      note: '',
    };
    const acts: Record<string, () => Promise<unknown>> = {
      'a place is given': () => sit(),
      'a place is given back': () => house.app.get(RequestsService).giveUp(studio.id, token),
      'a task is ticked': () => preparation().tick(studio.id, studio.assistant, { day, rule, done: 'yes' }),
      'a tick is taken back': () => preparation().tick(studio.id, owner, { day, rule, done: 'no' }),
      'a task is moved': () => preparation().move(studio.id, owner, { day, rule, to: '2027-03-22' }),
      'a task goes where its rule says': () => preparation().move(studio.id, owner, { day, rule, to: '' }),
      'the room is hot': () =>
        preparation().noteDay(studio.id, owner, { day, roomTemperature: '26', humidity: '', note: '' }),
      'a rule is added': () => preparation().saveRule(studio.id, owner, null, ruleAnswers),
      'a rule is put away': () => preparation().removeRule(studio.id, owner, ruleOf(/Decant/)),
      'the owner is away on Thursdays': () =>
        change({
          do: 'people',
          ownerWeekdays: [1, 2, 3, 5, 6, 7],
          ownerAlso: [],
          ownerAway: [],
          helperWeekdays: [],
          helperAlso: [],
          helperAway: [],
        }),
      'plates went through the bath': () =>
        writeDown(house, studio, bath, {
          do: 'poured',
          day: '2026-11-25',
          plates: '11',
          plateSizeId: studio.sizes.whole.id,
        }),
      'the bath is weak': () =>
        writeDown(house, studio, bath, {
          do: 'measured',
          day: '2026-11-25',
          method: 'titration',
          thiocyanateMl: '4.1',
          normality: '0.1',
          sampleMl: '1',
          volume: '',
        }),
      'the bath is off': () => putAside(house, studio, `bath:${bath}`),
      'a day takes test plates': () =>
        house.app
          .get(DaysService)
          .saveTakes(studio.id, owner, { testPlates: '3', testSizeId: studio.sizes.half.id }),
      'the collodion is thrown away': () =>
        house.app.get(ShelfService).discard(studio.id, owner, studio.lots.collodion, { reason: 'red' }),
    };
    let before = await fetched();
    for (const [what, act] of Object.entries(acts)) {
      house.clock.forward({ minutes: 1 });
      expect([what, (await fetched()).body === before.body]).toEqual([what, true]);
      await act().catch((error) => {
        throw new Error(`${what}: ${JSON.stringify(error.fields ?? error.message)}`);
      });
      const after = await fetched();
      const changes = !['the collodion is thrown away', 'a task goes where its rule says'].includes(what);
      expect([what, after.etag !== before.etag]).toEqual([what, true]);
      if (changes) expect([what, stripped(after.body) !== stripped(before.body)]).toEqual([what, true]);
      before = after;
    }
  });

  it('tells a change by a later revision and a higher number', async () => {
    const { tasks } = await preparation().list(studio.id);
    const task = tasks.find((one) => !one.done);
    const uid = `${studio.id}-${task?.rule.id}-${task?.ahead.date.toString().replaceAll('-', '')}`;
    const before = byIcalJs((await fetched()).body).get(uid);
    house.clock.forward({ minutes: 5 });
    const tick = { day: task?.ahead.date.toString(), rule: task?.rule.id, done: 'yes' };
    await preparation().tick(studio.id, studio.assistant, tick);
    const after = byIcalJs((await fetched()).body).get(uid);
    expect((after?.revised ?? '') > (before?.revised ?? 'z')).toBe(true);
    expect(Number(after?.sequence)).toBeGreaterThan(Number(before?.sequence));
  });

  it('is another on another day, and told so before it is built on the same', async () => {
    const one = await fetched();
    const known = await house.app.inject({ url: feed, headers: { 'if-none-match': one.etag } });
    expect([known.statusCode, known.body]).toEqual([304, '']);
    house.clock.forward({ hours: 24 });
    expect((await fetched()).etag).not.toBe(one.etag);
  });
});

/** Without what changes with any act: number and revision. */
const stripped = (text: string) => text.replace(/^(SEQUENCE|DTSTAMP|LAST-MODIFIED):.*$/gm, '');
