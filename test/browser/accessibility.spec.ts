// Every page of the program in the eyes of people who see, hear, point or type otherwise: axe, on a phone and
// on a desk, by day and in the dark; narrow windows, large text, targets, and the keyboard alone.
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { DESK, PHONE, signInAt, startBrowser } from '../support/browser.js';
import { NO_PAGES, PAGE_STATES, type PageState, type Places } from '../support/every-page.js';
import { fillHouse } from '../support/fill-house.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { cutTexts, overflow, smallTargets, summaryFaults, walkWithTab } from '../support/looking.js';
import { routesOf } from '../support/routes.js';
import { PASSWORD } from '../support/studio.js';

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
/** What can differ between day and dark, where the style sheet changes colours and nothing else. */
const COLOUR_RULES = ['color-contrast', 'link-in-text-block'];
const MODES = [PHONE, DESK].flatMap((window) =>
  (['light', 'dark'] as const).map((colorScheme) => ({ window, colorScheme })),
);

/** What axe leaves undecided, by rule and element, and what we found when we looked ourselves. */
const JUDGED: Record<string, string> = {
  'color-contrast: .bath-chart text':
    'Grams stand left of and plates below the drawing, in the same grey as hours elsewhere.',
  'color-contrast: .bottles > li > a':
    'The names stand left of the amounts in the colours of all links, and nothing lies over them.',
  'color-contrast: .label-drawing text': 'Black letters on white paper, and nothing lies over them.',
  'color-contrast: .light-bar text': 'The hours stand below all that is drawn, in the grey of small print.',
  'color-contrast: .light-chart text':
    'Months and hours stand beside and above the drawing, in the same grey.',
  'color-contrast: .rota-chart text':
    'Names and hours stand above and left of the drawing; the number of a turn is paper on ink, as all inked things.',
  'color-contrast: .stock-chart text':
    'Months and amounts stand below and left of the drawing, in the same grey.',
  'color-contrast: .sun-curve text':
    'Degrees and hours stand left of and below the drawing, in the same grey.',
};

/** Which of the lines it is says nothing. */
const LINE_OF_BOTTLES = /^.*\.bottles > li:nth-child\(\d+\) > a$/;

let house: TestHouse;
let browser: Browser;
let base: string;
let places: Places;
const pages = {} as Record<PageState['as'], Page>;
const undecided = new Set<string>();

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse(), startBrowser()]);
  base = await house.listen();
  const filled = await fillHouse(house);
  ({ places } = filled);
  for (const as of ['visitor', 'owner', 'assistant'] as const) {
    const context = await browser.newContext({ viewport: DESK, reducedMotion: 'reduce' });
    context.setDefaultTimeout(10_000);
    pages[as] = await context.newPage();
    if (as === 'visitor') continue;
    await signInAt(pages[as], base + places.home, filled.studio[as].email, PASSWORD);
    if (as === 'owner') await signInAt(pages[as], base + places.empty, filled.empty.owner.email, PASSWORD);
  }
}, 120_000);

afterAll(async () => {
  await browser.close();
  await house.close();
});

it('looks at every page there is', () => {
  const routes = routesOf(house).filter(({ method, path }) => method === 'GET' && !path.startsWith('/api/'));
  const shown = PAGE_STATES.flatMap(({ route }) => route ?? []);
  expect(routes.map(({ path }) => path).sort()).toEqual([...new Set([...shown, ...NO_PAGES])].sort());
});

it.each(PAGE_STATES)('$route $is: can be read, reached and used by everyone', async (state) => {
  const page = await open(state);
  const faults: string[] = state.wrong ? await summaryFaults(page) : [];
  const found = (where: string, what: string[]) => faults.push(...what.map((one) => `${where}: ${one}`));
  const words = (await page.locator('main').textContent()) ?? '';
  found('a date as only programs write it', words.match(/\b\d{4}-\d{2}-\d{2}\b/g) ?? []);
  const walk = await walkWithTab(page);
  found('not reached with the Tab key', walk.missed);
  found('focus not to be seen', walk.hidden);
  for (const { window, colorScheme } of MODES) {
    await page.setViewportSize(window);
    await page.emulateMedia({ colorScheme });
    found(
      `${window.width} pixels, ${colorScheme}`,
      await violations(page, colorScheme === 'dark' ? COLOUR_RULES : []),
    );
    found(`${window.width} pixels`, colorScheme === 'light' ? await overflow(page) : []);
  }
  await page.setViewportSize(PHONE);
  found('smaller than 44 pixels', await smallTargets(page, 44));
  await page.setViewportSize({ width: 320, height: 640 });
  found('320 pixels wide', await overflow(page));
  await withLargeText(page, async () => {
    for (const window of [DESK, PHONE]) {
      await page.setViewportSize(window);
      found(`text at 200 %, ${window.width} pixels`, [...(await overflow(page)), ...(await cutTexts(page))]);
    }
  });
  expect(faults).toEqual([]);
});

