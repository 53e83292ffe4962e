// Every page of the program, each in the states that look different: what the browser tests look at.
// A new GET route needs a row here or in NO_PAGES; a test compares both with the program's own routes.
import type { Page } from 'playwright-core';
import { CALENDAR_PAGES } from './calendar-pages.js';
import { ASK_PAGES } from './ask-pages.js';
import { DAY_PAGES } from './day-pages.js';
import { FORMULA_PAGES } from './formula-pages.js';
import { INBOX_PAGES } from './inbox-pages.js';
import { MOVE_PAGES } from './move-pages.js';
import { PLAN_PAGES } from './plan-pages.js';
import { REQUEST_PAGES } from './request-pages.js';
import { SHELF_PAGES } from './shelf-pages.js';
import { TEACHING_PAGES, type TeachingPlaces } from './teaching-pages.js';
import { TURNS_PAGES } from './turns-pages.js';

export interface PageState {
  /** The GET route of the page; null for answers that any route may give. */
  route: string | null;
  /** What sets this state of the page apart. */
  is: string;
  as: 'visitor' | 'owner' | 'assistant';
  path: (at: Places) => string;
  /** What is done on the page before it is looked at. */
  act?: (page: Page) => Promise<void>;
  /** The page tells of mistakes in a form. */
  wrong?: true;
}

/** Where things are in the house that `fillHouse` has filled: paths. */
export interface Places extends TeachingPlaces {
  /** Of the studio where people ask and sit. */
  home: string;
  /** Of a studio where nothing has happened yet. */
  empty: string;
  signInLink: string;
  joinLink: string;
  waiting: Told;
  /** On the waiting list, and with an open offer. */
  listed: Told;
  offered: Told;
  confirmed: Told;
  declined: Told;
  /** Of the collodion: the item, its bottle. A bath with a ledger; the entry about another that is suspect. */
  item: string;
  bottle: string;
  bath: string;
  fault: string;
  /** Of a sitting whose day is past and of which nobody told how it ended, on the sheet of its day. */
  untold: string;
  /** An outside calendar that could not be read. */
  outside: string;
  /** A draft of a diary, of which one line wants another look. */
  bringIn: string;
  /** A plan that is to be decided, with somebody left out, and one that was confirmed. */
  plan: string;
  planDone: string;
  /** A collodion and the cyanide fixer of the library, taken into the studio. */
  formula: string;
  cyanide: string;
}

export interface Told {
  /** The page of whoever asked, and the owner's page about it. */
  own: string;
  request: string;
}

/** What answers GET and is no page. The API is none either. */
export const NO_PAGES = [
  '/set-up/:token', // only where there is no studio yet: see test/browser/first-evening.spec.ts
  '/s/:slug/desk/settings/copies/:name',
  '/healthz',
  '/s/:slug/calendar/:file',
  '/s/:slug/desk/plates/hand-over/:id/list.csv',
];

/** As when the browser was closed in between: the cookie that goes with the form is gone. */
async function tooLate(page: Page, button: string): Promise<void> {
  await page.context().clearCookies({ name: 'plateday-form' });
  await press(button)(page);
}

const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();

/** Half of the pages, which another worker looks at. */
export const IS_OF_THE_BENCH = ({ route }: PageState): boolean =>
  /^\/s\/:slug\/desk\/(shelf|prepare|teaching|plates|owed|vouchers|settings|mail|calendar)/.test(route ?? '');

