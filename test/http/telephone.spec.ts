// The list of whom to telephone and to write to, as the owner uses it; and undoing what was done last with a request.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let desk: string;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse({ env: { UNDO_SECONDS: '60' } });
  studio = await foundTestStudio(house);
  desk = `/s/${studio.slug}/desk`;
  owner = await signedIn(house, studio, 'owner');
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-05-28' });
});
afterAll(() => house.close());

const text = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
/** The hidden fields of the form that goes to an address. */
const hidden = (html: string, action: string) =>
  Object.fromEntries(
    [
      ...(
        new RegExp(`<form[^>]*action="${action.replace(/[?]/g, '\\?')}".*?</form>`).exec(html)?.[0] ?? ''
      ).matchAll(/type="hidden" name="([^"_]+)" value="([^"]*)"/g),
    ].map(([, name, value]) => [name ?? '', value ?? '']),
  );
const telephoned = (name: string) =>
  askForSitting(house, studio, { name, reachBy: 'telephone', telephone: '01632 960188' });

async function settle(): Promise<void> {
  house.clock.forward({ seconds: 60 });
  await house.work();
}

describe('the list', () => {
  it('tells number and words, is ticked, and the tick is taken back', async () => {
    const { sittingId } = await telephoned('Ebba Fjordvik');
    await approve(house, studio, sittingId, starts[0] ?? '');
    await settle();
    const shown = await owner.get(`${desk}/telephone`);
    expect(shown.html).toContain('href="tel:01632960188"');
    expect(text(shown.html)).toContain('You have a place: Friday 5 March 2027, 09:30.');
    expect(text(shown.html)).toContain('Not told before either: Your request has reached us.');
    expect(text((await owner.get(desk)).html)).toContain(
      'To telephone or to post (1) Ebba Fjordvik, 01632 960188',
    );

    const told = await owner.postAndFollow(
      `${desk}/telephone/${sittingId}/told`,
      hidden(shown.html, `${desk}/telephone/${sittingId}/told`),
    );
    expect(text(told.html)).toContain('Everybody has been told');
    expect(text(told.html)).toContain('Told by Isaura Fenwick');
    const again = await owner.postAndFollow(
      `${desk}/telephone/${sittingId}/told`,
      hidden(shown.html, `${desk}/telephone/${sittingId}/told`),
    );
    expect(text(again.html)).toContain('ticked, or taken back, in the meantime');

    const back = `${desk}/telephone/${sittingId}/not-told`;
    const undone = await owner.postAndFollow(back, hidden(told.html, back));
    expect(text(undone.html)).toContain('Ebba Fjordvik');
    await owner.postAndFollow(
      `${desk}/telephone/${sittingId}/told`,
      hidden(shown.html, `${desk}/telephone/${sittingId}/told`),
    );
    expect(text((await owner.get(`${desk}/requests/${sittingId}`)).html)).toContain(
      'Isaura Fenwick told them by hand',
    );
  });

  it('does not take a tick that names no letter, or another’s', async () => {
    const { sittingId } = await telephoned('Nobody’s tick');
    await settle();
    await owner.get(`${desk}/telephone`);
    expect((await owner.post(`${desk}/telephone/${sittingId}/told`)).status).toBe(422);
    expect((await owner.post(`${desk}/telephone/nobody/told`, { letters: 'x' })).status).toBe(404);
    const other = await telephoned('Another');
    await settle();
    const shown = await owner.get(`${desk}/telephone`);
    const theirs = hidden(shown.html, `${desk}/telephone/${other.sittingId}/told`);
    const answer = await owner.postAndFollow(`${desk}/telephone/${sittingId}/told`, theirs);
    expect(text(answer.html)).toContain('Nobody’s tick');
    expect(text(answer.html)).toContain('Another');
  });

  it('prints a letter with the address and the page, and nothing that cannot be attached to paper', async () => {
    const { sittingId, token } = await askForSitting(house, studio, {
      name: 'Wilfred Askew',
      reachBy: 'letter',
      postalAddress: '4 Chandlery Row\nHull',
    });
    await approve(house, studio, sittingId, starts[1] ?? '');
    await settle();
    const page = text((await owner.get(`${desk}/telephone/letters`)).html);
    expect(page).toContain('Wilfred Askew 4 Chandlery Row Hull');
    expect(page).toContain('Dear Wilfred Askew,');
    expect(page).toContain('We are glad to tell you that you have a place.');
    expect(page).toContain(`http://localhost:4180/s/${studio.slug}/place/${token}`);
    expect(page).not.toContain('attached');
  });
});

