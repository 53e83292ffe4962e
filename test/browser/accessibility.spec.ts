// Pages of visitors, of people with a link, and of the desk's people and days, looked at by everybody; and that the looking
// sees what it is to see. The pages of bench, shelf, plates and teaching are in accessibility-bench.spec.ts.
import { expect, it } from '@jest/globals';
import { PHONE } from '../support/browser.js';
import { lookAt, violations } from '../support/every-look.js';
import { IS_OF_THE_BENCH, NO_PAGES, PAGE_STATES } from '../support/every-page.js';
import { cutTexts, overflow, smallTargets, walkWithTab } from '../support/looking.js';
import { routesOf } from '../support/routes.js';

/** What axe leaves undecided, by rule and element, and what we found when we looked ourselves. */
const JUDGED = {
  'color-contrast: .light-bar text': 'The hours stand below all that is drawn, in the grey of small print.',
  'color-contrast: .light-chart text':
    'Months and hours stand beside and above the drawing, in the same grey.',
  'color-contrast: .sun-curve text':
    'Degrees and hours stand left of and below the drawing, in the same grey.',
};

const looking = lookAt(
  PAGE_STATES.filter((state) => !IS_OF_THE_BENCH(state)),
  JUDGED,
);

it('looks at every page there is', () => {
  const routes = routesOf(looking.house).filter(
    ({ method, path }) => method === 'GET' && !path.startsWith('/api/'),
  );
  const shown = PAGE_STATES.flatMap(({ route }) => route ?? []);
  expect(routes.map(({ path }) => path).sort()).toEqual([...new Set([...shown, ...NO_PAGES])].sort());
});

it('changes colours in the dark and nothing else, so that the other rules need not look again', async () => {
  await looking.pages.visitor.goto(`${looking.base}/problems`);
  const changed = await looking.pages.visitor.evaluate(() =>
    [...document.styleSheets]
      .flatMap((sheet) => [...sheet.cssRules])
      .filter((rule) => rule instanceof CSSMediaRule && /prefers-color-scheme/.test(rule.conditionText))
      .flatMap((rule) => [...(rule as CSSMediaRule).cssRules] as CSSStyleRule[])
      .flatMap(({ style }) => [...style].map((name) => [name, style.getPropertyValue(name)])),
  );
  expect(changed.length).toBeGreaterThan(5);
  for (const change of changed) expect(change.join(': ')).toMatch(/^--[a-z-]+: *#[0-9a-f]{3,6}$/);
});

it('finds what it is there to find', async () => {
  const { base, places } = looking;
  const page = looking.pages.visitor;
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
