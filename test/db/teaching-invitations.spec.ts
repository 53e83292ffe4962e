// Invitations of students: asked to come when they have a place, again when the day is moved, cancelled when it went;
// by the same uid as their own calendar feed, and in its order.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { Sending } from '../../src/reminders/sending.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { byIcalJs, byNodeIcal, wordsByIcalJs, wordsByNodeIcal } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let studio: TestStudio;
beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { halfGlass: 500n, wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
});
afterAll(() => house.close());

/** The letters to an address since the last look, with what their calendar part says by two readers. */
async function lettersTo(address: string) {
  await house.work();
  const sent = house.mail.sent.splice(0).filter(({ to }) => to.address === address);
  return sent.map(({ subject, invitation }) => ({
    subject,
    method: invitation?.method ?? null,
    content: invitation?.content ?? '',
    events: invitation ? [[...byIcalJs(invitation.content)], [...byNodeIcal(invitation.content)]] : [[], []],
  }));
}

async function moveDay(sessionId: string, day: string): Promise<void> {
  const changes = house.app.get(TeachingChanges);
  const form = { day, time: '11:00', places: 6, least: 2, decideOn: '2027-03-03' };
  const { hash } = await changes.preview(studio.id, sessionId, form);
  await changes.confirm(studio.id, studio.owner, sessionId, form, hash);
}

describe('the invitation to a teaching day', () => {
  it('comes with the place, again when the day is moved, and is cancelled when the place is given back', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-03-24T10:00' });
    const { signUpId, token } = await signUp(house, studio, sessionId, { email: 'one@post.example' });
    const [asked] = await lettersTo('one@post.example');
    expect(asked).toMatchObject({ method: 'REQUEST', subject: 'You have a place to learn: First Plates' });
    expect(asked?.events[0]).toEqual(asked?.events[1]);
    expect(asked?.events[0]).toEqual([
      [signUpId, expect.objectContaining({ starts: '2027-03-24T10:00:00.000Z' })],
    ]);
    expect(asked?.content).toContain('ORGANIZER');
    expect(asked?.content).not.toContain(token);

    house.clock.forward({ hours: 1 });
    await moveDay(sessionId, '2027-03-31');
    const [moved] = await lettersTo('one@post.example');
    const told = (letter: typeof asked) =>
      letter?.events[0]?.[0]?.[1] as { sequence: number; starts: string };
    expect(moved?.method).toBe('REQUEST');
    // the clocks went forward in between
    expect(told(moved)).toMatchObject({ starts: '2027-03-31T10:00:00.000Z', status: 'CONFIRMED' });
    expect(told(moved).sequence).toBeGreaterThan(told(asked).sequence);

    house.clock.forward({ hours: 1 });
    await house.app.get(OwnSignUpService).leave(studio.id, token);
    const [gone] = await lettersTo('one@post.example');
    expect(gone?.method).toBe('CANCEL');
    expect(told(gone)).toMatchObject({ starts: '2027-03-31T10:00:00.000Z', status: 'CANCELLED' });
    expect(told(gone).sequence).toBeGreaterThan(told(moved).sequence);
    // their own calendar says the same of the same entry
    const { feedToken } = await house.app.get(TeachingViews).behindLink(studio.id, token);
    const feed = await house.app.inject({ url: `/s/${studio.slug}/calendar/${feedToken}.ics` });
    expect([...byIcalJs(feed.body)]).toEqual(gone?.events[0]);
  });

  it('is cancelled for those who had a place, and never sent to who only waits or has no e-mail', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-04-14T10:00', most: 2 });
    await signUp(house, studio, sessionId, {
      email: 'two@post.example',
      students: [{ name: 'A' }, { name: 'B' }],
    });
    await signUp(house, studio, sessionId, { email: 'three@post.example', orWait: true });
    expect((await lettersTo('two@post.example')).map(({ method }) => method)).toEqual(['REQUEST']);
    await house.app.get(SessionsService).callOff(studio.id, studio.owner, sessionId, 'The roof leaks.');
    await house.work();
    const off = house.mail.sent.splice(0).filter(({ subject }) => subject.includes('called off'));
    expect(off.map(({ to, invitation }) => [to.address, invitation?.method ?? null]).sort()).toEqual([
      ['three@post.example', null],
      ['two@post.example', 'CANCEL'],
    ]);
    const other = await teachingDay(house, studio, { start: '2027-04-21T10:00' });
    await signUp(house, studio, other.sessionId, {
      reachBy: 'telephone',
      telephone: '01632 960188',
      email: '',
    });
    await house.work();
    expect(house.mail.sent.splice(0).filter(({ invitation }) => invitation)).toEqual([]);
  });

  it('is in the language of who signed up, when it comes and when it is cancelled', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-04-28T10:00' });
    const { token } = await signUp(house, studio, sessionId, { email: 'vire@post.example', language: 'fr' });
    const words = async () => {
      const [letter] = await lettersTo('vire@post.example');
      const read = [...wordsByIcalJs(letter?.content ?? '').values()];
      expect([...wordsByNodeIcal(letter?.content ?? '').values()]).toEqual(read);
      return [letter?.method, read[0]?.summary, read[0]?.description.split('\n')[0]];
    };
    const [summary, who] = ['First Plates chez Sandpiper Loft', 'Qui apprend\u00a0: Linnea Harrow'];
    expect(await words()).toEqual(['REQUEST', summary, who]);
    await house.app.get(OwnSignUpService).leave(studio.id, token);
    expect(await words()).toEqual(['CANCEL', `Annulé\u00a0: ${summary}`, who]);
  });
});

