// Mistakes and malice on the form for asking: each told beside its field, nothing lost, never a failure.
import { z } from 'zod';
import { askPath, countSittings, filledForm, ofStep, sendForm } from '../support/ask-form.js';
import { stepOf } from '../../src/sittings/ask-steps.calc.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, type Sent, summaryOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let other: TestStudio;
let ask: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  other = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
  ask = askPath(studio);
});
afterAll(() => house.close());

const filled = (more: Sent = {}) => filledForm(house, studio, more);
const sittings = () => countSittings(house, studio);

describe('A mistake is told beside its field, and what was typed stays', () => {
  const date = (name: string, day: string, month: string, year: string) => ({
    [`${name}-day`]: day,
    [`${name}-month`]: month,
    [`${name}-year`]: year,
  });
  const long = 'x'.repeat(10_000);
  const sittersUpTo = (count: number) =>
    Object.fromEntries(Array.from({ length: count }, (_, at) => [`sitters/${at}`, `Person ${at}`]));

  const TABLE: [title: string, change: () => Sent, field: string, sentence: RegExp][] = [
    ['a last day in the past', () => date('suits/until', '1', 'May', '2026'), 'suits/until', /^The last day/],
    [
      'both days in the past',
      () => ({ ...date('suits/from', '1', '4', '2026'), ...date('suits/until', '1', '5', '2026') }),
      'suits/until',
      /^This is past or too soon/,
    ],
    [
      'a day that does not exist',
      () => date('suits/from', '31', '2', '2027'),
      'suits/from',
      /^Please give a/,
    ],
    ['a word for a year', () => date('suits/from', '3', '2', 'soon'), 'suits/from', /^Please give a date/],
    ['no dates at all', () => date('suits/until', '', '', ''), 'suits/until', /^Please give a date/],
    [
      'a range the wrong way round',
      () => ({ ...date('suits/from', '1', '6', '2027'), ...date('suits/until', '1', '5', '2027') }),
      'suits/until',
      /^The last day must not be before the first\.$/,
    ],
    [
      'days beyond the horizon',
      () => ({ ...date('suits/from', '1', '6', '2031'), ...date('suits/until', '1', '7', '2031') }),
      'suits/from',
      /^Places are given until Thursday 25 November 2027\.$/,
    ],
    [
      'a ticked day in the past',
      () => ({ 'suits/kind': 'these', 'suits/days': '2026-01-02' }),
      'suits/days',
      /^Please choose days from Saturday 28 November 2026 to Thursday 25 November 2027\.$/,
    ],
    ['no day ticked', () => ({ 'suits/kind': 'these' }), 'suits/days', /^Please choose at least one day\.$/],
    [
      'days ticked beside any open day',
      () => ({ 'suits/days': '2027-05-14' }),
      'suits/days',
      /^You have ticked days and chosen any open day: please say which of the two\.$/,
    ],
    [
      'a ticked day that is none',
      () => ({ 'suits/kind': 'these', 'suits/days': ['2027-05-14', '2027-02-30'] }),
      'suits/days',
      /^Please give a date/,
    ],
    ['an unknown home', () => ({ home: 'Zzyqqx' }), 'home', /^We do not know this place/],
    ['no home', () => ({ home: '' }), 'home', /^Please tell us where you travel from\.$/],
    ['a home of 10,000 characters', () => ({ home: long }), 'home', /^We do not know this place/],
    ['no name', () => ({ name: '' }), 'name', /^Please tell us your name\.$/],
    [
      'a name of spaces and line breaks',
      () => ({ name: ' \r\n\t ' }),
      'name',
      /^Please tell us your name\.$/,
    ],
    ['a name of 10,000 characters', () => ({ name: long }), 'name', /^A name has at most 200 characters\.$/],
    [
      'a nameless sitter',
      () => ({ 'sitters/1': '', 'plates/0/sitters': '1' }),
      'sitters/1',
      /^Please give this person a name\.$/,
    ],
    [
      'a long name after an empty row',
      () => ({ 'sitters/1': '', 'sitters/2': long, 'plates/0/sitters': '0' }),
      'sitters/2',
      /^A name has at most 200 characters\.$/,
    ],
    ['no way of reaching them', () => ({ reachBy: [] }), 'reachBy', /^Please say how we can reach you\.$/],
    ['an unknown way', () => ({ reachBy: 'pigeon' }), 'reachBy', /^Please say how we can reach you\.$/],
    [
      'an e-mail address without an @',
      () => ({ email: 'linnea.example' }),
      'email',
      /^Please give an e-mail/,
    ],
    [
      'two e-mail addresses with a line break',
      () => ({ email: 'a@b.example\r\nBcc: c@d.example' }),
      'email',
      /^Please give an e-mail address/,
    ],
    [
      'a wrong e-mail address beside the telephone',
      () => ({ reachBy: 'telephone', telephone: '01632 960555', email: 'not one' }),
      'email',
      /^Please give an e-mail address/,
    ],
    ['no e-mail address', () => ({ email: '' }), 'email', /^Please give an e-mail address/],
    ['no telephone', () => ({ reachBy: 'telephone' }), 'telephone', /^Please give a telephone number we can/],
    ['no postal address', () => ({ reachBy: 'letter' }), 'postalAddress', /^Please give the address for our/],
    [
      'no size',
      () => ({ 'plates/0/plateSizeId': '' }),
      'plates/0/plateSizeId',
      /^Please choose a plate size/,
    ],
    [
      'a plate with nobody on it',
      () => ({ 'sitters/1': 'Aubin' }),
      'plates/0/sitters',
      /^Please say who is on this plate\.$/,
    ],
    [
      'a sitter who is not there',
      () => ({ 'sitters/1': 'Aubin', 'plates/0/sitters': '7' }),
      'plates/0/sitters',
      /^Please say who is on this plate\.$/,
    ],
    [
      'the same sitter twice on a plate',
      () => ({ 'sitters/1': 'Aubin', 'plates/0/sitters': ['1', '1'] }),
      'plates/0/sitters',
      /^Each person is on a plate once\.$/,
    ],
    [
      'thirteen sitters',
      () => ({ ...sittersUpTo(13), 'plates/0/sitters': '0' }),
      'sitters/12',
      /^At most 12 people can sit together\.$/,
    ],
    [
      'hopes of 10,000 characters',
      () => ({ hopes: long }),
      'hopes',
      /^Please keep this under 2,000 characters\.$/,
    ],
  ];

  it.each(TABLE)('%s', async (_title, change, field, sentence) => {
    const before = await sittings();
    const { visitor, answers } = await filled(change());
    const page = await sendForm(visitor, studio, answers);
    expect(page.status).toBe(422);
    expect(errorAt(page.html, field)).toMatch(sentence);
    expect(summaryOf(page.html)[0]?.sentence).toMatch(sentence);
    for (const { leadsTo } of summaryOf(page.html)) expect(page.html).toContain(`id="${leadsTo}"`);
    expect(page.html).toContain('<title>Error: Ask for a sitting');
    const { homeId: _told, ...typed } = ofStep(stepOf(field) ?? '', answers);
    expect(fieldsOf(page.html, page.action)).toMatchObject({
      ...onlyShown(typed),
      _form: expect.any(String),
    });
    // It is kept as well for who comes back later.
    const later = fieldsOf((await visitor.get(page.action)).html, page.action);
    expect(later).toMatchObject(onlyShown(typed));
    expect(await sittings()).toBe(before);
  });

  /** What the form cannot show again is what no form of ours sends: ticks and choices that are not there. */
  function onlyShown(answers: Sent): Sent {
    const hostile: Sent = {
      ...{ 'suits/days': '2026-01-02', reachBy: 'pigeon', 'plates/0/sitters': '7', 'bands/0': 'ageless' },
    };
    const kept = Object.entries(answers).filter(([name, value]) => hostile[name] !== value);
    return Object.fromEntries(
      kept.flatMap(([name, value]) => {
        if (!Array.isArray(value)) return [[name, value]];
        const shown = name === 'suits/days' ? value.filter((day) => day !== '2027-02-30') : value;
        return shown.length === 0 ? [] : [[name, shown[0] ?? '']];
      }),
    );
  }

  it('seven plates', async () => {
    const seven = Object.fromEntries(
      Array.from({ length: 7 }, (_, at) => [`plates/${at}/plateSizeId`, studio.sizes.half.id]),
    );
    const { visitor, answers } = await filled(seven);
    const page = await sendForm(visitor, studio, answers);
    expect(page.status).toBe(422);
    expect(errorAt(page.html, 'plates/6/plateSizeId')).toBe('At most six plates fit into one sitting.');
    expect(fieldsOf(page.html, page.action)).toMatchObject(seven);
  });

  it('the size of another studio', async () => {
    const { visitor, answers } = await filled({ 'plates/0/plateSizeId': other.sizes.whole.id });
    const page = await sendForm(visitor, studio, answers);
    expect(page.status).toBe(422);
    expect(errorAt(page.html, 'plates/0/plateSizeId')).toBe('The studio does not make plates of this size.');
    expect(fieldsOf(page.html, page.action)).toMatchObject({
      'sitters/0': 'Linnea Harrow',
      'plates/0/plateSizeId': '',
    });
  });

  it('an empty step: every mistake of it at once, from top to bottom', async () => {
    const { visitor } = await filled();
    const page = await visitor.postAndFollow(ask, {});
    expect(page.status).toBe(422);
    expect(summaryOf(page.html).map(({ leadsTo }) => leadsTo)).toEqual(['f-name', 'f-reachBy']);
  });

  it('a wrong e-mail address is told together with a missing name', async () => {
    const { visitor, answers } = await filled({ name: '', email: 'nobody' });
    const page = await sendForm(visitor, studio, answers);
    expect(errorAt(page.html, 'name')).not.toBeNull();
    expect(errorAt(page.html, 'email')).not.toBeNull();
  });
});

