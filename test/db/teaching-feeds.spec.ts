// Teaching days in calendars: each student's own, the public one, the owner's and the assistant's. Two readers that are
// not ours agree with the database; equal tags mean equal bytes; nobody reads what is another's.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { SignUpsService } from '../../src/teaching/sign-ups.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { byIcalJs, byNodeIcal, type Told } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, signUpOf, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let studio: TestStudio;
/** Wednesdays over eight weeks ahead, across the change of clocks on 28 March 2027. */
let days: string[];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { halfGlass: 500n, wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  days = Array.from({ length: 12 }, (_, week) =>
    Temporal.PlainDateTime.from('2027-03-24T10:00').add({ weeks: week }).toString({ smallestUnit: 'minute' }),
  );
});
afterAll(() => house.close());
beforeEach(() => house.clock.forward({ minutes: 1 }));

const nextDay = () => days.shift() ?? '';
const own = () => house.app.get(OwnSignUpService);
const sessions = () => house.app.get(SessionsService);
const requests = () => house.app.get(TeachingRequestsService);
const publicFeed = () => `/s/${studio.slug}/calendar/teaching-days.ics`;

async function staffFeed(kind: 'owner' | 'assistant'): Promise<string> {
  const links = house.app.get(LinksService);
  const link = await house.db.inStudio(studio.id, (tx) => links.ensure(tx, 'feed', studio.owner.id, kind));
  return `/s/${studio.slug}/calendar/${links.token(link)}.ics`;
}

/** The feed of who is behind the secret of a student's page. */
async function studentFeed(token: string): Promise<string> {
  const { feedToken } = await house.app.get(TeachingViews).behindLink(studio.id, token);
  return `/s/${studio.slug}/calendar/${feedToken}.ics`;
}

async function fetched(url: string) {
  const answer = await house.app.inject({ url });
  expect(answer.statusCode).toBe(200);
  const unfolded = answer.body.replace(/\r\n /g, '').replace(/\\([,;])/g, '$1');
  return { etag: String(answer.headers.etag), body: answer.body, unfolded };
}

const viewOf = (sessionId: string) => house.app.get(TeachingViews).session(studio.id, sessionId);

/** What a calendar is to tell of a day. */
async function placeOf(sessionId: string, told: Partial<Told>): Promise<Partial<Told>> {
  const { place } = await viewOf(sessionId);
  const iso = (at: Temporal.Instant) => new Date(at.epochMilliseconds).toISOString();
  return { starts: iso(place.startsAt), ends: iso(place.endsAt), ...told };
}

async function change(sessionId: string, wanted: Record<string, unknown>): Promise<void> {
  const { session, place } = await viewOf(sessionId);
  const form = {
    day: place.wallStart.toPlainDate().toString(),
    time: place.wallStart.toPlainTime().toString({ smallestUnit: 'minute' }),
    places: session.places,
    least: session.least,
    decideOn: session.decideOn.toString(),
    secondAdult: session.secondAdult,
    ...wanted,
  };
  const changes = house.app.get(TeachingChanges);
  const { hash } = await changes.preview(studio.id, sessionId, form);
  expect(await changes.confirm(studio.id, studio.owner, sessionId, form, hash)).toBeNull();
}