describe('whoever gave their place back before they heard how the day changed is not told of it', () => {
  const leave = (token: string) => house.app.get(OwnSignUpService).leave(studio.id, token);
  const changesOf = async (signUpId: string) =>
    (await house.app.get(OutboxService).latest(studio.id)).filter(
      ({ about_id, snapshot }) =>
        about_id === signUpId && (snapshot as { change: string }).change === 'changed',
    );

  it('when the letter is not written yet', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-05T10:00' });
    const { signUpId, token } = await signUp(house, studio, sessionId, { email: 'four@post.example' });
    await lettersTo('four@post.example');
    await moveDay(sessionId, '2027-05-06');
    await leave(token);
    expect((await lettersTo('four@post.example')).map(({ method }) => method)).toEqual(['CANCEL']);
    expect(await changesOf(signUpId)).toEqual([]);
  });

  it('when the mail server did not take the letter at first', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-12T10:00' });
    const { signUpId, token } = await signUp(house, studio, sessionId, { email: 'five@post.example' });
    await lettersTo('five@post.example');
    await moveDay(sessionId, '2027-05-13');
    house.mail.failures.push(Object.assign(new Error('451 said the server'), { responseCode: 451 }));
    expect(await lettersTo('five@post.example')).toEqual([]);
    await leave(token);
    const [mail] = await changesOf(signUpId);
    await house.app.get(Sending).send(studio.id, mail?.mail_id ?? '');
    expect(await changesOf(signUpId)).toMatchObject([{ state: 'dropped' }]);
    expect((await lettersTo('five@post.example')).map(({ method }) => method)).toEqual(['CANCEL']);
  });

  it('on the telephone', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: '2027-05-19T10:00' });
    const reach = { reachBy: 'telephone', telephone: '01632 960189', email: '' };
    const { signUpId, token } = await signUp(house, studio, sessionId, reach);
    const toTell = async () => {
      await house.work();
      const { teaching } = await house.app.get(TelephoneService).list(studio.id);
      const entry = teaching.find(({ view }) => view.signUp.id === signUpId);
      return [...(entry?.before ?? []), ...(entry ? [entry.mail] : [])].map(
        ({ snapshot }) => (snapshot as { change: string }).change,
      );
    };
    await moveDay(sessionId, '2027-05-20');
    expect(await toTell()).toEqual(['signed', 'changed']);
    await leave(token);
    expect(await toTell()).toEqual(['released']);
  });
});