describe('Hostile answers', () => {
  const MARKUP = [
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    '</textarea><b>',
    '&lt;b&gt;',
    "'); delete from sitting where ('1' = '1",
    "$1 \\'; drop table sitting; --",
  ];

  it.each(MARKUP)('markup and SQL stay text, and every page keeps its elements: %s', async (text) => {
    const pages = async (said: string) => {
      const { visitor, answers } = await filled({
        ...{ name: said, 'sitters/0': said, home: said, hopes: said, anything: said },
      });
      const again = await sendForm(visitor, studio, answers);
      expect(again.status).toBe(422);
      const check = await visitor.get(`${again.draft}/check`);
      const sent = await sendForm(visitor, studio, { ...answers, home: 'Lerwick' });
      const more = await visitor.get(sent.location);
      return { again, check, own: more };
    };
    const [hostile, harmless] = [await pages(text), await pages('Linnea')];
    expect(fieldsOf(hostile.again.html, hostile.again.action)).toMatchObject({ home: text });
    expect(wordsOf(hostile.own.html)).toContain(`You hope for ${text}`);
    for (const page of ['again', 'check', 'own'] as const)
      expect(elementsOf(hostile[page].html)).toBe(elementsOf(harmless[page].html));
  });

  const elementsOf = (html: string) => (html.match(/<[a-z!/][a-z0-9]*/gi) ?? []).join(' ');

  it('line breaks and NUL in a name become spaces', async () => {
    const { visitor, answers } = await filled({ name: 'Lin\r\nnea\0Har\u2028row', 'sitters/0': 'A\0B' });
    const own = await visitor.get((await sendForm(visitor, studio, answers)).location);
    expect(wordsOf(own.html)).toContain('A B');
    const names = await house.db.inStudio(studio.id, (tx) =>
      tx.many(z.object({ name: z.string() }), 'select name from contact where studio_id = $1', [studio.id]),
    );
    expect(names.map((one) => one.name)).toContain('Lin nea Har row');
  });

  it.each([
    ['a NUL in each text', { hopes: 'a\0b', anything: '\0', telephone: '\0', postalAddress: 'a\0' }, 303],
    ['a NUL in the e-mail address', { email: 'a\0b@c.example' }, 422],
    ['a NUL in the size', { 'plates/0/plateSizeId': '\0' }, 422],
    ['a NUL in a day', { 'suits/kind': 'these', 'suits/days': '2027-05-14\0' }, 422],
    ['a NUL in the home', { home: '\0', homeId: '\0' }, 422],
    ['lists where texts are expected', { name: ['a', 'b'], home: ['a', 'b'], hopes: ['a', 'b'] }, 422],
    ['fields that no form of ours has', { _key: ['11111111', '22222222'], hopeless: 'x' }, 303],
    ['a backslash before what looks like a NUL', { hopes: '\\u0000 and \\ud800' }, 303],
    [
      'a text where lists are expected',
      { 'plates/0/sitters': '0', 'suits/kind': 'these', 'suits/days': '2027-05-14' },
      303,
    ],
    ['keys that objects bring along', { constructor: 'x', toString: 'y', hasOwnProperty: 'z' }, 303],
    ['a home id that is no number', { homeId: '1e400' }, 303],
    ['half a surrogate pair', { hopes: '\ud800', name: 'A\udfffB' }, 303],
  ] as [string, Sent, number][])('%s', async (_title, change, status) => {
    const { visitor, answers } = await filled(change);
    expect((await sendForm(visitor, studio, answers)).status).toBe(status);
  });

  it('__proto__ among the answers is refused as unreadable', async () => {
    const { visitor, answers } = await filled();
    const page = await visitor.post(
      ask,
      Object.fromEntries([...Object.entries(answers), ['__proto__', 'x']]),
    );
    expect(page.status).toBe(400);
  });

  it('JSON of any shape in place of a form is answered, not stumbled over', async () => {
    const page = await house.app.inject({ url: ask });
    const cookie = page.cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    const _form = fieldsOf(page.body, ask)._form;
    const nested = { toString: null, valueOf: null };
    for (const odd of [nested, [[]], 7, true, null, { 0: 'a' }]) {
      const keys = [...Object.keys(fieldsOf(page.body, ask)).filter((key) => key !== '_form'), 'suits/days'];
      const answer = await house.app.inject({
        method: 'POST',
        url: ask,
        headers: { cookie, 'content-type': 'application/json' },
        payload: JSON.stringify({ ...Object.fromEntries(keys.map((key) => [key, odd])), _form }),
      });
      expect([JSON.stringify(odd), answer.statusCode]).toEqual([JSON.stringify(odd), 303]);
      const refused = await house.app.inject({ url: answer.headers.location ?? '' });
      expect([JSON.stringify(odd), refused.statusCode]).toEqual([JSON.stringify(odd), 422]);
    }
  });
});
