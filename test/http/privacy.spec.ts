// A person's data through the doors: taken as a file and asked to be erased on their own page, erased at the desk; and the
// rules of keeping, set by the owner and kept to at night.
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { personFile } from '../../src/privacy/privacy.schemas.js';
import { KeepingService } from '../../src/privacy/keeping.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { fingerprint } from '../support/all-rows.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { rowsOf } from '../support/rows.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, Visitor } from '../support/visitor.js';

let home: string;
let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let visitor: Visitor;
let desk: string;

beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'plateday-privacy-'));
  house = await openTestHouse({ now: '2026-11-25T10:00:00Z', env: { PLATEDAY_HOME: home } });
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  visitor = new Visitor(house);
  desk = `/s/${studio.slug}/desk`;
});
afterAll(async () => {
  await house.close();
  await rm(home, { recursive: true, force: true });
});

const contactOf = async (sittingId: string) =>
  (
    await rowsOf<{ contact_id: string }>(
      house,
      studio.id,
      'select contact_id from sitting where sitting_id = $1',
      [sittingId],
    )
  )[0]?.contact_id ?? '';
const nameOf = async (contactId: string) =>
  (
    await rowsOf<{ name: string }>(house, studio.id, 'select name from contact where contact_id = $1', [
      contactId,
    ])
  )[0]?.name;

describe('on their own page', () => {
  it('somebody takes what is kept about them, without what others behind the link should not see', async () => {
    const { sittingId, token } = await askForSitting(house, studio, {
      ...{ name: 'Kerensa Vane', hopes: 'With the fiddle.', access: 'A chair without arms.' },
    });
    await askForSitting(house, studio, { name: 'Jory Pask', hopes: 'Nothing of mine.' });
    const yours = `/s/${studio.slug}/your-data/${token}`;
    expect((await visitor.get(`/s/${studio.slug}/place/${token}`)).html).toContain(`href="${yours}"`);
    const before = await fingerprint(house);
    expect(wordsOf((await visitor.get(yours)).html)).toContain('Take it with you');
    expect(await fingerprint(house)).toBe(before);
    const sent = await visitor.post(`${yours}/file`, { as: 'json' });
    expect(sent.header('content-disposition')).toBe('attachment; filename="data-of-one-person.json"');
    expect(sent.header('cache-control')).toBe('no-store');
    const file = personFile.parse(JSON.parse(sent.html));
    expect(file.parts.sitting?.[0]).toMatchObject({ hopes: 'With the fiddle.', state: 'requested' });
    expect(sent.html).not.toContain('A chair without arms.');
    expect(sent.html).not.toContain('Nothing of mine.');
    const table = await visitor.post(`${yours}/file`, { as: 'csv' });
    expect(table.html).toContain('sitting,1,hopes,With the fiddle.');
    const whole = await owner.post(`${desk}/people/${await contactOf(sittingId)}/file`, { as: 'json' });
    expect(whole.html).toContain('A chair without arms.');
  });

  it('who learns has the same door', async () => {
    const { sessionId } = await teachingDay(house, studio, { most: 2 });
    const { token } = await signUp(house, studio, sessionId);
    const yours = `/s/${studio.slug}/your-data/${token}`;
    expect((await visitor.get(`/s/${studio.slug}/student/${token}`)).html).toContain(`href="${yours}"`);
    const file = personFile.parse(JSON.parse((await visitor.post(`${yours}/file`, {})).html));
    expect(file.parts.student?.map((one) => one.name)).toEqual(['Linnea Harrow']);
  });

  it('nobody gets in with another secret', async () => {
    const wrong = `/s/${studio.slug}/your-data/${'x'.repeat(43)}`;
    expect((await visitor.get(wrong)).status).toBe(404);
    expect((await visitor.post(`${wrong}/file`, {})).status).toBe(404);
  });
});

