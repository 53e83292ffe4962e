// The first evening of an owner, with the keyboard alone: from an empty installation to the first sitting given.
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { ClaimService } from '../../src/desk/set-up/claim.service.js';
import { PHONE, startBrowser, watch } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { overflow } from '../support/looking.js';
import { rowsOf } from '../support/rows.js';

let house: TestHouse;
let browser: Browser;
let base: string;

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse(), startBrowser()]);
  base = await house.listen();
});
afterAll(async () => {
  await browser.close();
  await house.close();
});

/** Somebody who has no mouse: Tab to what is named, then typing, the space bar, arrows or Enter. */
class Keys {
  constructor(readonly page: Page) {}

  /** Goes on with Tab until what is named so has the focus. */
  async to(name: RegExp): Promise<void> {
    const passed: string[] = [];
    for (let tabs = 0; tabs < 150; tabs += 1) {
      await this.page.keyboard.press('Tab');
      const here = await this.page.evaluate(() => {
        const one = document.activeElement as HTMLInputElement | null;
        const label = one?.labels?.[0]?.textContent;
        return (label ?? one?.getAttribute('aria-label') ?? one?.textContent ?? '').trim();
      });
      if (name.test(here)) return;
      passed.push(here.slice(0, 40));
    }
    throw new Error(`${name} is not reached with the Tab key at ${this.page.url()}: ${passed.join(' | ')}`);
  }

  async type(name: RegExp, text: string): Promise<void> {
    await this.to(name);
    await this.page.keyboard.press('Control+A');
    await this.page.keyboard.type(text);
  }

  async press(name: RegExp): Promise<void> {
    await this.to(name);
    await Promise.all([this.page.waitForEvent('load'), this.page.keyboard.press('Enter')]);
  }

  async tick(name: RegExp): Promise<void> {
    await this.to(name);
    await this.page.keyboard.press('Space');
  }
}

const STATE_OF = (page: Page, step: string) =>
  page.locator('tr', { hasText: step }).locator('td').first().textContent();

it('leads from an empty installation to the first sitting, by the keyboard alone', async () => {
  const context = await browser.newContext({ viewport: PHONE, reducedMotion: 'reduce' });
  context.setDefaultTimeout(10_000);
  const complaints = watch(context, base);
  const page = await context.newPage();
  const keys = new Keys(page);

  await page.goto(base);
  expect(await page.textContent('main')).toContain('Nobody has set up a studio here yet');
  const address = (await house.app.get(ClaimService).address()) ?? '';
  await page.goto(address);
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  expect(await overflow(page)).toEqual([]);
  await keys.type(/^Your name/, 'Wren Hallgarth');
  await keys.type(/^E-mail address/, 'wren@kittiwake-yard.example');
  await keys.type(/^A password/, 'silver-and-salt');
  await keys.type(/^What it is called/, 'Kittiwake Yard');
  await keys.type(/^In which town/, 'Whitby, England');
  await keys.press(/^Found the studio/);
  await page.waitForURL(`${base}/s/kittiwake-yard/desk/set-up`);
  expect(await STATE_OF(page, 'Your weekday and your light')).toContain('next');

  await keys.press(/^Your weekday and your light/);
  await keys.press(/^Begin with this/);
  expect(await page.textContent('main')).toMatch(
    /28 May 2027.*06:0\d to 19:5\d.*10:00, 11:45, 13:30, 15:15/s,
  );
  await keys.press(/^the next step/);

  await keys.press(/^Plate sizes and the shelf/);
  await keys.type(/^Whole plate/, '12');
  for (const [name, millilitres] of [
    [/^Iodised collodion/, '500'],
    [/^Iron developer/, '2000'],
    [/^Hypo fixer/, '5000'],
    [/^Sandarac varnish/, '500'],
  ] as const)
    await keys.type(name, millilitres);
  await keys.press(/^Put this on the shelf/);
  expect(await STATE_OF(page, 'Plate sizes and the shelf')).toContain('done');

  await keys.press(/^Your opening words/);
  await keys.type(/^Words at the top/, 'Portraits on glass, on Fridays.');
  await keys.press(/^Keep this/);
  await page.goto(`${base}/s/kittiwake-yard/desk/set-up`);
  await keys.press(/^A letter to yourself/);
  await keys.press(/^Send wren@/);
  expect(house.mail.sent.at(-1)?.to.address).toBe('wren@kittiwake-yard.example');

  await page.goto(`${base}/s/kittiwake-yard/desk/set-up`);
  await keys.press(/^The first sitting/);
  await keys.type(/^Who rings/, 'Ebba Fjordvik');
  await keys.type(/^Telephone/, '01632 960188');
  await keys.type(/^Where do they travel/, 'Hull, England');
  await keys.press(/^Enter the request/);
  await keys.tick(/^Kingston upon Hull/);
  await keys.press(/^Enter the request/);
  await keys.tick(/^Friday 4 December|^11:45/);
  await keys.press(/^Give this place/);
  const [sitting] = await rowsOf<{ state: string }>(
    house,
    await studioId(),
    'select state from sitting where studio_id = $1',
    [await studioId()],
  );
  expect(sitting?.state).toBe('confirmed');
  expect(complaints).toEqual(['422 POST /s/kittiwake-yard/desk/requests/new']); // which Hull is meant
  await page.goto(address);
  expect(await page.textContent('main')).toContain('set up already');
  await context.close();
}, 120_000);

const studioId = async (): Promise<string> => (await house.db.studioAt('kittiwake-yard'))?.studioId ?? '';
