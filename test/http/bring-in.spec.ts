// The old diary through the owner's pages: read, looked at, brought in whole or not at all, and undone as a whole.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { SweepService } from '../../src/accounts/sweep.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { scale } from '../support/scale.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { type Answer, signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let base: string;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-26T10:00:00Z' });
  studio = await foundTestStudio(house, { shelf: { wholeGlass: 400n } });
  owner = await signedIn(house, studio, 'owner');
  base = `/s/${studio.slug}/desk/settings/bring-in`;
});
afterAll(() => house.close());

const HEADS = 'Name;E-mail;Telephone;Asked on;Promised for;How many sit;Plates;Size;Home;Note';
const DIARY = [
  HEADS,
  'Ottoline Grebe;ottoline@example.org;;3/4/2026;;1;1;Whole plate;Whitby;Likes the grey days',
  'Barnaby Teal;;01632 960111;14/5/2026;Friday 2 April 2027;2;1;;Nowhere-upon-Sea;=HYPERLINK("http://x")',
  'Sunniva Pipit;sunniva@example.org;;2026-01-09;2 April 2027 13:00;1;2;;York;',
].join('\r\n');

/** Pastes a table. @returns the draft's path and its page */
async function paste(text: string, what = 'diary'): Promise<{ path: string; seen: Answer }> {
  await owner.get(base);
  const sent = await owner.postFiles(base, { what, text, encoding: '' }, {});
  expect(sent.status).toBe(303);
  return { path: sent.location, seen: await owner.get(sent.location) };
}
const count = (table: string) =>
  house.db.inStudio(studio.id, async (tx) => {
    const row = z.object({ n: z.number() });
    return (await tx.one(row, `select count(*)::int as n from ${table} where studio_id = $1`, [studio.id])).n;
  });
const TABLES = ['contact', 'sitter', 'sitting', 'plate', 'occupancy', 'reservation', 'reminder', 'link'];
const counts = async () => Promise.all(TABLES.map(count));

test('nothing sent, or both ways at once, is told beside the field, and what was pasted stays', async () => {
  await owner.get(base);
  const none = await owner.postFiles(base, { what: 'diary', text: ' ', encoding: '' }, {});
  expect(none.status).toBe(422);
  expect(errorAt(none.html, 'text')).toBe('Please paste the lines, or choose a file.');
  const file = { name: 'a.csv', bytes: Buffer.from('Name\nA') };
  const both = await owner.postFiles(base, { what: 'diary', text: 'Name\r\nB', encoding: '' }, { file });
  expect(errorAt(both.html, 'text')).toBe('Please paste the lines or choose a file, not both.');
  expect(fieldsOf(both.html, base)).toMatchObject({ text: 'Name\r\nB', what: 'diary' });
});