it('changes colours in the dark and nothing else, so that the other rules need not look again', async () => {
  await pages.visitor.goto(`${base}/problems`);
  const changed = await pages.visitor.evaluate(() =>
    [...document.styleSheets]
      .flatMap((sheet) => [...sheet.cssRules])
      .filter((rule) => rule instanceof CSSMediaRule && /prefers-color-scheme/.test(rule.conditionText))
      .flatMap((rule) => [...(rule as CSSMediaRule).cssRules] as CSSStyleRule[])
      .flatMap(({ style }) => [...style].map((name) => [name, style.getPropertyValue(name)])),
  );
  expect(changed.length).toBeGreaterThan(5);
  for (const change of changed) expect(change.join(': ')).toMatch(/^--[a-z-]+: *#[0-9a-f]{3,6}$/);
});

it('knows of each thing that axe left undecided', () => {
  expect([...undecided].sort()).toEqual(Object.keys(JUDGED).sort());
});

it('finds what it is there to find', async () => {
  const page = pages.visitor;
  await page.setViewportSize(PHONE);
  await page.goto(`${base}${places.home}/sign-in`);
  await page.evaluate(() => {
    const add = (html: string, style: string) => {
      const box = document.createElement('div');
      box.innerHTML = html;
      box.style.cssText = style;
      document.querySelector('main')?.append(box);
      return box;
    };
    add('<img src="/static/none.svg">', '');
    const tiny = add('<button>a</button><button>b</button>', 'display: flex');
    for (const button of tiny.querySelectorAll('button'))
      button.style.cssText = 'width: 10px; height: 10px; min-height: 0; padding: 0; outline: 0';
    add('pale', 'color: #bbb; background: #fff');
    add('far too wide', 'width: 500px');
    add('cut off at the edge', 'width: 3em; overflow: hidden; white-space: nowrap');
    add('Here is <a href="/">a link not for the keyboard</a>', '').inert = true;
  });
  const rules = (await violations(page)).map((one) => one.split(':')[0]);
  expect(rules).toEqual(expect.arrayContaining(['image-alt', 'target-size', 'color-contrast']));
  const walk = await walkWithTab(page);
  expect(walk.missed).toEqual([expect.stringContaining('not for the keyboard')]);
  expect(walk.hidden).toEqual([expect.stringMatching(/^no outline/), expect.stringMatching(/^no outline/)]);
  expect(await smallTargets(page, 24)).toEqual([
    expect.stringMatching(/^10 x 10/),
    expect.stringMatching(/^10 x 10/),
  ]);
  expect(await overflow(page)).not.toEqual([]);
  expect(await cutTexts(page)).toEqual([expect.stringContaining('cut off at the')]);
  await page.evaluate(() => {
    const curtain = document.createElement('div');
    curtain.style.cssText = 'position: fixed; inset: 0; background: #fff';
    document.body.append(curtain);
  });
  expect((await walkWithTab(page)).hidden.length).toBeGreaterThan(3);
});

/** Opens a page in one of its states. */
async function open({ as, path, act, route }: PageState): Promise<Page> {
  const page = pages[as];
  await page.setViewportSize(DESK);
  await page.goto(base + path(places));
  await act?.(page);
  await page.waitForLoadState();
  const pattern = (route ?? '').replace(/:\w+/g, '[^/]+');
  expect(new URL(page.url()).pathname).toMatch(new RegExp(`^${pattern}`));
  return page;
}

/** What axe finds, by some rules or by all; what it cannot decide is kept for later. */
async function violations(page: Page, rules: string[] = []): Promise<string[]> {
  // Half a megabyte goes into a page once; it stays there while we look from several sides.
  const axeSource = (await page.evaluate(() => 'axe' in window)) ? ';' : undefined;
  const axe = new AxeBuilder(axeSource ? { page, axeSource } : { page })
    .options({ resultTypes: ['violations', 'incomplete'] })
    .setLegacyMode();
  const found = await (rules.length > 0 ? axe.withRules(rules) : axe.withTags(TAGS)).analyze();
  for (const { id, nodes } of found.incomplete)
    for (const name of await page.evaluate(
      namesOf,
      nodes.map(({ target }) => String(target)),
    ))
      undecided.add(`${id}: ${name.replace(LINE_OF_BOTTLES, '.bottles > li > a')}`);
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 120)}`),
  );
}

/** Runs in the page: parts of a drawing are named after it, as one is like the other. */
function namesOf(targets: string[]): string[] {
  return targets.map((target) => {
    const drawing = document.querySelector(target)?.closest('svg');
    return drawing ? `.${drawing.classList[0]} ${document.querySelector(target)?.tagName}` : target;
  });
}

/** As with the browser's own setting for text of twice the usual size. */
async function withLargeText(page: Page, look: () => Promise<void>): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Page.setFontSizes', { fontSizes: { standard: 32 } });
  await look();
  await session.send('Page.setFontSizes', { fontSizes: { standard: 16 } });
  await session.detach();
}
