// The waiting list through its pages: the owner's list, rule and marks, and what the person's own page shows and does.
import { readable } from '../support/page-forms.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let visitor: Visitor;
let desk: string;

type Asked = { sittingId: string; own: string; request: string };

let count = 0;
beforeAll(async () => {
  house = await openTestHouse();
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `loft-${++count}` });
  owner = await signedIn(house, studio, 'owner');
  visitor = new Visitor(house);
  desk = `/s/${studio.slug}/desk`;
});
afterAll(() => house.close());

const textOf = (html: string) => readable(html.replace(/<[^>]+>/g, ' ')).replace(/\s+/g, ' ');

async function listed(name: string): Promise<Asked> {
  const { sittingId, token } = await askForSitting(house, studio, { name });
  const request = `${desk}/requests/${sittingId}`;
  await owner.get(request);
  const { html } = await owner.postAndFollow(`${desk}/waiting/${sittingId}/list?from=request`);
  expect(textOf(html)).toContain('It is on the waiting list.');
  house.clock.forward({ hours: 24 });
  return { sittingId, own: `/s/${studio.slug}/place/${token}`, request };
}
const order = async () =>
  [...(await owner.get(`${desk}/waiting`)).html.matchAll(/>(\d)\. <a [^>]*>([^<]+)/g)].map(
    ([, position, name]) => `${position} ${name}`,
  );
async function offer({ request, sittingId }: Asked, start = '2027-04-02T09:30'): Promise<void> {
  await owner.get(request);
  const { html } = await owner.postAndFollow(`${desk}/waiting/${sittingId}/offer?from=request`, { start });
  expect(textOf(html)).toContain('The place is offered and held, and they are being told.');
}