test('a diary comes in with its dates, places and stock, nobody is written to, and goes again as if it had never been', async () => {
  const before = await counts();
  const { path, seen } = await paste(DIARY);
  const words = wordsOf(seen.html);
  expect(words).toContain('How is 3/4/2026 meant?');
  expect(words).toContain('Friday 3 April 2026');
  expect(words).toContain('Friday 2 April 2027, 09:30');
  expect(words).toContain('Friday 2 April 2027, 13:00');
  expect(words).toContain('“Nowhere-upon-Sea” (Where they come from): This place is not known');
  expect(words).toContain('It begins like a spreadsheet’s formula; the signs in front were taken away.');
  expect(await counts()).toEqual(before); // looking writes nothing

  const confirm = `${path}/confirm`;
  const late = await owner.post(confirm, { ...fieldsOf(seen.html, confirm), seen: 'something else' });
  expect(late.status).toBe(409);
  expect(await counts()).toEqual(before);
  const done = await owner.postAndFollow(confirm, fieldsOf(late.html, confirm));
  expect(wordsOf(done.html)).toContain('It is all in. Nobody was written to.');
  expect(wordsOf(done.html)).toContain('The diary: 3 people');
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await count('mail')).toBe(0);

  const people = await house.db.inStudio(studio.id, async (tx) => {
    const own = await house.app.get(StudiosService).load(tx);
    return house.app.get(SittingViews).inStates(tx, own, ['waiting', 'confirmed'], house.clock.now());
  });
  expect(
    people.map(({ sitting, contact, place, sitters, plates }) => [
      contact.name,
      sitting.state,
      sitting.askedAt.toString(),
      contact.reachBy,
      contact.home?.name ?? '',
      place?.wallStart.toString() ?? '',
      sitters.length,
      plates.map(({ sizeName }) => sizeName),
      sitting.anything,
    ]),
  ).toEqual([
    [
      'Sunniva Pipit',
      'confirmed',
      '2026-01-09T12:00:00Z',
      'email',
      'York, England, United Kingdom',
      '2027-04-02T13:00:00',
      1,
      ['Whole plate', 'Whole plate'],
      '',
    ],
    [
      'Ottoline Grebe',
      'waiting',
      '2026-04-03T11:00:00Z',
      'email',
      'Whitby, England, United Kingdom',
      '',
      1,
      ['Whole plate'],
      'Likes the grey days',
    ],
    [
      'Barnaby Teal',
      'confirmed',
      '2026-05-14T11:00:00Z',
      'telephone',
      '',
      '2027-04-02T09:30:00',
      2,
      ['Whole plate'],
      'HYPERLINK("http://x") Comes from Nowhere-upon-Sea.',
    ],
  ]);
  expect(await count('reservation')).toBeGreaterThan(0);
  expect(await count('reminder')).toBeGreaterThan(0);

  const again = await paste(DIARY);
  expect(wordsOf(again.seen.html)).toContain('The same text was brought in before, by');
  expect(wordsOf(again.seen.html)).toContain('“Ottoline Grebe” (Name): This person has asked here already.');
  expect(again.seen.html).not.toContain(`${again.path}/confirm`);
  expect(wordsOf((await owner.postAndFollow(`${again.path}/drop`, {})).html)).toContain('thrown away');

  const undo = /action="([^"]+\/undo)"/.exec(done.html)?.[1] ?? '';
  expect(wordsOf((await owner.postAndFollow(undo, {})).html)).toContain('as if it had never been brought in');
  await house.work();
  expect(await counts()).toEqual(before);
  expect((await owner.post(undo, {})).status).toBe(409);
});

test('lines that cannot come in are told with their cells, left out one by one, and the rest comes in', async () => {
  const { path, seen } = await paste(
    [
      'Name,Contact,Asked on,Promised',
      'Ines Dunlin,ines@example.org,12 March 2026,',
      ',nobody@example.org,12 March 2026,',
      'Ines  dunlin,INES@example.org,13 March 2026,',
      'Pia Curlew,pia@example,31/2/2026,',
      'Joss Avocet,01632 960222,1 May 2026,Monday 5 April 2027',
      'Wren Godwit,01632 960333,1 May 2026,2020-04-02',
      'Tove Knot,01632 960444,1 May 2026,2 April 2027 08:00',
    ].join('\n'),
  );
  const words = wordsOf(seen.html);
  for (const told of [
    'Leave out line 3: Line 3 (Name): There is no name.',
    '“Ines dunlin” (Name): The same person stands in line 2.',
    '“pia@example” (E-mail, telephone or address): Please give an e-mail address like name@example.org.',
    '“31/2/2026” (Asked on): This is no date.',
    '“Monday 5 April 2027” (Day promised): This is no day on which people sit; it can be entered as an extra day.',
    '“2020-04-02” (Day promised): This day is past.',
    '“Friday 2 April 2027” (Day promised):',
  ])
    expect(words).toContain(told);
  expect(words).toContain('As long as a line above wants another look, nothing can come in.');
  expect((await owner.post(`${path}/confirm`, { seen: 'x' })).status).toBe(409);
  const some = { ...fieldsOf(seen.html, path), leave: ['3', '4', '5', '6', '7'] };
  const still = await owner.postAndFollow(path, some);
  expect(still.html).not.toContain(`${path}/confirm`);
  const all = await owner.postAndFollow(path, { ...some, leave: ['3', '4', '5', '6', '7', '8'] });
  expect(wordsOf(all.html)).toContain('one person would come in, 6 lines left out');
  await owner.postAndFollow(`${path}/confirm`, fieldsOf(all.html, `${path}/confirm`));
  expect((await owner.get(path)).status).toBe(404);
});

