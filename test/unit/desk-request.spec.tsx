// The desk's page of one request; how it is reached and answered stands in test/http/desk.spec.ts.
import { Temporal } from 'temporal-polyfill';
import type { WholeRequest } from '../../src/desk/desk.service.js';
import { RequestPage } from '../../src/desk/request.pages.js';
import type { Outlook } from '../../src/stock/outlook.calc.js';
import type { Item } from '../../src/stock/stock.schemas.js';
import { choice, confirmed, day, html, reason, slot, text, view, visitOf } from '../support/desk-props.js';

const visit = visitOf('owner');
const found = (change: Partial<WholeRequest> = {}): WholeRequest => ({
  view: view(),
  history: [],
  choices: [],
  setAside: [],
  outlook: null,
  noBath: null,
  shut: null,
  theirPage: null,
  limit: 20,
  offer: null,
  lastAct: null,
  now: Temporal.Instant.from('2026-11-25T10:00:00Z'),
  ...change,
});

describe('the page of one request', () => {
  it('tells everything asked, in the lines it was typed in, with markup made harmless', () => {
    const told = view({ sitting: { hopes: 'One <b>plate</b>\nfor my mother', anything: 'I cannot climb' } });
    const page = html(RequestPage({ visit, found: found({ view: told }) }));
    expect(page).toContain('<div>One &lt;b>plate&lt;/b></div><div>for my mother</div>');
    expect(page).toContain('I cannot climb');
    expect(page).toContain('href="mailto:linnea@post.example"');
    expect(page).toContain('Places: GeoNames, CC BY 4.0');
  });

  it('puts the way to reach them first that they asked for', () => {
    const contact = { reachBy: 'telephone', telephone: '01632 (960) 188', email: 'x@post.example' } as const;
    const page = html(RequestPage({ visit, found: found({ view: view({ contact }) }) }));
    expect(page).toContain('Linnea Harrow, by telephone');
    expect(page).toContain('href="tel:01632960188"');
    expect(page.indexOf('tel:')).toBeLessThan(page.indexOf('mailto:'));
  });

  it('gives each open place as a choice with its light, and tells why the others are not', () => {
    const slots = [
      slot('2027-05-14T09:30', 'room taken'),
      slot('2027-05-14T11:15'),
      slot('2027-05-14T13:00', 'day full'),
    ];
    const page = RequestPage({ visit, found: found({ choices: [choice('2027-05-14', slots)] }) });
    expect(html(page).match(/type="radio"/g)).toHaveLength(1);
    expect(html(page)).toContain('value="2027-05-14T11:15"');
    expect(text(page)).toContain('11:15 to 12:30 The room is free; hold still 6 to 9 s, up to 36 s if dull');
    expect(text(page)).toContain('Not open: 09:30, the room is taken in that time; 13:00, the day is full.');
  });

  it('tells how the shelf stands for the day and why, and offers no place it cannot provide for', () => {
    const by = day('2027-05-07');
    const mixBy: Outlook = {
      state: 'mix by',
      by,
      reasons: [reason({ item: 'Collodion', state: 'mix by', action: 'mix', by })],
    };
    const never: Outlook = {
      state: 'cannot be had',
      by: null,
      reasons: [
        reason({ item: 'Ether', state: 'cannot be had', action: 'order', by: null, why: 'too late' }),
      ],
    };
    const choices = [
      choice('2027-05-14', [slot('2027-05-14T11:15')], mixBy),
      choice('2027-05-21', [slot('2027-05-21T11:15')], never),
    ];
    const page = RequestPage({ visit, found: found({ choices }) });
    expect(text(page)).toContain('mix by Friday 7 May (Collodion: mix by Friday 7 May)');
    expect(text(page)).toContain('Friday 21 May: none. 11:15, the shelf cannot provide Ether.');
    expect(html(page).match(/type="radio"/g)).toHaveLength(1);
  });

  it('opens months until a dozen places are in sight, and the month of what was chosen', () => {
    const month = (number: string) =>
      ['07', '14', '21', '28'].map((date) =>
        choice(
          `2027-${number}-${date}`,
          ['09:30', '11:15', '13:00'].map((time) => slot(`2027-${number}-${date}T${time}`)),
        ),
      );
    const choices = ['05', '06', '07', '08'].flatMap(month);
    const open = (values: Record<string, string>) =>
      [
        ...html(RequestPage({ visit, found: found({ choices }), values })).matchAll(
          /<details( open)?>[^<]*<summary>(May|June|July|August)/g,
        ),
      ].map(([, isOpen, name]) => `${name}${isOpen ?? ''}`);
    expect(open({})).toEqual(['May open', 'June', 'July', 'August']);
    expect(open({ start: '2027-08-14T11:15' })).toEqual(['May open', 'June', 'July', 'August open']);
    const again = html(
      RequestPage({ visit, found: found({ choices }), values: { start: '2027-08-14T11:15' } }),
    );
    expect(
      again.match(/<input[^>]*name="start"[^>]* checked|<input[^>]* checked[^>]*name="start"/g),
    ).toHaveLength(1);
    expect(again).toMatch(
      /<input[^>]*value="2027-08-14T11:15"[^>]* checked|<input[^>]* checked[^>]*value="2027-08-14T11:15"/,
    );
  });

  it('keeps what was typed, tells the mistake beside the field, and leads to the first place', () => {
    const choices = [choice('2027-05-14', [slot('2027-05-14T09:30', 'day full'), slot('2027-05-14T11:15')])];
    const errors = [{ field: 'start', message: 'Please choose one of the places.' }];
    const page = html(
      RequestPage({ visit, found: found({ choices }), errors, values: { message: 'Not <this> year' } }),
    );
    expect(page).toContain('<title>Error: Linnea Harrow');
    expect(page).toContain('<a href="#f-start">Please choose one of the places.</a>');
    expect(page).toMatch(
      /<input[^>]* id="f-start" type="radio"[^>]*value="2027-05-14T11:15"|id="f-start"[^>]*value="2027-05-14T11:15"/,
    );
    expect(page).toContain('id="f-start-error"');
    expect(page).toMatch(/<textarea[^>]*>Not &lt;this> year<\/textarea>/);
  });

  it('has every id once and no style of its own, so that labels and the policy for content hold', () => {
    const slots = ['09:30', '11:15', '13:00'].map((time) => slot(`2027-05-14T${time}`));
    const later = ['09:30', '11:15'].map((time) => slot(`2027-06-11T${time}`));
    const page = html(
      RequestPage({
        visit,
        found: found({ choices: [choice('2027-05-14', slots), choice('2027-06-11', later)] }),
      }),
    );
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(10);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of page.matchAll(/ (?:for|aria-describedby)="([^"]+)"/g))
      for (const id of (target ?? '').split(' ')) expect(ids).toContain(id);
    expect(page).not.toContain(' style=');
  });

  it('asks for no decision once it is answered, and tells the place and what is set aside', () => {
    const collodion = { name: 'Iodised collodion', unit: 'uL', ripenDays: 7 } as Item;
    const glass = { name: 'Clear glass', unit: 'sheet', ripenDays: null } as Item;
    const rest = {
      neededOn: day('2027-05-14'),
      class: 'any' as const,
      chosenLotId: null,
      couldGive: [{ lotId: 'fresh', label: 'Fresh bottle' }],
    };
    const setAside = [
      { item: collodion, quantity: 11_100n, lotId: 'fresh', lotLabel: 'Fresh bottle', ...rest },
      { item: collodion, quantity: 2_000n, lotId: null, lotLabel: null, ...rest },
      { item: glass, quantity: 1n, lotId: null, lotLabel: null, ...rest },
    ];
    const page = RequestPage({
      visit,
      found: found({ view: confirmed('2027-05-14T11:15'), choices: null, setAside }),
    });
    expect(text(page)).toContain('Confirmed for Friday 14 May 2027, 11:15.');
    expect(text(page)).toContain(
      'Clear glass 1 sheet to be ordered Fresh bottle for Clear glass Iodised collodion 11.1 mL Fresh bottle',
    );
    expect(text(page)).toContain('Iodised collodion 2 mL to be mixed');
    expect(html(page)).not.toMatch(/approve|decline/i);
  });

  it('tells what happened by the studio’s clock', () => {
    const at = Temporal.Instant.from('2027-05-03T09:00:00Z');
    const history = [{ at, who: 'contact', event: 'ask', note: '' }];
    expect(text(RequestPage({ visit, found: found({ history }) }))).toContain(
      'Monday 3 May 2027, 10:00: Linnea Harrow asked for a sitting',
    );
  });
});
