// The owner's settings through the browser: a change is previewed, confirmed as it was seen, told when the
// world has moved on, and nothing that was typed goes lost.
import { Temporal } from 'temporal-polyfill';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { askPath, filledForm, ofStep } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import {
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  PASSWORD,
  type TestStudio,
} from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

const APRIL = { from: '2027-04-01', until: '2027-04-30' };
const date = (name: string, text: string) => {
  const { day, month, year } = Temporal.PlainDate.from(text);
  return { [`${name}-day`]: `${day}`, [`${name}-month`]: `${month}`, [`${name}-year`]: `${year}` };
};

/** The hidden fields of a page's form that goes to an address. */
function hidden(html: string, action: string): Record<string, string | string[]> {
  const form = html.split('<form').find((one) => one.includes(`action="${action}"`)) ?? '';
  const fields: Record<string, string[]> = {};
  for (const [, name = '', value = ''] of form.matchAll(/type="hidden" name="([^"]+)" value="([^"]*)"/g)) {
    fields[name] = [...(fields[name] ?? []), value.replaceAll('&quot;', '"').replaceAll('&amp;', '&')];
  }
  return fields;
}

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let base: string;
let sittingId: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  ({ sittingId } = await askForSitting(house, studio, { name: 'Linnea <Harrow>' }));
  await approve(house, studio, sittingId, '2027-04-09T11:15');
  owner = await signedIn(house, studio, 'owner');
  base = `/s/${studio.slug}/desk/settings`;
}, 60_000);
afterAll(() => house.close());

const CLOSE = {
  do: 'close',
  ...date('from', '2027-04-05'),
  ...date('until', '2027-04-18'),
  fromTime: '',
  untilTime: '',
  title: 'Roof & "slates"',
};

describe('closing the room', () => {
  it('is previewed with what closes and whose confirmed sitting it touches, and does nothing yet', async () => {
    const before = await openStarts(house, studio, APRIL);
    const answer = await owner.post(`${base}/closures/preview`, CLOSE);
    expect(answer.status).toBe(200);
    expect(answer.html).toContain('7 places on 2 days');
    expect(answer.html).toContain('Friday 16 April 2027, 09:30, 11:15, 13:00, 14:45');
    expect(answer.html).toContain('No place opens.');
    expect(answer.html).toContain('one confirmed sitting would be touched');
    expect(answer.html).toContain('Linnea &lt;Harrow>');
    expect(await openStarts(house, studio, APRIL)).toEqual(before);
  });

  it('is not done when somebody was given a place since the preview; the new one is shown instead', async () => {
    const first = await owner.post(`${base}/closures/preview`, CLOSE);
    const other = await askForSitting(house, studio, { name: 'Odo Larch' });
    await approve(house, studio, other.sittingId, '2027-04-16T13:00');
    const answer = await owner.post(
      `${base}/closures/confirm`,
      hidden(first.html, `${base}/closures/confirm`),
    );
    expect(answer.status).toBe(409);
    expect(answer.html).toContain('Something changed since you looked');
    expect(answer.html).toContain('Odo Larch');
    expect(await openStarts(house, studio, { from: '2027-04-09', until: '2027-04-09' })).toHaveLength(3);
    const done = await owner.post(
      `${base}/closures/confirm`,
      hidden(answer.html, `${base}/closures/confirm`),
    );
    expect(done).toMatchObject({ status: 303, location: `${base}/closures?done=yes` });
    expect(await openStarts(house, studio, { from: '2027-04-05', until: '2027-04-18' })).toEqual([]);
  });

  it('leaves the sittings confirmed, lists them on the desk as to be moved, and stands in the history', async () => {
    const desk = (await owner.get(`/s/${studio.slug}/desk`)).html;
    expect(desk).toContain('To be moved');
    expect(desk.split('id="week"')[0]?.match(/the room is closed/g)).toHaveLength(2);
    const overview = (await owner.get(base)).html;
    expect(overview).toContain(
      'Closed: Monday 5 April 2027 to Sunday 18 April 2027 (Roof &amp; &quot;slates&quot;',
    );
  });

  it('is undone from its own card', async () => {
    const page = (await owner.get(`${base}/closures`)).html;
    const sent = hidden(page, `${base}/closures/preview`);
    expect(sent.do).toEqual(['reopen']);
    const preview = await owner.post(`${base}/closures/preview`, sent);
    expect(preview.html).toContain('6 places on 2 days');
    await owner.postAndFollow(`${base}/closures/confirm`, hidden(preview.html, `${base}/closures/confirm`));
    expect(await openStarts(house, studio, { from: '2027-04-05', until: '2027-04-18' })).toHaveLength(6);
  });
});