describe('somebody who asks to be erased', () => {
  let token: string;
  let contactId: string;
  let sittingId: string;
  let feed: string;

  beforeAll(async () => {
    ({ sittingId, token } = await askForSitting(house, studio, {
      name: 'Tamsin Orde',
      email: 'tamsin@post.example',
    }));
    contactId = await contactOf(sittingId);
    const [start] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-04-02' });
    await approve(house, studio, sittingId, start ?? '');
    await house.work();
    const own = await visitor.get(`/s/${studio.slug}/place/${token}`);
    feed = /calendar\/[A-Za-z0-9_-]{43}\.ics/.exec(own.html)?.[0] ?? '';
  });

  it('stands on the front page of the desk, and is not erased while a place lies ahead', async () => {
    const asked = await visitor.postAndFollow(`/s/${studio.slug}/your-data/${token}/erase`, {});
    expect(wordsOf(asked.html)).toContain('You have asked for it.');
    const front = wordsOf((await owner.get(desk)).html);
    expect(front).toContain('They ask to be erased (1)');
    const person = await owner.get(`${desk}/people/${contactId}`);
    expect(wordsOf(person.html)).toContain('Still standing: one place of theirs');
    expect(person.html).not.toContain('for good');
    const tried = await owner.postAndFollow(`${desk}/people/${contactId}/erase`, {});
    expect(wordsOf(tried.html)).toContain('Nothing is erased: a place of theirs lies ahead.');
    expect(await nameOf(contactId)).toBe('Tamsin Orde');
  });

  it('is erased once it is given back: the page, the calendar and the letters stop, the log stands on the disk', async () => {
    await house.app.get(RequestsService).giveUp(studio.id, token);
    const sent = house.mail.sent.length;
    const preview = wordsOf((await owner.get(`${desk}/people/${contactId}`)).html);
    expect(preview).toContain('Erase Tamsin Orde for good');
    expect(preview).toContain('What stays, without a name');
    const done = await owner.postAndFollow(`${desk}/people/${contactId}/erase`, {});
    expect(wordsOf(done.html)).toContain('What is left names nobody.');
    await house.work();
    expect(house.mail.sent.slice(sent)).toEqual([]);
    expect((await visitor.get(`/s/${studio.slug}/place/${token}`)).status).toBe(410);
    expect((await visitor.get(`/s/${studio.slug}/your-data/${token}`)).status).toBe(410);
    expect((await visitor.get(`/s/${studio.slug}/${feed}`)).status).toBe(410);
    expect(wordsOf((await owner.get(desk)).html)).not.toContain('They ask to be erased');
    const log = await readFile(join(home, 'copies', studio.id, 'erased.jsonl'), 'utf8');
    expect(log).toContain(contactId);
    expect(log).not.toContain('Tamsin');
    const request = await owner.get(`${desk}/requests/${sittingId}`);
    expect(request.status).toBe(200);
    expect(request.html).not.toMatch(/Tamsin/i);
    expect((await owner.get(`${desk}/requests/${sittingId}/messages`)).status).toBe(200);
    const mails = await owner.get(`${desk}/mail`);
    expect(mails.status).toBe(200);
    const blank = await rowsOf<{ mail_id: string }>(
      house,
      studio.id,
      `select mail_id from mail where snapshot = '{}'`,
    );
    for (const { mail_id: id } of blank) expect((await owner.get(`${desk}/mail/${id}`)).status).toBe(200);
    expect(blank.length).toBeGreaterThan(2);
    for (const path of ['', '/waiting', '/telephone', '/mail', '/teaching', '/calendar', '/plates'])
      expect([path, (await owner.get(`${desk}${path}`)).status]).toEqual([path, 200]);
  });
});

describe('the rules of keeping', () => {
  const keeping = () => `${desk}/settings/keeping`;
  const rules = { unansweredDays: '30', refusedDays: '', madeMonths: '24', lettersDays: '30' };

  it('erase nobody until the owner has kept them, and tell what would go', async () => {
    await askForSitting(house, studio, { name: 'Old Request' });
    house.clock.forward({ hours: 24 * 31 });
    owner = await signedIn(house, studio, 'owner');
    const page = wordsOf((await owner.get(keeping())).html);
    expect(page).toContain('Nothing is erased by itself until you keep these rules.');
    expect(page).toContain('What would go tonight');
    expect(page).toContain('Old Request');
    await house.app.get(KeepingService).night(studio.id);
    expect(wordsOf((await owner.get(keeping())).html)).toContain('Old Request');
  });

  it('keep what was typed where a figure cannot be', async () => {
    const wrong = await owner.post(keeping(), { ...rules, unansweredDays: 'soon', madeMonths: '36' });
    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.html)).toContain('Please give days from 7 to 3650, or leave it empty for never.');
    expect(wrong.html).toContain('value="soon"');
    expect(wrong.html).toContain('value="36"');
  });

  it('are kept to in the night: requests nobody answered, and the words of letters', async () => {
    const kept = await owner.postAndFollow(keeping(), rules);
    expect(wordsOf(kept.html)).toContain('These rules hold from tonight.');
    await house.app.get(KeepingService).night(studio.id);
    const left = await rowsOf<{ name: string; state: string }>(
      house,
      studio.id,
      `select c.name, s.state from contact c join sitting s using (studio_id, contact_id) where c.erased_at is null`,
    );
    expect(left.filter(({ state }) => state === 'requested')).toEqual([]);
    const page = wordsOf((await owner.get(keeping())).html);
    expect(page).toContain('0 people and the words of 0 letters');
    const who = await rowsOf<{ who: string }>(
      house,
      studio.id,
      'select distinct who from erasure order by who',
    );
    expect(who.map((one) => one.who)).toEqual([studio.owner.name, 'a rule of keeping'].sort());
    const words = await rowsOf(
      house,
      studio.id,
      `select from mail where snapshot <> '{}' and state = 'sent'`,
    );
    expect(words).toEqual([]);
  });
});