test('a promise that cannot be kept is told with who has the place, what is open that day, and the way to an extra day', async () => {
  const { seen } = await paste(
    [
      'Name,Contact,Promised',
      'Ansa Smew,01632 960551,19 March 2027 at 11:15',
      'Bram Eider,01632 960552,"19/3/2027, 11.15am"',
      'Cato Scoter,01632 960553,19 March 2027 12:00',
      'Dora Pochard,01632 960554,18 March 2027 12:00',
    ].join('\n'),
  );
  const words = wordsOf(seen.html);
  for (const told of [
    'Leave out line 3: Bram Eider “Friday 19 March 2027” (Day promised): 11:15 that day is Ansa Smew’s already; open are 09:30, 13:00 and 14:45.',
    'No sitting starts at 12:00 that day; open are 09:30, 13:00 and 14:45.',
    '“Thursday 18 March 2027” (Day promised): This is no day on which people sit; it can be entered as an extra day.',
  ])
    expect(words).toContain(told);
  expect(words).not.toContain('a moment ago');
  expect(seen.html).toContain(`href="/s/${studio.slug}/desk/settings/closures"`);
});

test('once something was done with one of its lines it is not undone, and told which', async () => {
  house.clock.forward({ minutes: 1 });
  const { path, seen } = await paste(
    'Name,Contact\nAsta Ruff,asta@example.org\nBo Sanderling,bo@example.org',
  );
  const done = await owner.postAndFollow(`${path}/confirm`, fieldsOf(seen.html, `${path}/confirm`));
  const undo = /action="([^"]+\/undo)"/.exec(done.html)?.[1] ?? '';
  const sittingId = await house.db.inStudio(studio.id, async (tx) => {
    const sql = `select s.sitting_id as id from sitting s join contact c using (studio_id, contact_id)
      where s.studio_id = $1 and c.name = 'Bo Sanderling'`;
    return (await tx.one(z.object({ id: z.uuid() }), sql, [studio.id])).id;
  });
  await house.app.get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Not this year.');
  const refused = await owner.post(undo, {});
  expect(refused.status).toBe(409);
  const words = wordsOf(refused.html);
  expect(words).toContain('Nothing was undone: see below.');
  expect(words).toContain('Line 3: Bo Sanderling');
  expect(words).not.toContain('Asta Ruff');
});

const PEOPLE = scale(200, 60);
test('200 people come in in one go, a third of them with a place', async () => {
  const friday = Temporal.PlainDate.from('2027-04-09');
  const lines = Array.from({ length: PEOPLE }, (_, at) => {
    const promised = at % 3 === 0 ? friday.add({ weeks: Math.floor(at / 12) }).toString() : '';
    return `Guest ${at} Sandpiper,guest${at}@example.org,2026-0${1 + (at % 9)}-15,${promised},${1 + (at % 3)}`;
  });
  const { path, seen } = await paste(['Name,E-mail,Asked on,Promised,How many sit', ...lines].join('\n'));
  expect(wordsOf(seen.html)).toContain(`${PEOPLE} people would come in`);
  const done = await owner.postAndFollow(`${path}/confirm`, fieldsOf(seen.html, `${path}/confirm`));
  expect(wordsOf(done.html)).toContain(`The diary: ${PEOPLE} people`);
});