describe('teaching days in calendars', () => {
  it.each([
    ['ical.js', byIcalJs],
    ['node-ical', byNodeIcal],
  ])('stand at their hours in every feed that has them: %s', async (_name, read) => {
    const { sessionId } = await teachingDay(house, studio, { start: nextDay() });
    const { signUpId, token } = await signUp(house, studio, sessionId);
    const { place } = await viewOf(sessionId);
    const wanted = await placeOf(sessionId, { status: 'CONFIRMED' });
    for (const [url, uid] of [
      [await studentFeed(token), signUpId],
      [publicFeed(), sessionId],
      [await staffFeed('owner'), place.uid],
      [await staffFeed('assistant'), place.uid],
    ] as const)
      expect(read((await fetched(url)).body).get(uid)).toMatchObject(wanted);
    await own().leave(studio.id, token);
    expect(read((await fetched(await studentFeed(token))).body).get(signUpId)).toMatchObject({
      ...wanted,
      status: 'CANCELLED',
    });
  });

  it('tell each what is theirs, and no more', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: nextDay(), gear: [] });
    const { token } = await signUp(house, studio, sessionId, {
      name: 'Ottoline Vane',
      email: 'ottoline@post.example',
      telephone: '01632 960111',
      students: [{ name: 'Ottoline Vane', brings: 'a folding camera' }],
      anything: 'comes by ferry',
    });
    const other = await signUp(house, studio, sessionId, {
      name: 'Bartho Quill',
      email: 'bartho@post.example',
      students: [{ name: 'Bartho Quill' }],
    });
    const [student] = (await house.app.get(TeachingViews).behindLink(studio.id, token)).students;
    await own().tellDetails(studio.id, token, {
      studentId: student?.id,
      access: 'a stool',
      emergencyName: 'Hesper Vane',
      emergencyTelephone: '01632 960999',
    });
    const secrets = [token, other.token, 'Hesper', '960999', 'ferry', 'ottoline@', 'bartho@'];
    const words = [...secrets, 'Ottoline', 'Bartho', 'a stool', '960111', 'folding', '/desk', 'Old clothes'];
    const found = async (url: string) => {
      const { unfolded } = await fetched(url);
      return words.filter((word) => unfolded.includes(word));
    };
    expect(await found(publicFeed())).toEqual([]);
    expect(await found(await studentFeed(token))).toEqual([token, 'Ottoline', 'Old clothes']);
    expect(await found(await studentFeed(other.token))).toEqual([other.token, 'Bartho', 'Old clothes']);
    const staff = ['Ottoline', 'Bartho', 'a stool', 'folding', '/desk'];
    expect(await found(await staffFeed('assistant'))).toEqual(staff);
    expect((await found(await staffFeed('owner'))).sort()).toEqual([...staff, '960111', 'bartho@'].sort());
    expect((await fetched(publicFeed())).unfolded).toContain('4 places of 6 left.');
    expect((await fetched(await studentFeed(token))).unfolded).toContain('10:00 Safety and a demonstration');
  });

  it('are not public while they are drafts, one to one, or another studio’s', async () => {
    const draft = await teachingDay(house, studio, { start: nextDay(), open: false });
    const { signUpId } = await house.app
      .get(SignUpsService)
      .askOneToOne(
        studio.id,
        draft.templateId,
        { ...signUpOf(), day: '2027-05-05' },
        new SystemRandom().id(),
      );
    await requests().approve(studio.id, studio.owner, signUpId, Temporal.PlainDateTime.from(nextDay()));
    const { days: all } = await house.app.get(TeachingViews).all(studio.id);
    const alone = all.find(({ session }) => session.private);
    const uids = [...byIcalJs((await fetched(publicFeed())).body).keys()];
    expect(alone).toBeDefined();
    expect(uids).not.toContain(draft.sessionId);
    expect(uids).not.toContain(alone?.session.id);
    const other = await foundTestStudio(house, { slug: 'curlew-shed', name: 'Curlew Shed' });
    expect((await fetched(`/s/${other.slug}/calendar/teaching-days.ics`)).body).not.toContain('VEVENT');
    expect((await house.app.inject({ url: '/s/nowhere/calendar/teaching-days.ics' })).statusCode).toBe(404);
  });

  it('are shown as cancelled for fourteen days, and then forgotten', async () => {
    const { sessionId } = await teachingDay(house, studio, { start: nextDay() });
    const { signUpId, token } = await signUp(house, studio, sessionId);
    const waiting = await signUp(house, studio, sessionId, {
      students: Array.from({ length: 6 }, (_, n) => ({ name: `N${n}` })),
      orWait: true,
    });
    const feed = await studentFeed(token);
    await sessions().callOff(studio.id, studio.owner, sessionId, 'The roof leaks.');
    const told = async (url: string, uid: string) => byIcalJs((await fetched(url)).body).get(uid)?.status;
    for (let day = 0; day <= 14; day++) {
      expect([day, await told(feed, signUpId), await told(publicFeed(), sessionId)]).toEqual([
        day,
        'CANCELLED',
        'CANCELLED',
      ]);
      house.clock.forward({ hours: 24 });
    }
    expect([await told(feed, signUpId), await told(publicFeed(), sessionId)]).toEqual([undefined, undefined]);
    // whoever only waited never had the day in a calendar
    expect((await house.app.get(TeachingViews).behindLink(studio.id, waiting.token)).feedToken).toBeNull();
  });

  it('have other tags and later revisions after every act, and the same bytes under the same tag', async () => {
    const start = nextDay();
    const { sessionId, templateId } = await teachingDay(house, studio, { start, most: 3, open: false });
    let [first, second] = [
      { signUpId: '', token: '' },
      { signUpId: '', token: '' },
    ];
    const offers = house.app.get(WaitingService);
    const acts: Record<string, () => Promise<unknown>> = {
      'a day is opened': () => sessions().open(studio.id, studio.owner, sessionId),
      'somebody signs up': async () => {
        first = await signUp(house, studio, sessionId, { students: [{ name: 'Ann' }, { name: 'Ben' }] });
      },
      'somebody goes on the list': async () => {
        second = await signUp(house, studio, sessionId, {
          students: [{ name: 'Cid' }, { name: 'Dot' }],
          orWait: true,
        });
      },
      'what would help is told': async () => {
        const { students } = await house.app.get(TeachingViews).behindLink(studio.id, first.token);
        await own().tellDetails(studio.id, first.token, { studentId: students[0]?.id, access: 'a step' });
      },
      'more places are made': () => change(sessionId, { places: 5 }),
      'places are offered': () => requests().offer(studio.id, studio.owner, second.signUpId),
      'the offer lapses when somebody looks at a change': async () => {
        const offer = await house.db.inStudio(studio.id, (tx) => offers.openFor(tx, second.signUpId));
        house.clock.set((offer?.expiresAt ?? house.clock.now()).add({ minutes: 1 }).toString());
        await house.app.get(TeachingChanges).preview(studio.id, sessionId, {
          day: start.slice(0, 10),
          time: '11:00',
          places: 5,
          least: 2,
          decideOn: '2027-03-01',
        });
      },
      'places are offered again': () => requests().offer(studio.id, studio.owner, second.signUpId),
      'the offer is taken': () => own().accept(studio.id, second.token),
      'the day begins an hour later': () => change(sessionId, { time: '11:00' }),
      'the course is another': async () => {
        const { template } = await house.app.get(TeachingViews).template(studio.id, templateId);
        const bring = 'Bread and cheese.';
        await sessions().saveTemplate(studio.id, studio.owner, templateId, { ...template?.course, bring });
        await change(sessionId, { renew: 'yes' });
      },
      'places are given back': () => own().leave(studio.id, second.token),
      'the day is called off': () => sessions().callOff(studio.id, studio.owner, sessionId, ''),
    };
    const staff = [await staffFeed('owner'), await staffFeed('assistant')];
    const seen = new Map<string, { etag: string; body: string; told: Map<string, Told> }>();
    for (const [name, act] of Object.entries(acts)) {
      await act();
      const theirs = first.token === '' ? [] : [await studentFeed(first.token)];
      for (const url of [...staff, publicFeed(), ...theirs]) {
        const { etag, body } = await fetched(url);
        const told = byIcalJs(body);
        const before = seen.get(url);
        if (before) {
          expect([name, before.etag === etag]).toEqual([name, false]);
          for (const [uid, one] of told) {
            const old = before.told.get(uid);
            if (!old || entryOf(body, uid) === entryOf(before.body, uid)) continue;
            // what reads otherwise has a higher sequence and a later revision
            expect([name, Number(one.sequence) > Number(old.sequence)]).toEqual([name, true]);
            expect([name, one.revised > old.revised]).toEqual([name, true]);
          }
        }
        seen.set(url, { etag, body, told });
        house.clock.forward({ seconds: 7 });
        expect(await fetched(url)).toMatchObject({ etag, body });
      }
      house.clock.forward({ minutes: 1 });
    }
    expect(seen.size).toBe(4);
    const { counter } = await house.db.inStudio(studio.id, async (tx) => ({
      counter: (await house.app.get(StudiosService).load(tx)).calendarCounter,
    }));
    expect(counter).toBeGreaterThan(BigInt(Object.keys(acts).length));
  });
});

/** The lines of one event. */
const entryOf = (text: string, uid: string): string =>
  text
    .replace(/\r\n /g, '')
    .split('BEGIN:VEVENT')
    .find((part) => part.includes(`UID:${uid}`)) ?? '';
