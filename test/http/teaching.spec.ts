// Signing up for a teaching day in a browser without script, and through the API.
import { SystemRandom } from '../../src/platform/clock.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, signUpOf, teachingDay } from '../support/teaching.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let sessionId: string;
let templateId: string;
let path: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  ({ sessionId, templateId } = await teachingDay(house, studio, { most: 3 }));
  path = `/s/${studio.slug}/teaching/${sessionId}`;
});
afterAll(() => house.close());

describe('The pages of who wants to learn', () => {
  it('lead from the studio’s page to a day, with what it is and what to bring', async () => {
    const visitor = new Visitor(house);
    expect((await visitor.get(`/s/${studio.slug}`)).html).toContain(`/s/${studio.slug}/teaching`);
    const all = await visitor.get(`/s/${studio.slug}/teaching`);
    expect(wordsOf(all.html)).toContain('3 places left');
    expect(all.html).toContain(path);
    const words = wordsOf((await visitor.get(path)).html);
    expect(words).toContain('Wednesday 7 April 2027, 10:00 to 16:00');
    expect(words).toContain('11:30 Rounds of plates (in the darkroom)');
    expect(words).toContain('3 plates, Half plate');
    expect(words).toContain('that is decided on Wednesday 17 March 2027');
    expect(words).toContain('speak to the teacher privately before you sign up');
  });

  it('tell mistakes beside their fields, keep what was typed, add a person, and end on a page of one’s own', async () => {
    const visitor = new Visitor(house);
    const form = fieldsOf((await visitor.get(path)).html, path);
    const wrong = await visitor.post(path, { ...form, reachBy: 'email', 'students/0/name': 'Ada' });
    expect(wrong.status).toBe(422);
    for (const field of ['name', 'email', 'oldEnough'])
      expect([field, errorAt(wrong.html, field)]).not.toContain(null);
    expect(fieldsOf(wrong.html, path)['students/0/name']).toBe('Ada');
    const good = {
      ...fieldsOf(wrong.html, path),
      name: 'Linnea',
      email: 'linnea@post.example',
      oldEnough: 'yes',
    };
    const two = await visitor.post(path, { ...good, more: 'student' });
    expect(two.status).toBe(200);
    const filled = {
      ...fieldsOf(two.html, path),
      'students/1/name': 'Bo',
      'students/1/experience': 'practised',
    };
    // whoever was added is not lost without a word, with something typed of them or not
    for (const brings of ['My own camera', '']) {
      const unnamed = { ...filled, 'students/1/name': ' ', 'students/1/brings': brings };
      const asked = await visitor.post(path, unnamed);
      expect([asked.status, errorAt(asked.html, 'students/1/name')]).toEqual([
        422,
        'Please tell us who it is, or take this person out.',
      ]);
      expect(fieldsOf(asked.html, path)['students/1/brings']).toBe(brings);
    }
    const third = fieldsOf((await visitor.post(path, { ...filled, more: 'student' })).html, path);
    const own = await visitor.postAndFollow(path, { ...third, 'students/2/out': 'yes' });
    const words = wordsOf(own.html);
    expect(words).toContain('You have a place.');
    expect(words).toContain('Ada, Bo');
    expect(words).toContain('60 pounds: due');
    const again = await visitor.post(path, filled); // the same form once more
    expect(again.status).toBe(303);
    expect(wordsOf((await visitor.get(`/s/${studio.slug}/teaching`)).html)).toContain('one place left');
  });

  it('take sizes, access and safety for each student, and never show back whom to ring', async () => {
    const { token } = await signUp(house, studio, sessionId);
    const own = `/s/${studio.slug}/student/${token}`;
    const visitor = new Visitor(house);
    const page = await visitor.get(own);
    // what everybody has to agree to is not called optional
    expect(wordsOf(page.html)).toContain(
      'Without this nobody stands at the bench. Safety Linnea Harrow has read',
    );
    const action = `${own}/students`;
    const name = named(page.html, action);
    const told = {
      [name[0]('gear/Gloves')]: 'M',
      [name[0]('access')]: 'A stool by the sink.',
      [name[0]('emergencyName')]: 'Wilfred Askew',
      [name[0]('emergencyTelephone')]: '01632 960123',
      [name[0]('agreesTo')]: '1',
    };
    const after = await visitor.postAndFollow(action, told);
    expect(wordsOf(after.html)).toContain('Read and agreed to.');
    expect(fieldsOf(after.html, action)[name[0]('gear/Gloves')]).toBe('M');
    expect(after.html).not.toMatch(/Wilfred|960123|stool by the sink/);
    expect(after.html).toContain('We have somebody to ring.');
  });

  it('take what is told of two students with one Save, and keep all of it where one answer is wrong', async () => {
    const elsewhere = await foundTestStudio(house, { slug: 'turnstone-attic', name: 'Turnstone Attic' });
    const { sessionId: day } = await teachingDay(house, elsewhere);
    const two = { students: [{ name: 'Ada' }, { name: 'Bo' }] };
    const own = `/s/${elsewhere.slug}/student/${(await signUp(house, elsewhere, day, two)).token}`;
    const action = `${own}/students`;
    const visitor = new Visitor(house);
    const page = await visitor.get(own);
    const [ada, bo] = named(page.html, action);
    const typed = {
      ...fieldsOf(page.html, action),
      ...{ [ada('gear/Gloves')]: 'M', [ada('access')]: 'A step.', [ada('agreesTo')]: '1' },
      ...{ [bo('gear/Gloves')]: 'L', [bo('emergencyName')]: 'W'.repeat(201), [bo('agreesTo')]: '7' },
    };
    const wrong = await visitor.post(action, typed);
    expect(wrong.status).toBe(422);
    expect(errorAt(wrong.html, bo('emergencyName'))).toMatch(/^Please keep this under 200/);
    expect(errorAt(wrong.html, ada('access'))).toBeNull();
    const { [bo('agreesTo')]: _ofNoWording, ...again } = typed;
    expect(fieldsOf(wrong.html, action)).toMatchObject({ ...again, _form: expect.any(String) });

    const mended = { ...typed, [bo('emergencyName')]: 'Wilfred Askew' };
    const old = await visitor.post(action, mended);
    expect(errorAt(old.html, bo('agreesTo'))).toMatch(/^The wording has changed meanwhile/);
    expect(wordsOf((await visitor.get(own)).html)).not.toContain('Read and agreed to.'); // all or nothing
    await visitor.post(action, { ...mended, [bo('agreesTo')]: '1' });
    const after = await visitor.get(own);
    expect(wordsOf(after.html).match(/Read and agreed to\./g)).toHaveLength(2);
    expect(fieldsOf(after.html, action)).toMatchObject({
      ...{ [ada('gear/Gloves')]: 'M', [bo('gear/Gloves')]: 'L' },
    });
    expect(wordsOf(after.html)).toContain('We have somebody to ring.');
  });

  /** How the fields of the first and of the second student are named. */
  function named(html: string, action: string): [(field: string) => string, (field: string) => string] {
    const names = Object.keys(fieldsOf(html, action)).filter((name) => name.endsWith('/access'));
    const [one = '', two = ''] = names.map((name) => name.replace('access', ''));
    return [(field) => one + field, (field) => two + field];
  }

  it('say that a deposit is due as long as there is a place, and no more once it was given back', async () => {
    const elsewhere = await foundTestStudio(house, { slug: 'plover-yard', name: 'Plover Yard' });
    const { sessionId: day } = await teachingDay(house, elsewhere);
    const own = `/s/${elsewhere.slug}/student/${(await signUp(house, elsewhere, day)).token}`;
    const visitor = new Visitor(house);
    expect(wordsOf((await visitor.get(own)).html)).toContain('60 pounds: due');
    const left = wordsOf((await visitor.postAndFollow(`${own}/leave`)).html);
    expect(left).toContain('You have given your place back.');
    expect(left).not.toContain('60 pounds');
  });

  it('say when a day is full, and put who wants it on the list', async () => {
    const visitor = new Visitor(house);
    const page = await visitor.get(path);
    expect(wordsOf(page.html)).toContain('Full; there is a waiting list');
    const form = {
      ...fieldsOf(page.html, path),
      name: 'Cy',
      reachBy: 'telephone',
      telephone: '01632 960188',
      oldEnough: 'yes',
    };
    const full = await visitor.post(path, form);
    expect([full.status, errorAt(full.html, 'orWait')]).toEqual([
      409,
      expect.stringContaining('waiting list'),
    ]);
    const own = await visitor.postAndFollow(path, { ...fieldsOf(full.html, path), orWait: 'yes' });
    expect(wordsOf(own.html)).toContain('You are on the waiting list of this day.');
    const left = await visitor.postAndFollow(`${own.html.match(/action="([^"]*)\/leave"/)?.[1]}/leave`);
    expect(wordsOf(left.html)).toContain('You have withdrawn this.');
  });

  it('ask for a day of one’s own', async () => {
    const visitor = new Visitor(house);
    const ask = `/s/${studio.slug}/teaching/one-to-one/${templateId}`;
    const form = {
      ...fieldsOf((await visitor.get(ask)).html, ask),
      name: 'Dee',
      reachBy: 'letter',
      oldEnough: 'yes',
    };
    const wrong = await visitor.post(ask, {
      ...form,
      postalAddress: '4 Chandlery Row',
      'day-day': '31',
      'day-month': 'June',
      'day-year': '2027',
    });
    expect([wrong.status, errorAt(wrong.html, 'day')]).toEqual([
      422,
      expect.stringContaining('a date that the calendar has'),
    ]);
    const own = await visitor.postAndFollow(ask, { ...fieldsOf(wrong.html, ask), 'day-day': '30' });
    expect(wordsOf(own.html)).toContain('Asked for Wednesday 30 June 2027');
  });
});