test.each([
  [
    'a file of 3 MB',
    () => Buffer.alloc(3 * 1024 * 1024, 'a,b\n'),
    'This is more than 2 MB, so it was not read.',
  ],
  [
    'a spreadsheet’s own file',
    () => Buffer.from('PK\u0003\u0004\u0014'),
    'This is a spreadsheet program’s own file.',
  ],
  ['NULs', () => Buffer.from('Name\nA\0B'), 'Line 2 holds a NUL, which no text has.'],
  [
    'bytes that are no letters',
    () => Buffer.from([0x4e, 0x81, 0x0a]),
    'Line 1 holds a byte that is no letter.',
  ],
])('%s is refused beside the file', async (_name, bytes, why) => {
  await owner.get(base);
  const sent = await owner.postFiles(
    base,
    { what: 'diary', text: '', encoding: '' },
    { file: { name: 'x.csv', bytes: bytes() } },
  );
  expect([413, 422]).toContain(sent.status);
  expect(errorAt(sent.html, 'file')).toContain(why);
});

test.each([
  ['100,000 lines', `Name,Contact\n${'A,b\n'.repeat(100_000)}`, 'These are more than 501 lines.'],
  ['a million columns', `Name,Contact${','.repeat(1_000_000)}\nA`, 'There are more than 40 columns.'],
  [
    'a quotation mark that is never closed',
    'Name,Contact\n"Ann,ann@example.org\nBo,bo@example.org',
    'A quotation mark is opened in line 2 and never closed.',
  ],
])('%s: refused with a reason', async (_name, text, why) => {
  const { seen } = await paste(text);
  expect(wordsOf(seen.html)).toContain(why);
});

test('a file in an old encoding is read, and the guess is told', async () => {
  await owner.get(base);
  const file = {
    name: 'x.csv',
    bytes: Buffer.from('Name,Contact\nZo\xeb M\xe9nard,zoe@example.org\n', 'latin1'),
  };
  const sent = await owner.postFiles(base, { what: 'diary', text: '', encoding: '' }, { file });
  const words = wordsOf((await owner.get(sent.location)).html);
  expect(words).toContain('Zoë Ménard');
  expect(words).toContain('it is read as Western European (Windows-1252)');
});

test('bottles come onto the shelf with their days, and off it again; one that was used stays', async () => {
  house.clock.forward({ minutes: 1 });
  const { collodion, varnish } = studio.items;
  const onHand = () =>
    house.db.inStudio(studio.id, async (tx) => {
      const row = z.object({ label: z.string(), on_hand: z.bigint(), opened: z.string(), until: z.string() });
      const sql = `select label, on_hand, coalesce(opened_on::text, '') as opened, coalesce(usable_until::text, '') as until
        from lot where studio_id = $1 and label like 'Old %' order by label`;
      return (await tx.many(row, sql, [studio.id])).map((one) => Object.values(one).map(String));
    });
  const { path, seen } = await paste(
    [
      'Item\tBottle\tAmount\tUnit\tOpened\tUsable until\tNote',
      `${collodion.name}\tOld A\t250\tml\t1 November 2026\t1 March 2027\tamber`,
      `${varnish.name}\tOld B\t0.5 l\t\t\t\t`,
      'Moon dust\tOld C\t1\tg\t\t\t',
      `${varnish.name}\told b\t1 l\t\t\t\t`,
      `${varnish.name}\tOld D\t1\t\t\t1 March 2020\t`,
    ].join('\n'),
    'shelf',
  );
  for (const told of [
    '“Moon dust” (What it is): This is not kept here; add it under Shelf first.',
    '“old b” (Bottle or batch): The same bottle stands in line 3.',
    '“1” (How much): Please write how much with its unit, like 250 ml.',
    '“1 March 2020” (Usable until): This day is past: it cannot be used any more.',
  ])
    expect(wordsOf(seen.html)).toContain(told);
  const left = await owner.postAndFollow(path, { ...fieldsOf(seen.html, path), leave: ['4', '5', '6'] });
  const confirm = fieldsOf(left.html, `${path}/confirm`);
  const done = await owner.postAndFollow(`${path}/confirm`, confirm);
  expect(await onHand()).toEqual([
    ['Old A', '250000', '2026-11-01', '2027-03-01'],
    ['Old B', '500000', '', expect.any(String)],
  ]);
  const undo = /action="([^"]+\/undo)"/.exec(done.html)?.[1] ?? '';
  expect(wordsOf((await owner.postAndFollow(undo, {})).html)).toContain('It is undone');
  expect((await onHand()).map(([label, much]) => [label, much])).toEqual([
    ['Old A', '0'],
    ['Old B', '0'],
  ]);

  house.clock.forward({ minutes: 1 });
  const one = await paste(`Item,Amount,Bottle\n${varnish.name},1 l,Old E`, 'shelf');
  const in2 = await owner.postAndFollow(
    `${one.path}/confirm`,
    fieldsOf(one.seen.html, `${one.path}/confirm`),
  );
  const lotId = await house.db.inStudio(studio.id, async (tx) => {
    const sql = `select lot_id as id from lot where studio_id = $1 and label = 'Old E'`;
    return (await tx.one(z.object({ id: z.uuid() }), sql, [studio.id])).id;
  });
  await house.app
    .get(ShelfService)
    .take(studio.id, studio.owner, lotId, { quantity: '10 ml', reason: 'test' });
  const refused = await owner.post(/action="([^"]+\/undo)"/.exec(in2.html)?.[1] ?? '', {});
  expect(refused.status).toBe(409);
  expect(refused.html).toContain(`/desk/shelf/bottles/${lotId}`);
});

