// The desk's pages but that of one request: props in, markup out.
import { Temporal } from 'temporal-polyfill';
import type { FeedLink } from '../../src/calendar/feeds.service.js';
import { CalendarPage } from '../../src/desk/calendar.pages.js';
import { AssistantPage, FrontPage } from '../../src/desk/front.pages.js';
import type { WaitingRequest } from '../../src/desk/glance.calc.js';
import { type InboxFacts, inboxOf } from '../../src/desk/inbox.calc.js';
import type { Front } from '../../src/desk/inbox.service.js';
import { LetterPage, type Mail, MailPage } from '../../src/desk/mail.pages.js';
import type { DueTask } from '../../src/stock/due.calc.js';
import { ENOUGH, type Outlook } from '../../src/stock/outlook.calc.js';
import { confirmed, day, html, reason, slot, text, view, visitOf } from '../support/desk-props.js';

const BASE = '/s/sandpiper-loft/desk';
const visit = visitOf('owner');
const noted = Temporal.Instant.from('2026-11-25T10:00:00Z');
const NOTHING: InboxFacts = {
  ...{ now: noted, today: day('2026-11-25'), telephone: [], offers: [], freed: [], requests: [], toMove: [] },
  ...{
    erasures: [],
    wishes: [],
    teachingCalls: [],
    teaching: { asked: [], toOffer: [], toMove: [], due: [] },
  },
  ...{ untold: [], owed: [], due: [], parked: [], unread: [], tasks: [] },
};
const front = (facts: Partial<InboxFacts> = {}, change: Partial<Front> = {}): Front => ({
  inbox: inboxOf({ ...NOTHING, ...facts }),
  ...{
    glances: new Map(),
    next: [],
    outlooks: new Map(),
    noBath: new Map(),
    plates: { sittings: 0, steps: 0, late: 0, lateSittings: 0 },
  },
  ...change,
});
const glances = (change: Partial<WaitingRequest> = {}) => {
  const best = { slot: slot('2027-05-14T11:15'), stock: ENOUGH };
  return new Map([[view().sitting.id, { view: view(), limit: 20, open: 9, best, ...change }]]);
};
const due = (change: Partial<DueTask> = {}): DueTask => ({
  key: 'i-mix',
  by: day('2026-11-27'),
  what: 'Mix Iodised collodion: 341 mL',
  why: 'For Friday 4 December 2026.',
  path: '/shelf/mixing',
  ...change,
});