export const PAGE_STATES: PageState[] = [
  { route: '/', is: 'where several studios are', as: 'visitor', path: () => '/' },
  { route: '/problems', is: 'for programmers', as: 'visitor', path: () => '/problems' },
  { route: '/daylight', is: 'not filled yet', as: 'visitor', path: () => '/daylight' },
  {
    route: '/daylight',
    is: 'with the light of a day',
    as: 'visitor',
    path: () => '/daylight',
    act: askForLight,
  },
  {
    route: '/daylight',
    is: 'sent empty',
    as: 'visitor',
    path: () => '/daylight',
    act: press('Show the light'),
    wrong: true,
  },
  { route: '/chemistry', is: 'not filled yet', as: 'visitor', path: () => '/chemistry' },
  {
    route: '/chemistry',
    is: 'with what plates need',
    as: 'visitor',
    path: () =>
      '/chemistry?size-1=whole&keepers-1=3&size-2=own&width-2=120&height-2=160&keepers-2=2&madeBy=beginners&formula-collodion=collodion-cooley&formula-fixer=fixer-cyanide-schriever',
  },
  {
    route: '/chemistry',
    is: 'sent empty',
    as: 'visitor',
    path: () => '/chemistry',
    act: press('Reckon'),
    wrong: true,
  },
  { route: '/chemistry/bath', is: 'not filled yet', as: 'visitor', path: () => '/chemistry/bath' },
  {
    route: '/chemistry/bath',
    is: 'with a strength and what is to be added',
    as: 'visitor',
    path: () =>
      '/chemistry/bath?density=1.0706&celsius=18&volume=1900&full=2000&target=90&least=70&size=whole',
  },
  {
    route: '/chemistry/bath',
    is: 'sent empty',
    as: 'visitor',
    path: () => '/chemistry/bath',
    act: press('Reckon'),
    wrong: true,
  },
  { route: '/s/:slug', is: 'for a visitor', as: 'visitor', path: ({ home }) => home },
  { route: '/s/:slug', is: 'for the owner, with no place open', as: 'owner', path: ({ empty }) => empty },
  ...ASK_PAGES,
  {
    route: '/s/:slug/place/:token',
    is: 'of a request just sent',
    as: 'visitor',
    path: ({ waiting }) => `${waiting.own}?done=asked`,
  },
  {
    route: '/s/:slug/place/:token',
    is: 'of a confirmed place',
    as: 'visitor',
    path: ({ confirmed }) => confirmed.own,
    act: unfold,
  },
  {
    route: '/s/:slug/place/:token',
    is: 'of a declined request',
    as: 'visitor',
    path: ({ declined }) => declined.own,
  },
  ...(['listed', 'offered'] as const).map((which) => ({
    route: '/s/:slug/place/:token',
    is: which === 'listed' ? 'of somebody on the waiting list' : 'of somebody who is offered a place',
    as: 'visitor' as const,
    path: (at: Places) => at[which].own,
    act: (page: Page) => unfold(page),
  })),
  {
    route: '/s/:slug/desk/waiting',
    is: 'with somebody listed, an open offer, and a place that came free',
    as: 'owner',
    path: ({ home }) => `${home}/desk/waiting?done=listed`,
  },
  { route: '/s/:slug/desk/waiting', is: 'empty', as: 'owner', path: ({ empty }) => `${empty}/desk/waiting` },
  ...PLAN_PAGES,
  ...MOVE_PAGES,
  {
    route: '/s/:slug/desk/waiting/rules',
    is: 'with a figure that is none',
    as: 'owner',
    path: ({ home }) => `${home}/desk/waiting/rules`,
    act: async (page) => {
      await page.getByLabel('Hardship').fill('many');
      await press('Show the new order')(page);
    },
    wrong: true,
  },
  {
    route: '/s/:slug/desk/waiting/rules',
    is: 'with the new order before it is saved',
    as: 'owner',
    path: ({ home }) => `${home}/desk/waiting/rules`,
    act: press('Show the new order'),
  },
  ...(['listed', 'offered'] as const).map((which) => ({
    route: '/s/:slug/desk/requests/:id',
    is: which === 'listed' ? 'on the waiting list' : 'with an open offer',
    as: 'owner' as const,
    path: (at: Places) => at[which].request,
    act: (page: Page) => unfold(page),
  })),
  {
    route: '/s/:slug/sign-in',
    is: 'sent empty',
    as: 'visitor',
    path: ({ home }) => `${home}/sign-in`,
    act: press('Sign in'),
    wrong: true,
  },
  {
    route: '/s/:slug/sign-in',
    is: 'with a link mailed',
    as: 'visitor',
    path: ({ home }) => `${home}/sign-in`,
    act: askForLink,
  },
  {
    route: '/s/:slug/sign-in/:token',
    is: 'behind a mailed link',
    as: 'visitor',
    path: ({ signInLink }) => signInLink,
  },
  { route: '/s/:slug/desk', is: 'of the owner', as: 'owner', path: ({ home }) => `${home}/desk` },
  { route: '/s/:slug/desk', is: 'of the assistant', as: 'assistant', path: ({ home }) => `${home}/desk` },
  { route: '/s/:slug/desk', is: 'with nothing on it', as: 'owner', path: ({ empty }) => `${empty}/desk` },
  ...INBOX_PAGES,
  ...REQUEST_PAGES,
  ...SHELF_PAGES,
  { route: '/s/:slug/desk/mail', is: 'with letters', as: 'owner', path: ({ home }) => `${home}/desk/mail` },
  { route: '/s/:slug/desk/mail', is: 'with none', as: 'owner', path: ({ empty }) => `${empty}/desk/mail` },
  {
    route: '/s/:slug/desk/mail/:id',
    is: 'of a given place',
    as: 'owner',
    path: ({ home }) => `${home}/desk/mail`,
    act: (page) => page.getByRole('link', { name: 'You have a place' }).first().click(),
  },
  {
    route: '/s/:slug/desk/calendar',
    is: 'with a link',
    as: 'owner',
    path: ({ home }) => `${home}/desk/calendar`,
  },
  ...CALENDAR_PAGES,
  {
    route: '/s/:slug/desk/requests/:id',
    is: 'sent without a choice',
    as: 'owner',
    path: ({ waiting }) => waiting.request,
    act: press('Give this place'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/requests/:id',
    is: 'of a confirmed place',
    as: 'owner',
    path: ({ confirmed }) => confirmed.request,
  },
  {
    route: '/s/:slug/desk/requests/:id',
    is: 'of a declined request',
    as: 'owner',
    path: ({ declined }) => declined.request,
  },
  {
    route: '/s/:slug/desk/light',
    is: 'of twelve months',
    as: 'owner',
    path: ({ home }) => `${home}/desk/light`,
  },
  {
    route: '/s/:slug/desk/light/:when',
    is: 'of a month',
    as: 'owner',
    path: ({ home }) => `${home}/desk/light/2026-12`,
  },
  {
    route: '/s/:slug/desk/light/:when',
    is: 'of a day',
    as: 'owner',
    path: ({ home }) => `${home}/desk/light/2026-12-04`,
  },
  {
    route: '/s/:slug/desk/light/notes',
    is: 'sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/light/notes`,
    act: press('Note this plate'),
    wrong: true,
  },
  ...FORMULA_PAGES,
  ...DAY_PAGES,
  ...TEACHING_PAGES,
  ...TURNS_PAGES,
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: '/s/:slug/desk/prepare',
    is: `with tasks, for the ${as}`,
    as,
    path: ({ home }: Places) => `${home}/desk/prepare`,
  })),
  {
    route: '/s/:slug/desk/prepare/rules',
    is: 'with a new one sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/prepare/rules?form=new`,
    act: press('Add this rule'),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/settings',
    is: 'in short',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings`,
  },
  ...['rhythm', 'kinds', 'people', 'light'].map((section) => ({
    route: '/s/:slug/desk/settings/:section',
    is: `for ${section}`,
    as: 'owner' as const,
    path: ({ home }: Places) => `${home}/desk/settings/${section}`,
  })),
  {
    route: '/s/:slug/desk/settings/:section',
    is: 'for a closure that was sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/closures`,
    act: (page) => page.getByRole('button', { name: 'See what this changes' }).first().click(),
    wrong: true,
  },
  {
    route: '/s/:slug/desk/settings/:section',
    is: 'for a closure, seen before it is made',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/closures`,
    act: closeTheRoom,
  },
  {
    route: null,
    is: 'for a link that is not known',
    as: 'visitor',
    path: ({ home }) => `${home}/place/nothing`,
  },
  {
    route: null,
    is: 'for a form that had been open for too long',
    as: 'owner',
    path: ({ waiting }) => waiting.request,
    act: (page) => tooLate(page, 'Decline this request'),
  },
  { route: null, is: 'for a visitor at the desk', as: 'visitor', path: ({ home }) => `${home}/desk` },
  {
    route: null,
    is: 'for the assistant at the mail',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/mail`,
  },
];

/** Opens whatever is folded away. */
async function unfold(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true;
  });
}

async function askForLink(page: Page): Promise<void> {
  await page.getByLabel('E-mail address').fill('nobody@sandpiper-loft.example');
  await press('Mail me a link instead')(page);
}

async function askForLight(page: Page): Promise<void> {
  await page.getByRole('combobox', { name: 'Place' }).fill('Whitby, United Kingdom');
  await press('Show the light')(page);
}

/** Sees what a closure of the first weeks would change; the place that is given then is among them. */
async function closeTheRoom(page: Page): Promise<void> {
  const fill = async (name: string, day: string) => {
    const date = page.getByRole('group', { name }).first();
    await date.getByLabel('Day').fill(day);
    await date.getByLabel('Month').fill('12');
    await date.getByLabel('Year').fill('2026');
  };
  await fill('First day', '1');
  await fill('Last day', '20');
  await page.getByRole('button', { name: 'See what this changes' }).first().click();
}
