// The owner's morning on the phone, once with JavaScript and once without: from the front page to a decision, back
// by undo, then a call that is ticked.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { PHONE, signInAt, startBrowser, watch } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, PASSWORD } from '../support/studio.js';

let house: TestHouse;
let browser: Browser;
let base: string;

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse({ env: { UNDO_SECONDS: '60' } }), startBrowser()]);
  base = await house.listen();
});
afterAll(async () => {
  await browser.close();
  await house.close();
});

async function expectText(page: Page, words: string | RegExp): Promise<void> {
  await page.getByText(words).first().waitFor();
}

it.each([
  { how: 'with JavaScript', javaScriptEnabled: true, slug: 'sandpiper-loft' },
  { how: 'without JavaScript', javaScriptEnabled: false, slug: 'dunlin-loft' },
])('decides, undoes, and tells by telephone, $how', async ({ javaScriptEnabled, slug }) => {
  const studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  for (const name of ['Ebba Fjordvik', 'Corin Ashby', 'Linnea Harrow', 'Perdita Vale']) {
    const reach = { reachBy: 'telephone', telephone: '01632 960188' } as const;
    await askForSitting(house, studio, { name, ...(name === 'Ebba Fjordvik' ? reach : {}) });
    house.clock.forward({ seconds: 1 });
  }
  const context: BrowserContext = await browser.newContext({ viewport: PHONE, javaScriptEnabled });
  context.setDefaultTimeout(10_000);
  const complaints = watch(context, base);
  const page = await context.newPage();
  const home = `${base}/s/${slug}`;
  await signInAt(page, home, studio.owner.email, PASSWORD);

  await page.getByRole('heading', { name: 'Waiting for your answer (4)' }).waitFor();
  await page.getByRole('link', { name: '1 more: waiting for your answer' }).click();
  await page.getByRole('link', { name: 'Perdita Vale' }).waitFor();
  await page.getByRole('link', { name: 'Back to the desk' }).click();
  await page.getByRole('link', { name: 'Ebba Fjordvik' }).click();
  await page.locator('input[type=radio][name=start]').first().check();
  await page.getByRole('button', { name: 'Give this place' }).click();
  await expectText(page, 'nobody has told them yet');
  await page.getByRole('button', { name: 'Undo: take the place back' }).click();
  await expectText(page, 'It is undone, and nobody was told.');
  await expectText(page, 'Waiting for your answer.');

  await page.locator('input[type=radio][name=start]').first().check();
  await page.getByRole('button', { name: 'Give this place' }).click();
  house.clock.forward({ seconds: 60 });
  await house.work();
  await page.goto(`${home}/desk`);
  await page.getByRole('link', { name: /^Ebba Fjordvik, 01632/ }).click();
  await expectText(page, 'You have a place: Friday');
  expect(await page.getByRole('link', { name: '01632 960188' }).first().getAttribute('href')).toBe(
    'tel:01632960188',
  );
  await page.getByRole('form', { name: 'Tick Ebba Fjordvik' }).getByRole('button', { name: 'Told' }).click();
  await expectText(page, 'Ticked. Below you can take it back.');
  await page.getByText('Told in the last seven days').click();
  await page.getByRole('button', { name: 'Not told after all' }).click();
  await expectText(page, 'It is on the list again.');
  expect(complaints).toEqual([]);
  await context.close();
});
