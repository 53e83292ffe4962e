// Every page of the program in the eyes of people who see, hear, point or type otherwise: axe, on a phone and
// on a desk, by day and in the dark; narrow windows, large text, targets, and the keyboard alone. Two files of tests
// share the pages between them, so that two workers look at once.
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { DESK, PHONE, signInAt, startBrowser } from './browser.js';
import type { PageState, Places } from './every-page.js';
import { fillHouse } from './fill-house.js';
import { openTestHouse, type TestHouse } from './house.js';
import { cutTexts, overflow, smallTargets, summaryFaults, walkWithTab } from './looking.js';
import { PASSWORD } from './studio.js';

/** Read into each page as it begins; the builder would send it twice. */
const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
/** What can differ between day and dark, where the style sheet changes colours and nothing else. */
const COLOUR_RULES = ['color-contrast', 'link-in-text-block'];
const MODES = [PHONE, DESK].flatMap((window) =>
  (['light', 'dark'] as const).map((colorScheme) => ({ window, colorScheme })),
);

/** A further state of a page seen in all four: the same frame, on a phone by day and on a desk in the dark. */
const TWO_MODES = MODES.filter(({ window, colorScheme }) => (window === PHONE) === (colorScheme === 'light'));

/** Which of the lines it is says nothing. */
const LINE_OF_BOTTLES = /^.*\.bottles > li:nth-child\(\d+\) > a$/;

/** What the tests of a file look through: there once they run. */
export interface Looking {
  house: TestHouse;
  base: string;
  places: Places;
  pages: Record<PageState['as'], Page>;
}

const undecided = new Set<string>();

/**
 * Looks at pages, and that axe leaves nothing undecided but what we judged ourselves, which it must still leave so.
 * @param judged by rule and element, what we found when we looked
 */
export function lookAt(states: readonly PageState[], judged: Record<string, string>): Looking {
  const looking = { pages: {} } as Looking;
  const firsts = new Set(
    states.filter(({ route }, at) => route === null || states.findIndex((one) => one.route === route) === at),
  );
  let browser: Browser;

  beforeAll(async () => {
    [looking.house, browser] = await Promise.all([openTestHouse(), startBrowser()]);
    looking.base = await looking.house.listen();
    const filled = await fillHouse(looking.house);
    looking.places = filled.places;
    const { base, pages, places } = looking;
    for (const as of ['visitor', 'owner', 'assistant'] as const) {
      const context = await browser.newContext({ viewport: DESK, reducedMotion: 'reduce' });
      context.setDefaultTimeout(10_000);
      await context.addInitScript({ path: AXE });
      pages[as] = await context.newPage();
      if (as === 'visitor') continue;
      await signInAt(pages[as], base + places.home, filled.studio[as].email, PASSWORD);
      if (as === 'owner') await signInAt(pages[as], base + places.empty, filled.empty.owner.email, PASSWORD);
    }
  }, 120_000);

  afterAll(async () => {
    await browser.close();
    await looking.house.close();
  });

  it.each(states)('$route $is: can be read, reached and used by everyone', async (state) => {
    const page = await open(looking, state);
    const faults: string[] = state.wrong ? await summaryFaults(page) : [];
    const found = (where: string, what: string[]) => faults.push(...what.map((one) => `${where}: ${one}`));
    const words = (await page.locator('main').textContent()) ?? '';
    found('a date as only programs write it', words.match(/\b\d{4}-\d{2}-\d{2}\b/g) ?? []);
    const walk = await walkWithTab(page);
    found('not reached with the Tab key', walk.missed);
    found('focus not to be seen', walk.hidden);
    for (const { window, colorScheme } of firsts.has(state) ? MODES : TWO_MODES) {
      await page.setViewportSize(window);
      await page.emulateMedia({ colorScheme });
      found(
        `${window.width} pixels, ${colorScheme}`,
        await violations(page, colorScheme === 'dark' ? COLOUR_RULES : []),
      );
      found(`${window.width} pixels`, await overflow(page));
    }
    await page.setViewportSize(PHONE);
    found('smaller than 44 pixels', await smallTargets(page, 44));
    await page.setViewportSize({ width: 320, height: 640 });
    found('320 pixels wide', await overflow(page));
    await withLargeText(page, async () => {
      for (const window of [DESK, PHONE]) {
        await page.setViewportSize(window);
        found(`text at 200 %, ${window.width} pixels`, [
          ...(await overflow(page)),
          ...(await cutTexts(page)),
        ]);
      }
    });
    expect(faults).toEqual([]);
  });

  it('knows of each thing that axe left undecided', () => {
    expect([...undecided].sort()).toEqual(Object.keys(judged).sort());
  });
  return looking;
}

/** Opens a page in one of its states. */
async function open({ base, pages, places }: Looking, { as, path, act, route }: PageState): Promise<Page> {
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
export async function violations(page: Page, rules: string[] = []): Promise<string[]> {
  const axe = new AxeBuilder({ page, axeSource: ';' })
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