describe('the form that closes the room', () => {
  const told = async (fields: Record<string, string>) => {
    const { status, html } = await owner.post(`${base}/closures/preview`, { do: 'close', ...fields });
    return [status, errorAt(html, 'from') !== null, errorAt(html, 'until') !== null];
  };

  it('marks the first day where it is missing or no date, and the last day only for what is typed there', async () => {
    expect(await told({})).toEqual([422, true, false]);
    expect(await told({ 'from-day': '31', 'from-month': 'June', 'from-year': '2027' })).toEqual([
      422,
      true,
      false,
    ]);
    expect(await told({ ...date('from', '2027-05-03'), 'until-day': 'the last' })).toEqual([
      422,
      false,
      true,
    ]);
    expect(await told(date('from', '2027-05-03'))).toEqual([200, false, false]);
  });
});

describe('what is typed', () => {
  it('is shown again beside what is wrong with it', async () => {
    const answer = await owner.post(`${base}/rhythm/preview`, {
      do: 'rhythm',
      of: '',
      weekday: '3',
      starts: '10:00, half past noon',
      firstPlateMinutes: '2',
      furtherPlateMinutes: '25',
      furtherSitterMinutes: '10',
      changeoverMinutes: '30',
      breaks: '14:00-13:00',
      mostSittings: '4',
      mostSittingsWithHelper: '6',
      mostPlates: 'ten',
      heldBack: '1',
      heldBackDays: '14',
      'from-day': '31',
      'from-month': 'June',
      'from-year': '2027',
    });
    expect(answer.status).toBe(422);
    for (const said of [
      'Please give a time like 14:30.',
      'Please give a whole number from 5 to 720.',
      'A break ends after it begins.',
      'Please give a whole number from 1 to 200.',
      'Please give a date, day, month and year.',
    ])
      expect(answer.html).toContain(said);
    for (const typed of ['10:00, half past noon', '14:00-13:00', 'ten', 'June'])
      expect(answer.html).toContain(`value="${typed}"`);
  });

  it.each(['rhythm', 'closures', 'kinds', 'people', 'light'])(
    'on %s may be nothing at all, or nonsense, without a failure',
    async (section) => {
      for (const fields of [
        {},
        { do: 'toString' },
        { do: 'kind', weekdays: ['9', 'x'] },
        { do: 'people', ownerAway: 'soon' },
      ])
        expect(
          (await owner.post(`${base}/${section}/preview`, fields as Record<string, string>)).status,
        ).toBe(422);
      expect((await owner.get(`${base}/${section}?form=new`)).status).toBe(200);
    },
  );
});

describe('kinds of sitting', () => {
  it('are asked for on the form once two are offered, and an age beside each name', async () => {
    for (const name of ['Paid portrait', 'Series sitting']) {
      const fields = { do: 'kind', kindId: '', name, offered: 'public', plates: '1', keepsPlate: 'sitter' };
      const preview = await owner.post(`${base}/kinds/preview`, { ...fields, fee: '', deposit: '' });
      expect(preview.status).toBe(200);
      await owner.postAndFollow(`${base}/kinds/confirm`, hidden(preview.html, `${base}/kinds/confirm`));
    }
    const { visitor, answers } = await filledForm(house, studio);
    const you = await visitor.post(askPath(studio), ofStep('you', answers));
    const ask = (await visitor.get(you.location)).html;
    expect(ask).toContain('What kind of sitting?');
    expect(ask).toContain('Series sitting');
    expect(ask).toContain('name="bands/0"');
  });
});