describe('the owner’s front page', () => {
  it('tells of each request at a glance who, what, when and the best place', () => {
    const page = text(
      FrontPage({ stepsLeft: 0, visit, front: front({ requests: [view()] }, { glances: glances() }) }),
    );
    expect(page).toContain('1 to decide today · 0 to do this week · nobody comes next');
    expect(page).toContain(
      'Linnea Harrow one person on one plate: Whole plate; any day, 1 May to 31 May 2027; asked on Wednesday 25 November',
    );
    expect(page).toContain(
      'Friday 14 May 2027, 11:15 (of 9 open) · hold still 6 to 9 s, up to 36 s if dull · enough · 67 km, there and back in a day',
    );
  });

  it('says so when nothing is open, nobody waits and nothing is wanted', () => {
    const closed = glances({ open: 0, best: null });
    const one = text(
      FrontPage({ stepsLeft: 0, visit, front: front({ requests: [view()] }, { glances: closed }) }),
    );
    expect(one).toContain('No place is open on these days · 67 km');
    const none = text(FrontPage({ stepsLeft: 0, visit, front: front() }));
    expect(none).toContain('Nothing waits for a decision.');
    expect(none).toContain('No sitting is confirmed yet.');
    expect(none).toContain('Nothing: what is needed is on the shelf');
  });

  it('shows three of a kind, and leads to the others', () => {
    const requests = Array.from({ length: 5 }, () => view());
    const page = html(FrontPage({ stepsLeft: 0, visit, front: front({ requests }) }));
    expect(page.match(/>Linnea Harrow</g)).toHaveLength(3);
    expect(page).toContain(`href="${BASE}/requests">2 more: waiting for your answer`);
    const untold = Array.from({ length: 5 }, () => confirmed('2026-11-20T11:15'));
    expect(html(FrontPage({ stepsLeft: 0, visit, front: front({ untold }) }))).toMatch(
      /<details><summary>2 more<\/summary>/,
    );
  });

  it('leads from each line to its act', () => {
    const untold = [confirmed('2026-11-20T11:15')];
    const toMove = [{ view: confirmed('2027-05-14T11:15'), reason: 'closed' as const }];
    const page = html(FrontPage({ stepsLeft: 0, visit, front: front({ untold, toMove, due: [due()] }) }));
    const id = view().sitting.id;
    expect(page).toContain(`href="${BASE}/days/2026-11-20#sitting-${id}"`);
    expect(page).toContain(`href="${BASE}/move?from=2027-05-14"`);
    expect(page).toContain(`href="${BASE}/shelf/mixing"`);
  });

  it('tells what is to be done by when, and what cannot be had', () => {
    const short = due({
      key: 'i-short',
      alarm: true,
      what: 'Ether: 40 mL cannot be had in time',
      why: 'Why.',
    });
    const page = text(FrontPage({ stepsLeft: 0, visit, front: front({ due: [short, due()] }) }));
    expect(page).toContain('1 to decide today · 1 to do this week');
    expect(page).toContain('Ether: 40 mL cannot be had in time not ready . Why.');
    expect(page).toContain(
      'Mix Iodised collodion: 341 mL by Friday 27 November. For Friday 4 December 2026.',
    );
  });

  it('keeps the four next sittings in sight and folds the later ones away', () => {
    const next = Array.from({ length: 6 }, () => confirmed('2027-05-14T11:15'));
    const page = html(FrontPage({ stepsLeft: 0, visit, front: front({}, { next }) }));
    const [shown = '', folded = ''] = page.split('<details>');
    expect(shown.match(/11:15 to 12:30/g)).toHaveLength(4);
    expect(folded.match(/11:15 to 12:30/g)).toHaveLength(2);
    expect(folded).toContain('2 later');
  });

  it('tells of each sitting to come how the shelf stands, and why', () => {
    const by = day('2027-05-07');
    const soon = reason({ item: 'Ether', state: 'order by', action: 'order', by, into: 'Collodion' });
    const far = reason({ item: 'Fixer', state: 'nothing to do yet', action: 'mix', by: day('2027-08-07') });
    const next = [confirmed('2027-05-14T11:15')];
    const shown = (outlook: Outlook) =>
      text(
        FrontPage({
          stepsLeft: 0,
          visit,
          front: front({}, { next, outlooks: new Map([[next[0]!.sitting.id, outlook]]) }),
        }),
      );
    expect(shown({ state: 'order by', by, reasons: [soon, far] })).toContain(
      'order by Friday 7 May (Ether: order by Friday 7 May, for Collodion)',
    );
    const quiet = shown({ state: 'nothing to do yet', by: far.by, reasons: [far] });
    expect(quiet).toContain('nothing to do yet');
    expect(quiet).not.toContain('Fixer');
    expect(text(FrontPage({ stepsLeft: 0, visit, front: front({}, { next }) }))).toContain(
      'one plate: Whole plate enough',
    );
  });

  it('shows an assistant who comes and what is theirs to do, and neither notes nor ways to decide', () => {
    const next = [{ ...confirmed('2027-05-14T11:15') }];
    next[0]!.sitting.anything = 'a private note';
    const page = html(
      AssistantPage({ visit: visitOf('assistant'), front: front({ due: [due()] }, { next }) }),
    );
    expect(page).toContain('Friday 14 May 2027');
    expect(page).toContain('Linnea Harrow');
    expect(page).toContain('Mix Iodised collodion: 341 mL');
    expect(page).not.toMatch(/a private note|linnea@post|desk\/(requests|mail|calendar|telephone|move)/);
  });
});