test('plates made before come into the book with their numbers, move nothing, and go out of it again', async () => {
  house.clock.forward({ minutes: 1 });
  const before = await Promise.all(['movement', 'reservation', 'plate_made'].map(count));
  const book = [
    'No.,Date,Who,Size,Result,Kept,Where now',
    '12,3/5/2019,Old Mrs Teal,Whole plate,a little fog,yes,town archive',
    '13,4/5/2019,,Half plate,,no,',
  ].join('\n');
  const { path, seen } = await paste(book, 'plates');
  expect(wordsOf(seen.html)).toContain('2 plates would come in');
  const done = await owner.postAndFollow(`${path}/confirm`, fieldsOf(seen.html, `${path}/confirm`));
  const plate = wordsOf((await owner.get(`/s/${studio.slug}/desk/plates/12`)).html);
  for (const told of ['Old Mrs Teal', 'a little fog', 'Now at: town archive']) expect(plate).toContain(told);
  const wrong = await paste('No.,Date,Size\n12,3/5/2019,Whole plate\n14,3/5/2019,Whole plate', 'plates');
  expect(wordsOf(wrong.seen.html)).toContain('A plate of this number stands in the book already.');
  expect(wordsOf(wrong.seen.html)).toContain('The book goes on from 14');

  const undo = /action="([^"]+\/undo)"/.exec(done.html)?.[1] ?? '';
  await owner.get(`/s/${studio.slug}/desk/plates/12`);
  expect(
    (await owner.post(`/s/${studio.slug}/desk/plates/12/record`, { names: 'Mrs Teal the elder' })).status,
  ).toBe(303);
  const refused = await owner.post(undo, {});
  expect(refused.status).toBe(409);
  expect(refused.html).toContain(`/desk/plates/12"`);
  expect(await count('plate_made')).toBe((before[2] ?? 0) + 2);

  house.clock.forward({ minutes: 1 });
  const more = await paste('No.,Date,Size\n11,3/5/2019,Whole plate', 'plates');
  const in2 = await owner.postAndFollow(
    `${more.path}/confirm`,
    fieldsOf(more.seen.html, `${more.path}/confirm`),
  );
  await owner.postAndFollow(/action="([^"]+\/undo)"/.exec(in2.html)?.[1] ?? '', {});
  expect((await owner.get(`/s/${studio.slug}/desk/plates/11`)).status).toBe(404);
  expect([await count('movement'), await count('reservation')]).toEqual(before.slice(0, 2));
});

test('a draft is forgotten after 14 days', async () => {
  await paste('Name,Contact\nA Ruff,a@example.org');
  expect(await count('bring_in_draft')).toBeGreaterThan(0);
  house.clock.forward({ hours: 24 * 15 });
  await house.app.get(SweepService).night(studio.id);
  expect(await count('bring_in_draft')).toBe(0);
});