describe('the owner’s list', () => {
  it('takes back somebody whose given day does not suit after all, as they say on the telephone', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    await owner.postAndFollow(`${desk}/waiting/${one.sittingId}/accepted?from=request`);
    const { html } = await owner.get(one.request);
    expect(textOf(html)).toContain('They ask for another day');
    const after = await owner.postAndFollow(`${desk}/waiting/${one.sittingId}/another-day?from=request`);
    expect(textOf(after.html)).toContain('Their place is free, and they wait for another day.');
    expect(await order()).toEqual(['1 Ada Holm']);
  });

  it('stands in the order of asking, each with reasons, and a mark with its reason moves somebody up', async () => {
    await listed('Ada Holm');
    const second = await listed('Bo Lind');
    expect(await order()).toEqual(['1 Ada Holm', '2 Bo Lind']);
    expect(textOf((await owner.get(`${desk}/waiting`)).html)).toMatch(
      /1\. Ada Holm asked 2 days ago \(0\.07\); can come on \d+ % of your days \([\d.]+\); needs 4 days’ notice/,
    );
    await owner.get(second.request);
    const marks = { priority: '', hardship: 'Goes to sea in May', noticeDays: '' };
    const page = await owner.postAndFollow(`${desk}/waiting/${second.sittingId}/mark`, marks);
    expect(textOf(page.html)).toContain('changed a mark of the waiting list');
    expect(await order()).toEqual(['1 Bo Lind', '2 Ada Holm']);
    expect(textOf((await owner.get(`${desk}/waiting`)).html)).toContain('hardship: Goes to sea in May (6)');
  });

  it('tells what is wrong with a mark at its field, and keeps what was typed', async () => {
    const one = await listed('Ada Holm');
    await owner.get(one.request);
    const marks = { priority: 'A friend', hardship: '', noticeDays: 'soon' };
    const { status, html } = await owner.post(`${desk}/waiting/${one.sittingId}/mark`, marks);
    expect(status).toBe(422);
    expect(html).toContain('Please give whole days from 0 to 365, or leave this empty.');
    expect(html).toContain('>A friend</textarea>');
  });

  it('offers a place, shows when it runs out, and notes what was said on the telephone', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    const shown = textOf((await owner.get(`${desk}/waiting`)).html);
    expect(shown).toContain('Friday 2 April 2027, 09:30. Runs out on Monday 7 December 2026, 18:00.');
    const after = await owner.postAndFollow(`${desk}/waiting/${one.sittingId}/accepted`);
    expect(textOf(after.html)).toContain(
      'The place is theirs. They are told by e-mail, or stand under “To telephone”.',
    );
    const late = await owner.postAndFollow(`${desk}/waiting/${one.sittingId}/refused`);
    expect(textOf(late.html)).toContain('That was answered, ran out or was given up in the meantime.');
  });

  it('proposes a place that came free to the next, and says why others are passed over', async () => {
    const first = await listed('Ada Holm');
    await listed('Bo Lind');
    await offer(first);
    await owner.postAndFollow(`${desk}/waiting/${first.sittingId}/refused`);
    const { html } = await owner.get(`${desk}/waiting`);
    expect(textOf(html)).toContain(
      'Friday 2 April 2027, 09:30 Next: Bo Lind (number 2). Passed over: Ada Holm: said no to it, or let it pass.',
    );
    expect(html).toContain('Offer it to Bo Lind');
  });

  it('tells an open offer on a day that is closed apart from a place, and warns before a yes to it', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    expect(textOf((await owner.get(one.request)).html)).not.toContain('That day cannot be held');
    const closures = `${desk}/settings/closures`;
    const close = { do: 'close', 'from-day': '2', 'from-month': 'April', 'from-year': '2027' };
    await owner.get(closures);
    const preview = await owner.post(`${closures}/preview`, close);
    const shown = textOf(preview.html);
    expect(shown).toContain('An offer is open to Ada Holm. It stays open, and nobody is told by this');
    expect(shown).not.toContain('confirmed sitting');
    const seen = /name="seen" value="([^"]+)"/.exec(preview.html)?.[1] ?? '';
    await owner.postAndFollow(`${closures}/confirm`, { ...close, seen });
    expect(textOf((await owner.get(desk)).html)).toMatch(
      /Ada Holm \(an offer is open\) .{0,80}the room is closed/,
    );
    expect(textOf((await owner.get(`${desk}/move`)).html)).toContain('09:30: Ada Holm (an offer is open)');
    for (const page of [one.request, `${desk}/waiting`])
      expect(textOf((await owner.get(page)).html)).toContain(
        'That day cannot be held: the room is closed. With a yes it is theirs all the same, and has to be moved.',
      );
    await owner.postAndFollow(`${desk}/waiting/${one.sittingId}/accepted`);
    expect(textOf((await owner.get(`${desk}/move`)).html)).toMatch(/2027, 09:30: Ada Holm (?!\()/);
  });

  it('says why an offer cannot be made, on the page of the request', async () => {
    const one = await listed('Ada Holm');
    await owner.get(one.request);
    const { status, html } = await owner.post(`${desk}/waiting/${one.sittingId}/offer?from=request`, {
      start: '2026-12-05T09:30',
    });
    expect(status).toBe(409);
    expect(html).toContain('role="alert"');
  });

  it('refuses an act that there is none of, and an assistant', async () => {
    const one = await listed('Ada Holm');
    expect((await owner.post(`${desk}/waiting/${one.sittingId}/dance`)).status).toBe(404);
    const assistant = await signedIn(house, studio, 'assistant');
    expect((await assistant.get(`${desk}/waiting`)).status).toBe(403);
  });
});

