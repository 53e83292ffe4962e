// The day sheet as it is used: in red in the darkroom, on paper, and on the phone.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { PHONE, signInAt, startBrowser, watch } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { overflow, smallTargets } from '../support/looking.js';
import { enterBath } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let day: string;
let complaints: string[];

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse({ now: '2027-03-25T10:00:00Z' }), startBrowser()]);
  const base = await house.listen();
  const studio: TestStudio = await foundTestStudio(house);
  for (const [name, start] of [
    ['Corin Ashby', '2027-04-02T09:30'],
    ['Adaeze Nwosu-Featherstonehaugh', '2027-04-02T11:15'],
  ] as const)
    await approve(house, studio, (await askForSitting(house, studio, { name })).sittingId, start);
  await enterBath(house, studio, { plateSizeId: studio.sizes.whole.id });
  house.clock.set('2027-04-02T08:20:00Z');
  context = await browser.newContext({ viewport: PHONE });
  context.setDefaultTimeout(10_000);
  complaints = watch(context, base);
  page = await context.newPage();
  await signInAt(page, `${base}/s/${studio.slug}`, studio.assistant.email, PASSWORD);
  day = `${base}/s/${studio.slug}/desk/days/2027-04-02`;
});
afterAll(async () => {
  await browser.close();
  await house.close();
});

/** Colours as they are computed, of every element and of what is drawn before and after it: none but red, or nothing. */
const otherColours = () =>
  page.evaluate(() => {
    const properties = [
      ...['color', 'background-color', 'border-top-color', 'border-left-color', 'outline-color'],
      ...['text-decoration-color', 'caret-color', 'column-rule-color', 'fill', 'stroke'],
    ];
    const red = (value: string) => {
      const [, r = '0', g = '0', b = '0', alpha = '1'] =
        /^rgba?\((\d+), (\d+), (\d+)(?:, ([\d.]+))?\)$/.exec(value) ?? [];
      return value === 'none' || value === 'auto' || alpha === '0' || (g === '0' && b === '0' && r !== '');
    };
    return [...document.querySelectorAll('*')]
      .filter((one) => !one.closest('head'))
      .flatMap((one) =>
        ['', '::before', '::after', '::marker'].flatMap((part) => {
          const style = getComputedStyle(one, part);
          const wrong = properties.filter((name) => !red(style.getPropertyValue(name)));
          const drawn = [
            'background-image',
            'box-shadow',
            'text-shadow',
            'filter',
            'list-style-image',
          ].filter((name) => !['none', ''].includes(style.getPropertyValue(name)));
          return [...wrong, ...drawn].map((name) => `${one.tagName}${part} ${name}`);
        }),
      );
  });
const images = () =>
  page.locator('img, svg, picture, video, canvas, iframe, input:not([type=hidden])').count();

it('is pure red on black in the darkroom, without a picture or a field, in targets for wet hands, to the very end', async () => {
  const looked: string[] = [];
  const look = async () => {
    looked.push(await page.title());
    expect(await otherColours()).toEqual([]);
    expect(await images()).toBe(0);
    expect(await smallTargets(page, 64)).toEqual([]);
    expect(await overflow(page)).toEqual([]);
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(ground).toBe('rgb(0, 0, 0)');
  };
  await page.goto(`${day}/red`);
  await page.getByText('How it ended').first().click();
  await look();
  await page.getByRole('form', { name: 'Corin Ashby is here', exact: true }).getByRole('button').click();
  await page.getByRole('button', { name: 'Here. Take it back' }).waitFor();
  await look();
  await page.getByRole('link', { name: 'The chemistry is off' }).click();
  await look();
  await page.getByRole('link', { name: 'Tank A' }).click();
  await look();
  await page.getByRole('button', { name: 'Fog. Put Tank A aside' }).click();
  await page.getByText('No other bath takes them.').waitFor();
  await look();
  expect(new Set(looked).size).toBe(4);
});

it('finds a colour where there is one', async () => {
  await page.goto(`${day}/red`);
  await page.evaluate(() => document.querySelector('h1')?.style.setProperty('color', 'rgb(255, 255, 255)'));
  expect(await otherColours()).toContain('H1 color');
});

it('has blank columns on paper, and neither forms nor ways to other pages', async () => {
  await page.goto(day);
  expect(await page.locator('table.bench').first().isVisible()).toBe(false);
  await page.emulateMedia({ media: 'print' });
  const heads = page.locator('table.bench').first().locator('thead th');
  expect(await heads.allTextContents()).toEqual([
    ...['Plate', 'Plate no.', 'Bottle', 'Bath', 'Seconds', 'Sky', 'Result'],
  ]);
  expect(await page.locator('table.bench').first().isVisible()).toBe(true);
  expect(await page.locator('table.bench').first().locator('tbody tr').count()).toBe(3);
  for (const away of ['nav', 'form', 'button', 'summary', 'input'])
    for (const one of await page.locator(away).all())
      expect([away, await one.isVisible()]).toEqual([away, false]);
  expect(await page.getByText('Adaeze Nwosu-Featherstonehaugh').first().isVisible()).toBe(true);
  await page.emulateMedia({ media: 'screen' });
});

it.each([320, 360, 390, 430])('fits a phone of %i pixels without scrolling sideways', async (width) => {
  await page.setViewportSize({ width, height: 800 });
  for (const path of [day, `${day}/red`, `${day}/red/off`]) {
    await page.goto(path);
    expect([path, await overflow(page)]).toEqual([path, []]);
  }
  expect(complaints).toEqual([]);
});