describe('undo', () => {
  const act = async (sittingId: string) => {
    const { html } = await owner.get(`${desk}/requests/${sittingId}`);
    return hidden(html, `${desk}/requests/${sittingId}/undo`);
  };

  it('stands beside the notice, says what it does, and does it', async () => {
    const { sittingId } = await askForSitting(house, studio, { name: 'Merrin Locke' });
    await house.work();
    house.mail.sent.length = 0;
    await owner.get(`${desk}/requests/${sittingId}`);
    const done = await owner.postAndFollow(`${desk}/requests/${sittingId}/approve`, {
      start: starts[2] ?? '',
    });
    expect(text(done.html)).toMatch(
      /Nobody has been told yet; the letter goes at \d\d:\d\d\. Undo takes the place/,
    );
    const undone = await owner.postAndFollow(`${desk}/requests/${sittingId}/undo`, await act(sittingId));
    expect(text(undone.html)).toContain('It is undone, and nobody was told.');
    expect(text(undone.html)).toContain('Waiting for your answer.');
    expect(undone.html).not.toContain('/undo"');
    await settle();
    expect(house.mail.sent).toEqual([]);
  });

  it('is gone once the letter went, and what is honest stands in its stead', async () => {
    const { sittingId } = await askForSitting(house, studio, { name: 'Perdita Vale' });
    await owner.get(`${desk}/requests/${sittingId}`);
    await owner.post(`${desk}/requests/${sittingId}/approve`, { start: starts[2] ?? '' });
    const late = await act(sittingId);
    await settle();
    const { html } = await owner.get(`${desk}/requests/${sittingId}`);
    expect(text(html)).toContain('They have been told, so this is not undone any more.');
    expect(html).toContain(`${desk}/move?from=2027-03-05`);
    expect(html).not.toContain('/undo"');
    const refused = await owner.post(`${desk}/requests/${sittingId}/undo`, late);
    expect(refused.status).toBe(409);
    expect(text(refused.html)).toContain('They have been told by now, so it cannot be undone.');
    expect((await owner.post(`${desk}/requests/${sittingId}/undo`)).status).toBe(422);
  });

  it('is there after a place was given back for somebody who rang, and gives it to them again', async () => {
    const { sittingId } = await askForSitting(house, studio, { name: 'Odo Penhale' });
    const page = `${desk}/requests/${sittingId}`;
    await approve(house, studio, sittingId, starts[3] ?? '');
    await settle();
    house.mail.sent.length = 0;
    expect(text((await owner.get(page)).html)).toContain('They give it back');
    const done = await owner.postAndFollow(`${page}/give-back`);
    expect(text(done.html)).toMatch(
      /Their place is free\..*Nobody has been told yet; the letter goes at \d\d:\d\d\. Undo gives them the place again/,
    );
    expect(text(done.html)).toContain(`${studio.owner.name} gave the place back`);
    expect(done.html).not.toContain('give-back');
    const undone = await owner.postAndFollow(`${page}/undo`, await act(sittingId));
    expect(text(undone.html)).toContain('Confirmed for Friday');
    const again = await owner.postAndFollow(`${page}/give-back`);
    expect(text(again.html)).toContain('Their place is free.');
    await settle();
    expect(text((await owner.get(page)).html)).toContain(
      'They have been told, so this is not undone any more. If they want a place after all, let them ask again.',
    );
    expect((await owner.post(`${page}/give-back`)).status).toBe(409);
    expect(house.mail.sent.map(({ to }) => to.name)).toContain('Odo Penhale');
  });

  it('is there after a request was put on the list, declined or marked', async () => {
    const { sittingId } = await askForSitting(house, studio, { name: 'Corin Ashby' });
    const page = `${desk}/requests/${sittingId}`;
    await owner.get(page);
    const listed = await owner.postAndFollow(`${desk}/waiting/${sittingId}/list?from=request`);
    expect(text(listed.html)).toContain('Undo takes it off the list');
    await owner.post(`${page}/undo`, await act(sittingId));
    house.clock.forward({ seconds: 1 });
    const marked = await owner.postAndFollow(`${desk}/waiting/${sittingId}/mark`, { priority: 'A reason.' });
    expect(text(marked.html)).toContain('Undo puts the marks back');
    await owner.post(`${page}/undo`, await act(sittingId));
    house.clock.forward({ seconds: 1 });
    const declined = await owner.postAndFollow(`${page}/decline`, { message: 'A slip.' });
    expect(text(declined.html)).toContain('Undo puts the request back where it was');
    const undone = await owner.postAndFollow(`${page}/undo`, await act(sittingId));
    expect(text(undone.html)).toContain('Waiting for your answer.');
  });
});