describe('The API of teaching', () => {
  const api = `/api/v1/s/sandpiper-loft`;
  const send = (url: string, payload: unknown, key?: string) =>
    house.app.inject({
      method: 'POST',
      url: `${api}${url}`,
      headers: { 'content-type': 'application/json', ...(key ? { 'idempotency-key': key } : {}) },
      payload: JSON.stringify(payload),
    });

  it('lists days, signs up once a key, and shows one’s own', async () => {
    const other = await teachingDay(house, studio, { start: '2027-04-14T10:00' });
    const days = (await house.app.inject(`${api}/teaching`)).json().days;
    expect(
      days.map(({ sessionId: id, placesLeft }: { sessionId: string; placesLeft: number }) => [
        id,
        placesLeft,
      ]),
    ).toEqual([
      [sessionId, 0],
      [other.sessionId, 6],
    ]);
    const key = new SystemRandom().id();
    const url = `/teaching/${other.sessionId}/sign-ups`;
    expect((await send(url, signUpOf())).statusCode).toBe(400);
    const made = (await send(url, signUpOf(), key)).json();
    expect((await send(url, signUpOf(), key)).json()).toEqual(made);
    const token = made.page.split('/').at(-1);
    const own = (await house.app.inject(`${api}/student/${token}`)).json();
    expect(own).toMatchObject({
      state: 'signed',
      day: { placesLeft: 5 },
      students: [{ agreedToSafety: false }],
    });
    expect(
      (await send(`/student/${token}/details`, { studentId: own.students[0].studentId, agreesTo: 7 })).json(),
    ).toMatchObject({
      code: 'bad_input',
      errors: [{ pointer: '/agreesTo' }],
    });
    const leave = new SystemRandom().id();
    expect((await send(`/student/${token}/leave`, {}, leave)).statusCode).toBe(204);
    expect((await send(`/student/${token}/leave`, {}, leave)).statusCode).toBe(204);
    expect((await send(`/student/${token}/leave`, {})).json()).toMatchObject({ code: 'wrong_state' });
  });
});
