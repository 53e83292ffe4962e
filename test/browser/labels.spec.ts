// Labels for the back of plates in Chromium, in print: every letter within its label, so many labels on so many pages.
import type { Browser, Page } from 'playwright-core';
import { BookService } from '../../src/plates/book.service.js';
import { RecordService } from '../../src/plates/record.service.js';
import { DESK, signInAt, startBrowser, watch } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { writePlate } from '../support/plates-made.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let browser: Browser;
let base: string;
let studio: TestStudio;

/** Widest letters, scripts of several widths, marks, and words longer than any line. */
const HOSTILE = [
  'W'.repeat(150),
  'MWmw@%'.repeat(20),
  'Æthelflæd Wŵnhölme-Mmmwwm née Quartermaine',
  'Щербаківський ЖЮФДМШЩ'.repeat(4),
  '漢字假名交じり文'.repeat(8),
  'مرحبا بالعالم '.repeat(8),
  'שלום עולם '.repeat(9),
  'e\u0301\u0302\u0303'.repeat(70),
  '👩‍👩‍👧‍👦 '.repeat(15),
  '<script>alert(1)</script> & "quotes"',
];

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse(), startBrowser()]);
  base = await house.listen();
  studio = await foundTestStudio(house);
  const { id, owner } = studio;
  const { fields } = await house.app.get(RecordService).fields(id);
  const remark = fields.find((one) => one.what === 'typed')?.id ?? '';
  for (let number = 1; number <= 30; number++) {
    await writePlate(house, studio, { number });
    const text = HOSTILE[number % HOSTILE.length] ?? '';
    const record = { names: text, [`field-${remark}`]: number % 3 === 0 ? text : '' };
    await house.app.get(BookService).correct(id, owner, number, record);
  }
}, 150_000);
afterAll(async () => {
  await browser.close();
  await house.close();
});

/** Of each label, how far its letters go past it on any side in millimetres of the sheet; at most 0 where none do. */
const past = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<SVGGElement>('.label')].map((label) => {
      const cut = (label.querySelector('.cut') as SVGRectElement).getBBox();
      const over = [...label.querySelectorAll('text')].map((text) => {
        const box = text.getBBox();
        return Math.max(-box.x, -box.y, box.x + box.width - cut.width, box.y + box.height - cut.height);
      });
      return Math.max(...over);
    }),
  );

it('has thirty labels of hostile names on two sheets, with no letter past any cut line', async () => {
  const context = await browser.newContext({ viewport: DESK });
  const complaints = watch(context, base);
  const page = await context.newPage();
  await signInAt(page, `${base}/s/${studio.slug}`, studio.owner.email, PASSWORD);
  await page.goto(`${base}/s/${studio.slug}/desk/plates/labels/print?day=2026-11-20`);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const over = await past(page);
  expect(over).toHaveLength(30);
  expect(Math.max(...over)).toBeLessThanOrEqual(0);
  const sheet = await page.locator('.sheet svg').first().boundingBox();
  const [inch, mm] = [96, 25.4];
  expect(((sheet?.width ?? 0) / inch) * mm).toBeCloseTo(210, 1);
  expect(await page.locator('.on-screen').isVisible()).toBe(false);
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  expect([...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)]).toHaveLength(2);
  const [, width, height] = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/.exec(pdf) ?? [];
  const points = 72 / mm;
  expect([Math.round(Number(width) / points), Math.round(Number(height) / points)]).toEqual([210, 297]);
  expect(complaints).toEqual([]);
  await context.close();
}, 120_000);

it('would see a label whose letters go past its cut line', async () => {
  const page = await browser.newPage();
  const text = `<text x="2" y="5" font-size="3.6">${'W'.repeat(32)}</text>`;
  const cut = '<rect class="cut" width="60" height="40" />';
  await page.setContent(`<svg viewBox="0 0 60 40"><g class="label">${cut}${text}</g></svg>`);
  expect((await past(page))[0]).toBeGreaterThan(0);
  await page.close();
});
