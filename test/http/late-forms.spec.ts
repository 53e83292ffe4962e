// Forms that come too late, their token or its cookie gone: nothing is done by them, and nothing typed is lost.
import { SittingViews } from '../../src/sittings/views.service.js';
import { askPath, countSittings, filledForm } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf, wordsOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let ask: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  ask = askPath(studio);
});
afterAll(() => house.close());

const OLD = { _form: 'a token of last year' };

it('the form for asking is shown again as it was filled in, and then sent once', async () => {
  const typed = {
    hopes: 'A portrait of my hands.',
    'suits/kind': 'any',
    'plates/0/plateSizeId': studio.sizes.half.id,
  };
  const { visitor, answers } = await filledForm(house, studio, typed);
  const late = await visitor.post(ask, { ...answers, ...OLD });
  expect(late.status).toBe(403);
  expect(wordsOf(late.html)).toContain('This form was open for too long, so it was not sent.');
  expect(await countSittings(house, studio)).toBe(0);
  const { _form, homeId, ...shown } = fieldsOf(late.html, ask);
  const { _form: _old, homeId: _sent, ...sent } = answers;
  expect(shown).toEqual(sent);
  expect((await visitor.post(ask, { ...shown, homeId: homeId ?? '', _form: _form ?? '' })).status).toBe(303);
  expect(await countSittings(house, studio)).toBe(1);
});

it('the owner’s words are kept on a page of their own, and one press sends them', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const owner = await signedIn(house, studio, 'owner');
  const path = `/s/${studio.slug}/desk/requests/${sittingId}`;
  await owner.get(path);
  const message = 'Everything is "given".\nUntil <summer>.';
  const late = await owner.post(`${path}/decline`, { message, ...OLD });
  expect(late.status).toBe(403);
  const view = () => house.app.get(SittingViews).list(studio.id, ['requested', 'declined']);
  const stateNow = async () => (await view()).views.find((one) => one.sitting.id === sittingId)?.sitting;
  expect(await stateNow()).toMatchObject({ state: 'requested' });
  expect(wordsOf(late.html)).toContain('Nothing was done yet, and nothing you typed is lost.');
  const kept = fieldsOf(late.html, `${path}/decline`);
  expect(kept).toEqual({ message, _form: expect.any(String) });
  expect((await owner.post(`${path}/decline`, kept)).status).toBe(303);
  expect(await stateNow()).toMatchObject({ state: 'declined', message });
});

it('a password is not put into a page, but asked for again, and then one is in', async () => {
  const visitor = new Visitor(house);
  const path = `/s/${studio.slug}/sign-in`;
  await visitor.get(path);
  const late = await visitor.post(path, { email: studio.owner.email, password: PASSWORD, ...OLD });
  expect(late.status).toBe(403);
  expect(late.html).toContain(studio.owner.email);
  expect(late.html).not.toContain(PASSWORD);
  expect(wordsOf(late.html)).not.toContain('nothing you typed is lost');
  expect(wordsOf(late.html)).toContain(
    'What you typed is kept, but not your password: please type it again.',
  );
  const kept = fieldsOf(late.html, path);
  expect(kept).toMatchObject({ email: studio.owner.email, password: '' });
  const again = await visitor.post(path, { ...kept, password: PASSWORD });
  expect([again.status, again.header('location')]).toEqual([303, `/s/${studio.slug}/desk`]);
});

it('what another site sends is never made ready to be sent', async () => {
  const { answers } = await filledForm(house, studio);
  for (const site of ['cross-site', 'same-site', 'none', '']) {
    const answer = await house.app.inject({
      method: 'POST',
      url: ask,
      headers: {
        accept: 'text/html',
        'content-type': 'application/x-www-form-urlencoded',
        ...(site === '' ? {} : { 'sec-fetch-site': site }),
      },
      payload: new URLSearchParams({ name: String(answers.name), ...OLD }).toString(),
    });
    expect([site, answer.statusCode]).toEqual([site, 403]);
    expect(answer.body).not.toContain('_form');
  }
});