describe('the mail', () => {
  const mail = {
    mail_id: '22222222-2222-4222-8222-222222222222',
    about_id: '11111111-1111-4111-8111-111111111111',
    kind: 'asked',
    recipient: 'linnea@post.example',
    recipient_name: 'Linnea Harrow',
    state: 'sent',
    attempts: 1,
    last_error: '',
    created_at: Temporal.Instant.from('2026-11-25T10:00:00Z'),
    sent_at: Temporal.Instant.from('2026-11-25T10:01:00Z'),
  } as Mail;
  const letter = {
    language: 'en' as const,
    subject: 'Your request',
    greeting: 'Dear Linnea Harrow,',
    paragraphs: ['Thank you.'],
    facts: [{ term: 'Day', detail: 'Friday' }],
    action: { label: 'Your page', url: 'http://localhost/s/x/place/secret-token' },
    closing: 'Sandpiper Loft\nRopewalk',
  };

  it('is counted by how it went, and each letter says so', () => {
    const mails = [
      mail,
      { ...mail, state: 'parked' } as Mail,
      { ...mail, state: 'waiting', attempts: 0 } as Mail,
      { ...mail, state: 'waiting', attempts: 2 } as Mail,
    ];
    const page = text(MailPage({ visit, mails, most: 200 }));
    expect(page).toContain('1 sent, 2 waiting, 1 not sent.');
    for (const words of ['refused by the mail server', 'waits to be sent', 'did not go; it is tried again'])
      expect(page).toContain(words);
    expect(text(MailPage({ visit, mails, most: 4 }))).toContain('of the newest 4');
  });

  it('shows a letter as it reads, with how often it was tried and what was answered', () => {
    const refused = { ...mail, state: 'parked', attempts: 3, last_error: '550 no such <person>' } as Mail;
    const page = html(LetterPage({ visit, mail: refused, letter }));
    expect(page).toContain('550 no such &lt;person>');
    expect(page).toContain('Dear Linnea Harrow,');
    expect(page).toContain('<a href="http://localhost/s/x/place/secret-token">Your page</a>');
    expect(page).toContain(`${BASE}/requests/${mail.about_id}`);
  });

  it('keeps the address of a sign-in link to itself', () => {
    const signIn = { ...mail, kind: 'sign-in' } as Mail;
    const page = html(
      LetterPage({
        visit,
        mail: signIn,
        letter: { ...letter, action: { ...letter.action, label: 'Sign in' } },
      }),
    );
    expect(page).toContain('Sign in (the address is for Linnea Harrow alone)');
    expect(page).not.toContain('secret-token');
    expect(text(LetterPage({ visit, mail: signIn, letter: null }))).toContain(
      'Its link has run out or was used.',
    );
  });
});

describe('the calendar link', () => {
  const publicUrl = 'https://studio.example/s/x/calendar/teaching-days.ics';
  const link = (url: string): FeedLink => ({
    id: '0190a1b2-0000-7000-8000-00000000000f',
    kind: 'owner',
    name: '',
    url,
    fetchedAt: null,
    fetchedBy: '',
  });

  it('is given for phones and as an address to copy', () => {
    const page = html(
      CalendarPage({
        visit,
        links: [link('https://studio.example/s/x/calendar/abc.ics')],
        publicUrl,
      }),
    );
    expect(page).toContain('href="webcal://studio.example/s/x/calendar/abc.ics"');
    expect(page).toContain('value="https://studio.example/s/x/calendar/abc.ics"');
    expect(page).not.toContain('this computer alone');
  });

  it('says when no other device can reach it', () => {
    expect(
      html(
        CalendarPage({
          visit,
          links: [],
          publicUrl: 'http://localhost:4180/s/x/calendar/teaching-days.ics',
        }),
      ),
    ).toContain('this computer alone');
  });

  it('can be made where there is none', () => {
    const page = html(CalendarPage({ visit, links: [], publicUrl }));
    expect(page).toContain(`<form class="form" action="${BASE}/calendar" method="post"`);
    expect(page).toContain('value="token-of-the-form"');
  });
});
