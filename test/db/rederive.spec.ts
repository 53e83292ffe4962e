// The command after a change of a zone's law, on a real database: instants written as an older law had them are
// moved, calendars are told, a clash loses nobody, and running it again changes nothing.
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { RederiveService } from '../../src/room/rederive.service.js';
import { SettingsService } from '../../src/room/settings.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let owner: pg.Client;

beforeEach(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { zone: 'America/Vancouver', lat: 49.28, lon: -123.12 });
  owner = new pg.Client({ connectionString: house.database.url, options: '-c timezone=UTC' });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
});
afterEach(async () => {
  await owner.end();
  await house.close();
});

/** A confirmed sitting whose instants are then put an hour later, as the law before 2026 had them in winter. */
async function confirmedUnderOldLaw(
  start: string,
  minutesLater = 60,
): Promise<{ sittingId: string; token: string }> {
  const asked = await askForSitting(house, studio, { suits: { kind: 'these', days: [start.slice(0, 10)] } });
  await approve(house, studio, asked.sittingId, start);
  await owner.query(
    `update occupancy set starts_at = starts_at + $2, ends_at = ends_at + $2,
       during = tstzrange(lower(during) + $2, upper(during) + $2) where held_for = $1`,
    [asked.sittingId, `${minutesLater} minutes`],
  );
  return asked;
}

const counter = async () =>
  (await owner.query('select calendar_counter from studio')).rows[0].calendar_counter;

describe('re-deriving the instants of places ahead', () => {
  it('keeps the wall time, moves the instant, tells the calendars, and then has nothing left to do', async () => {
    const { sittingId } = await confirmedUnderOldLaw('2027-02-12T11:15');
    const before = await counter();
    const [moved] = await house.app.get(RederiveService).studio(studio.id);
    expect(moved).toMatchObject({ outcome: 'moved' });
    const { rows } = await owner.query(
      'select wall_start::text, starts_at, sequence, holds from occupancy where held_for = $1',
      [sittingId],
    );
    expect(rows).toEqual([
      {
        wall_start: '2027-02-12 11:15:00',
        starts_at: new Date('2027-02-12T18:15:00Z'),
        sequence: 1,
        holds: true,
      },
    ]);
    expect(Number(await counter())).toBe(Number(before) + 1);
    expect(await house.app.get(RederiveService).studio(studio.id)).toEqual([]);
    expect(Number(await counter())).toBe(Number(before) + 1);
  });

  it('loses nobody where two places now clash: the later booked stays confirmed, without the room', async () => {
    const first = await confirmedUnderOldLaw('2027-02-12T11:15');
    house.clock.forward({ minutes: 1 });
    const second = await askForSitting(house, studio, { suits: { kind: 'these', days: ['2027-02-19'] } });
    await approve(house, studio, second.sittingId, '2027-02-19T11:15');
    await owner.query(
      `update occupancy set wall_start = '2027-02-12 11:15', starts_at = '2027-02-12T21:15:00Z', ends_at = '2027-02-12T22:30:00Z',
         during = tstzrange('2027-02-12T21:15:00Z', '2027-02-12T23:00:00Z') where held_for = $1`,
      [second.sittingId],
    );
    const outcomes = (await house.app.get(RederiveService).studio(studio.id)).map(({ place, outcome }) => [
      place.heldFor,
      outcome,
    ]);
    expect(outcomes).toEqual([
      [first.sittingId, 'moved'],
      [second.sittingId, 'clash'],
    ]);
    const { views } = await house.app.get(SittingViews).list(studio.id, ['confirmed']);
    expect(views.map((view) => view.place?.holds)).toEqual([true, false]);
    await house.app.get(RequestsService).giveUp(studio.id, second.token);
    expect((await house.app.get(SittingViews).list(studio.id, ['released'])).views).toHaveLength(1);
  });

  it('lays closures anew between their wall times, around what then stands', async () => {
    const change = { do: 'close', title: 'Winter leave', from: '2027-02-01', until: '2027-02-28' };
    const settings = house.app.get(SettingsService);
    const { seen } = await settings.preview(studio.id, change);
    await settings.confirm(studio.id, studio.owner, change, seen);
    await owner.query(
      `update occupancy set ends_at = ends_at + interval '1 hour',
         during = tstzrange(lower(during), upper(during) + interval '1 hour') where kind = 'closure'`,
    );
    await house.app.get(RederiveService).studio(studio.id);
    const { rows } = await owner.query(
      `select starts_at, ends_at from occupancy where kind = 'closure' and holds`,
    );
    expect(rows).toEqual([
      { starts_at: new Date('2027-02-01T07:00:00Z'), ends_at: new Date('2027-03-01T07:00:00Z') },
    ]);
    const before = await counter();
    await house.app.get(RederiveService).studio(studio.id);
    expect(await counter()).toBe(before);
  });
});