describe('the rule of the list', () => {
  const sent = async (change: Record<string, string>): Promise<Record<string, string>> => {
    const { html } = await owner.get(`${desk}/waiting/rules`);
    const fields = [...html.matchAll(/name="([a-zA-Z]+)" value="(\d+)"/g)].map(([, name, value]) => [
      name,
      value,
    ]);
    return { ...Object.fromEntries(fields), mode: 'by hand', ...change };
  };

  it('is looked at with the new order, and nothing is saved before it is confirmed', async () => {
    await listed('Ada Holm');
    const second = await listed('Bo Lind');
    await owner.get(second.request);
    await owner.postAndFollow(`${desk}/waiting/${second.sittingId}/mark`, { hardship: 'Goes to sea' });
    const rule = await sent({ hardship: '0' });
    const preview = await owner.post(`${desk}/waiting/rules/preview`, rule);
    expect(textOf(preview.html)).toContain('2 people move. Nothing is saved yet');
    expect(await order()).toEqual(['1 Bo Lind', '2 Ada Holm']);
    const again = await owner.post(`${desk}/waiting/rules/again`, rule);
    expect(/name="hardship" value="(\d+)"/.exec(again.html)?.[1]).toBe('0');
    const saved = await owner.postAndFollow(`${desk}/waiting/rules`, rule);
    expect(textOf(saved.html)).toContain('The rule is saved.');
    expect(textOf(saved.html)).toContain('You choose yourself whom to ask, when a place comes free.');
    expect(await order()).toEqual(['1 Ada Holm', '2 Bo Lind']);
  });

  it('tells each mistake at its field and keeps the rest', async () => {
    const rule = await sent({ hardship: 'much', nearWeeks: '20', farDays: '21' });
    const { status, html } = await owner.post(`${desk}/waiting/rules/preview`, rule);
    expect(status).toBe(422);
    expect(html).toContain('Please give a whole number from 0 to 100.');
    expect(html).toContain('This must not be more than the weeks above.');
    expect(html).toContain('name="farDays" value="21"');
  });
});

describe('a person’s own page', () => {
  it('tells how long the wait may be and what that rests on', async () => {
    await listed('Ada Holm');
    const two = await listed('Bo Lind');
    const text = textOf((await visitor.get(two.own)).html);
    expect(text).toMatch(/How long it may take (Up to|Between) [\d a-z]+months? ?, in eight cases of ten/);
    expect(text).toMatch(
      /You are number 2 of 2 on the list\. In the next 12 months \d+ places are still open and 0 are/,
    );
  });

  it('takes an offered place with one tap, and gives the day back for another with one', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    expect(textOf((await visitor.get(one.own)).html)).toContain(
      'Held for you until Monday 7 December 2026, 18:00',
    );
    expect(textOf((await visitor.postAndFollow(`${one.own}/accept`)).html)).toContain('The place is yours.');
    const back = await visitor.postAndFollow(`${one.own}/another-day`);
    expect(textOf(back.html)).toContain('The place is given back, and you wait for another day.');
    expect(textOf(back.html)).toContain('You are number 1 of 1 on the list');
  });

  it('says no to one place and keeps the turn', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    await visitor.get(one.own);
    const after = textOf((await visitor.postAndFollow(`${one.own}/refuse`)).html);
    expect(after).toContain('It is free for somebody else, and you keep your turn on the list.');
    const twice = textOf((await visitor.postAndFollow(`${one.own}/refuse`)).html);
    expect(twice).toContain('This was given up already, or answered in the meantime.');
  });

  it('shows an offer as over from the moment it runs out, though no job has run, and an answer is told so', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    await visitor.get(one.own);
    house.clock.set('2026-12-07T18:00:00Z');
    const over = textOf((await visitor.get(one.own)).html);
    expect(over).toContain('The offer we made you has run out. You keep your turn on the list.');
    expect(over).not.toContain('Yes, I take this place');
    const answered = textOf((await visitor.postAndFollow(`${one.own}/accept`)).html);
    expect(answered).toContain('This offer had run out, and the place is open to others again.');
  });

  it('goes back on the list with one tap after offers ran out', async () => {
    const one = await listed('Ada Holm');
    for (const moment of ['2026-12-07T18:00:00Z', '2026-12-21T18:00:00Z']) {
      await offer(one);
      house.clock.set(moment);
      await house.work();
    }
    const page = await visitor.get(one.own);
    expect(textOf(page.html)).toContain('Put me back on the list');
    const after = textOf((await visitor.postAndFollow(`${one.own}/reopen`)).html);
    expect(after).toContain('You are back on the list, with the date on which you first asked.');
  });

  it('is changed by no look at it, nor by a look at where its buttons lead', async () => {
    const one = await listed('Ada Holm');
    await offer(one);
    for (const act of ['accept', 'refuse', 'another-day', 'reopen', 'give-up'])
      for (const method of ['GET', 'HEAD'] as const)
        expect(await visitor.look(method, `${one.own}/${act}`)).toBe(404);
    expect(textOf((await visitor.get(one.own)).html)).toContain('Yes, I take this place');
  });
});
