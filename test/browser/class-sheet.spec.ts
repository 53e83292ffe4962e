// The sheet of a teaching day on paper: what a refused one prints, and what one in order does, page by page.
import type { Browser, Page } from 'playwright-core';
import { hazardsOf } from '../../src/chemistry/hazards.calc.js';
import { FormulaViews } from '../../src/stock/formula-views.service.js';
import { FormulasService } from '../../src/stock/formulas.service.js';
import { DESK, signInAt, startBrowser } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';
import { agreeToAll, signUp, teachingDay } from '../support/teaching.js';

const MADE = {
  collodion: 'collodion-estabrooke-p29',
  developer: 'developer-towler-1',
  fixer: 'fixer-hypo-20-percent',
  varnish: 'varnish-sandarac',
} as const;

let house: TestHouse;
let browser: Browser;
let studio: TestStudio;
let page: Page;
let base: string;

beforeAll(async () => {
  [house, browser] = await Promise.all([openTestHouse(), startBrowser()]);
  base = await house.listen();
  studio = await foundTestStudio(house);
  for (const [kind, starterKey] of Object.entries(MADE))
    await house.app.get(FormulasService).take(studio.id, studio.owner, {
      starterKey,
      bromide: 'anhydrous',
      itemId: studio.items[kind as keyof typeof MADE].id,
    });
  page = await browser.newPage({ viewport: DESK });
  await signInAt(page, `${base}/s/${studio.slug}`, studio.owner.email, PASSWORD);
}, 60_000);
afterAll(async () => {
  await browser.close();
  await house.close();
});

/** What paper shows of a day's sheet, and how many pages it has. */
async function printed(sessionId: string): Promise<{ text: string; pages: number }> {
  await page.goto(`${base}/s/${studio.slug}/desk/teaching/${sessionId}/sheet`);
  await page.emulateMedia({ media: 'print' });
  // biome-ignore lint/performance/useDomNodeTextContent: what is shown on paper, not what is in the document
  const text = (await page.locator('body').innerText()).replace(/\s+/g, ' ');
  const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
  await page.emulateMedia({ media: null });
  return { text, pages: pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0 };
}

it('prints nothing but what is missing while somebody has not agreed', async () => {
  const { sessionId } = await teachingDay(house, studio);
  const { token } = await signUp(house, studio, sessionId, { students: [{ name: 'Ada Fell' }] });
  const refused = await printed(sessionId);
  expect(refused.pages).toBe(1);
  expect(refused.text).toContain('This sheet cannot be printed yet');
  expect(refused.text).toContain('Not yet agreed to working safely: Ada Fell.');
  // from the studio's name to the foot of the page there is nothing else
  expect(refused.text).toMatch(
    /^\S.{0,80}This sheet cannot be printed yet First Plates, Wednesday 7 April 2027, 10:00 to 16:00\. Nobody goes to the bench before this is put right: Not yet agreed to working safely: Ada Fell\. Ada Fell agrees here .{0,120}$/,
  );
  await agreeToAll(house, studio, token);
  const whole = await printed(sessionId);
  expect(whole.text).not.toContain('cannot be printed');
  expect(whole.pages).toBeGreaterThan(refused.pages);
});

it('has every danger of what is poured on its paper, and whom to ring on a page of its own at the end', async () => {
  const { sessionId } = await teachingDay(house, studio, { start: '2027-04-14T10:00' });
  const { token } = await signUp(house, studio, sessionId, { students: [{ name: 'Bo Fell' }] });
  const before = await printed(sessionId);
  expect(before.pages).toBe(1);
  await agreeToAll(house, studio, token);
  const { text, pages } = await printed(sessionId);
  const { formulas } = await house.app.get(FormulaViews).list(studio.id);
  const substances = new Set(['silver nitrate']);
  for (const { id } of formulas) {
    const { current } = await house.app.get(FormulaViews).one(studio.id, id);
    for (const { substance } of current.lines) if (substance) substances.add(substance);
  }
  expect(substances.size).toBeGreaterThan(8);
  const untold = [...substances].flatMap((key) =>
    hazardsOf(key)
      .filter(({ code }) => !text.includes(code))
      .map(({ code }) => `${key} ${code}`),
  );
  expect(untold).toEqual([]);
  for (const part of [
    'Keep apart',
    'A stool, please.',
    'To fill for the day',
    'Follow the supplier’s current',
  ])
    expect(text).toContain(part);
  const last = text.indexOf('For the teacher only: whom to ring');
  expect(text.indexOf('Una, of Bo Fell')).toBeGreaterThan(last);
  expect(last).toBeGreaterThan(text.indexOf('Follow the supplier’s current'));
  // without its last section the sheet is a page shorter: that section begins a page
  await page.locator('.own-page').evaluate((one: { remove: () => void }) => one.remove());
  const rest = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;
  expect(pages - (rest ?? 0)).toBe(1);
});