describe('a preview tells', () => {
  const kind = {
    do: 'kind',
    kindId: '',
    name: 'Harbour hands',
    offered: 'owner',
    plates: '1',
    keepsPlate: 'series',
  };

  it('each value that is altered, old beside new, and nothing of the others', async () => {
    const fields = { do: 'booking', horizonMonths: '9', leastNoticeDays: '3' };
    const words = wordsOf((await owner.post(`${base}/light/preview`, fields)).html);
    expect(words).toContain('How far ahead places are given 12 months 9 months');
    expect(words).not.toContain('Least notice');
  });

  it('that a kind has no place on weekdays without a rhythm, and not so of those with one', async () => {
    const preview = async (weekdays: string[]) =>
      wordsOf((await owner.post(`${base}/kinds/preview`, { ...kind, fee: '', deposit: '', weekdays })).html);
    expect(await preview(['2', '5'])).toContain(
      'There are no sittings on Tuesdays, so Harbour hands has no place then. Enter a rhythm for Tuesdays,',
    );
    expect(await preview(['2', '3'])).toContain(
      'There are no sittings on Tuesdays and Wednesdays, so Harbour hands has no place at all.',
    );
    const fits = await preview(['5']);
    expect(fits).not.toContain('There are no sittings');
    expect(fits).toContain('Only on these weekdays Fridays');
  });
});

describe('people', () => {
  it('hold still as long as their ages say, which marks the places that ask for more', async () => {
    const { sittingId: child } = await askForSitting(house, studio, { name: 'Wynn Tarn' });
    const path = `/s/${studio.slug}/desk/requests/${child}`;
    expect((await owner.get(path)).html).toContain('hold still for about 20 seconds');
    const [, sitter] = /name="age-([^"]+)"/.exec((await owner.get(path)).html) ?? [];
    await owner.postAndFollow(`${path}/sitters`, { [`age-${sitter}`]: 'under 8' });
    const page = (await owner.get(path)).html;
    expect(page).toContain('hold still for about 4 seconds');
    expect(page).toContain('longer than the 4 s they hold');
    expect(page).toContain('noted how they hold still');
  });

  it('of no known age are told of at their own field, and nothing is noted', async () => {
    const path = `/s/${studio.slug}/desk/requests/${sittingId}`;
    const [, sitter] = /name="age-([^"]+)"/.exec((await owner.get(path)).html) ?? [];
    const { status, html } = await owner.post(`${path}/sitters`, { [`age-${sitter}`]: 'ancient' });
    expect(status).toBe(422);
    expect(errorAt(html, `age-${sitter}`)).toBe('Please choose an age.');
    expect((await owner.get(path)).html).not.toContain('noted how they hold still');
  });

  it('who are away close their days', async () => {
    const fields = {
      do: 'people',
      ownerWeekdays: ['1', '2', '3', '4', '5', '6', '7'],
      ownerAway: '23 April 2027',
    };
    const preview = await owner.post(`${base}/people/preview`, fields);
    expect(preview.html).toContain('4 places on one day');
    await owner.postAndFollow(`${base}/people/confirm`, hidden(preview.html, `${base}/people/confirm`));
    expect(await openStarts(house, studio, { from: '2027-04-23', until: '2027-04-23' })).toEqual([]);
  });
});

describe('the settings of the API', () => {
  it('are told, previewed and changed by the owner', async () => {
    const secret = await house.app.get(AccountsService).signIn(studio.id, studio.owner.email, PASSWORD);
    const headers = { authorization: `Bearer ${secret}` };
    const url = `/api/v1/s/${studio.slug}/settings`;
    const before = await house.app.inject({ url, headers });
    expect(before.json()).toMatchObject({ booking: { horizonMonths: 12 }, rhythms: [{ weekday: 5 }] });
    const change = { do: 'booking', horizonMonths: 6, leastNoticeDays: 3 };
    const preview = await house.app.inject({
      method: 'PUT',
      url: `${url}?preview=true`,
      headers,
      payload: { change },
    });
    const { seen, closes } = preview.json() as { seen: string; closes: string[] };
    expect(closes.length).toBeGreaterThan(20);
    const unseen = await house.app.inject({
      method: 'PUT',
      url,
      headers,
      payload: { change, seen: 'guess' },
    });
    expect(unseen.json()).toMatchObject({ done: false });
    const done = await house.app.inject({ method: 'PUT', url, headers, payload: { change, seen } });
    expect(done.json()).toEqual({ ...preview.json(), done: true });
    expect((await house.app.inject({ url, headers })).json()).toMatchObject({
      booking: { horizonMonths: 6 },
    });
    const wrong = await house.app.inject({
      method: 'PUT',
      url,
      headers,
      payload: { change: { do: 'booking' } },
    });
    expect(wrong.statusCode).toBe(422);
    expect((await house.app.inject({ url })).statusCode).toBe(401);
  });
});

it('is closed to the assistant', async () => {
  const assistant = await signedIn(house, studio, 'assistant');
  expect((await assistant.get(base)).status).toBe(403);
});
