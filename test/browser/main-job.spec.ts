// The main job from end to end in a real browser, once with JavaScript and once without: a sitter asks by
// tapping a place, the owner gives it, mail and calendars tell, and the sitter gives it back.
import jsQR from 'jsqr';
import nodeIcal from 'node-ical';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import type { Message } from '../../src/platform/mailer.js';
import { DESK, PHONE, signInAt, startBrowser, watch } from '../support/browser.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, PASSWORD, type TestStudio } from '../support/studio.js';

const DAY = 'Friday 14 May';
/** 11:15 on that day at the studio: British Summer Time, an hour ahead of UTC. */
const STARTS_AT = '2027-05-14T10:15:00.000Z';
/** One hour and a quarter with one plate, twenty-five minutes with the further one. */
const TIMES = '11:15 to 12:55';

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

describe.each([
  { how: 'with JavaScript', javaScriptEnabled: true, slug: 'sandpiper-loft' },
  { how: 'without JavaScript', javaScriptEnabled: false, slug: 'dunlin-loft' },
])('the main job $how', ({ javaScriptEnabled, slug }) => {
  let studio: TestStudio;
  let home: string;
  const contexts: BrowserContext[] = [];
  const complaints: string[][] = [];

  async function openPage(viewport: typeof PHONE): Promise<Page> {
    const context = await browser.newContext({ viewport, javaScriptEnabled });
    context.setDefaultTimeout(10_000);
    contexts.push(context);
    complaints.push(watch(context, base));
    return context.newPage();
  }

  beforeAll(async () => {
    studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
    home = `${base}/s/${slug}`;
  });

  afterAll(async () => {
    for (const context of contexts) await context.close();
  });

  it('goes from tapping a place to giving it back, and nothing is left behind', async () => {
    const sitter = await openPage(PHONE);
    const openAtFirst = await openPlaces(sitter, home);
    expect(openAtFirst).toEqual(['09:30', '11:15', '13:00', '14:45']);

    await sitter.getByRole('link', { name: `${DAY} at 11:15` }).click();
    await fillWho(sitter);
    await (javaScriptEnabled ? chooseHomeWhileTyping(sitter) : sendAndChooseHome(sitter));
    await goOn(sitter);
    await sitter.getByLabel('What do you hope for?').fill('One of us together, and a small one of him.');
    await goOn(sitter);
    await expectText(sitter, 'Please look this over.');
    await sitter.getByRole('button', { name: 'Send the request' }).click();
    await expectText(sitter, 'Your request has reached the studio.');
    const ownPage = sitter.url().replace('?done=asked', '');
    expect(await factsOf(sitter)).toMatchObject({
      State: 'waiting for the studio’s answer',
      'Days that suit': 'Friday 14 May 2027',
      Sitters: 'Linnea Harrow, Tobias Harrow',
      Plates: 'Whole plate: Linnea Harrow, Tobias Harrow; Half plate: Tobias Harrow',
      'You hope for': 'One of us together, and a small one of him.',
    });

    const asked = await takeLetters();
    expect(asked.map((letter) => [letter.to.address, letter.subject])).toEqual([
      [`desk@${slug}.example`, 'A request from Linnea Harrow'],
      ['linnea@post.example', 'Your request to sit at Sandpiper Loft'],
    ]);
    expect(asked[1]?.text).toContain(ownPage);
    expect(asked[1]?.html).toContain(`href="${ownPage}"`);

    const owner = await openPage(DESK);
    await signInAt(owner, home, studio.owner.email, PASSWORD);
    await owner.getByRole('link', { name: 'Linnea Harrow' }).click();
    expect(await factsOf(owner)).toMatchObject({ 'Comes from': expect.stringContaining('Newport') });
    const choice = owner.getByRole('group', { name: DAY });
    await choice.getByLabel(TIMES).check();
    await owner.getByRole('button', { name: 'Give this place' }).click();
    await expectText(owner, 'The place is given');
    const aside = await setAsideOnShelf(owner, home);
    expect(aside).toMatchObject({
      'Clear glass, whole plate': '1 sheet',
      'Clear glass, half plate': '1 sheet',
    });
    expect(Object.values(aside).filter((amount) => /^0 /.test(amount))).toEqual([]);

    const [given] = await takeLetters();
    expect(given?.to).toEqual({ name: 'Linnea Harrow', address: 'linnea@post.example' });
    expect(given?.subject).toBe('Your place at Sandpiper Loft: Friday 14 May 2027, 11:15');
    expect(given?.text).toContain(`Time: ${TIMES}`);
    expect(given?.text).toContain(ownPage);
    expect(given?.html).toContain(TIMES);
    const invited = eventsOf(given?.invitation?.content ?? '');
    expect(given?.invitation?.method).toBe('REQUEST');
    expect(invited).toEqual([expect.objectContaining({ start: STARTS_AT, status: 'CONFIRMED' })]);

    await sitter.goto(ownPage);
    expect(await factsOf(sitter)).toMatchObject({
      State: 'confirmed',
      Day: 'Friday 14 May 2027',
      Time: `${TIMES}, time at the studio (Europe/London)`,
    });
    const onPhone = await sitter.getByRole('link', { name: 'Put this on my phone' }).getAttribute('href');
    const feed = onPhone?.replace(/^webcal:/, 'http:') ?? '';
    const followed = { uid: invited[0]?.uid, start: STARTS_AT, status: 'CONFIRMED' };
    expect(await fetchEvents(feed)).toEqual([expect.objectContaining(followed)]);
    await owner.goto(`${home}/desk/calendar`);
    const ownersFeed = await owner.getByRole('textbox', { name: 'Address of your calendar' }).inputValue();
    expect(await fetchEvents(ownersFeed)).toEqual([expect.objectContaining(followed)]);
    // Change-over included, the room is busy until 13:25.
    const other = await openPage(PHONE);
    expect(await openPlaces(other, home)).toEqual(['09:30', '14:45']);

    await sitter.getByText('Give my place back', { exact: true }).click();
    await expectText(sitter, 'Friday 14 May 2027, 11:15 is free for somebody else at once.');
    await sitter.getByRole('button', { name: 'Yes, give it back' }).click();
    await expectText(sitter, 'It is given up, and a message about it is on its way.');
    expect(await factsOf(sitter)).toMatchObject({ State: 'given back' });
    const [toOwner, cancelled] = await takeLetters();
    expect(toOwner?.subject).toBe('Linnea Harrow has given up Friday 14 May 2027, 11:15');
    expect(cancelled?.subject).toBe('Your place at Sandpiper Loft is given back: Friday 14 May 2027, 11:15');
    expect(cancelled?.invitation?.method).toBe('CANCEL');
    expect(eventsOf(cancelled?.invitation?.content ?? '')).toEqual([
      {
        uid: invited[0]?.uid,
        start: STARTS_AT,
        status: 'CANCELLED',
        sequence: (invited[0]?.sequence ?? 0) + 1,
      },
    ]);
    expect(await fetchEvents(feed)).toEqual([expect.objectContaining({ ...followed, status: 'CANCELLED' })]);
    for (const amount of Object.values(await setAsideOnShelf(owner, home))) expect(amount).toMatch(/^0 /);
    expect(await openPlaces(other, home)).toEqual(openAtFirst);

    // Without JavaScript the home place was asked for again: the one answer of the story that is not a success.
    expect(complaints.flat()).toEqual(
      javaScriptEnabled ? [] : [expect.stringMatching(`^422 POST /s/${slug}/ask/[\\w-]{43}/days$`)],
    );
  });
});

it('the calendar’s picture is read by a camera as it stands on the screen, by day and in the dark', async () => {
  const studio = await foundTestStudio(house, { slug: 'knot-loft', email: 'desk@knot-loft.example' });
  const { sittingId, token } = await askForSitting(house, studio);
  await approve(house, studio, sittingId, '2027-05-14T11:15');
  const page = await browser.newPage({ viewport: PHONE });
  await page.goto(`${base}/s/knot-loft/place/${token}/calendar`);
  await page.getByText('Scan it with another phone').click();
  const link = await page.getByRole('link', { name: 'Put this on my phone' }).getAttribute('href');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect([colorScheme, await scanned(page.locator('.qr-code'))]).toEqual([colorScheme, link]);
  }
  await page.close();
});

it('the watch on pages sees what it is there to see', async () => {
  const context = await browser.newContext();
  const seen = watch(context, base);
  const page = await context.newPage();
  await page.goto(`${base}/problems`);
  const broken = page.waitForEvent('pageerror');
  await page.evaluate(async () => {
    document.body.setAttribute('style', 'color: red');
    await fetch('/nowhere');
    await fetch('https://elsewhere.example/').catch(() => {});
    setTimeout(() => {
      throw new Error('a script that breaks');
    });
  });
  await broken;
  const elsewhere = base.replace('127.0.0.1', 'localhost');
  await page.goto(`${elsewhere}/problems`);
  await context.close();
  const [files, told] = [seen.slice(6), seen.slice(0, 6)];
  expect(told).toEqual([
    expect.stringMatching(/^error: .*inline style.*Content Security Policy/),
    '404 GET /nowhere',
    expect.stringMatching(/^error: .*elsewhere\.example.*Content Security Policy/),
    expect.stringMatching(/^error: .*elsewhere\.example.*Content Security Policy/),
    'script: a script that breaks',
    `other host: ${elsewhere}/problems`,
  ]);
  // The page's own files; whether its icon is among them depends on what the browser kept.
  expect(files.length).toBeGreaterThanOrEqual(2);
  expect(files.filter((one) => !one.startsWith('other host: '))).toEqual([]);
});

/** What a camera reads in a drawing as the screen shows it, style sheet and all. */
async function scanned(drawing: Locator): Promise<string | undefined> {
  const shot = (await drawing.screenshot()).toString('base64');
  const blank = await browser.newPage();
  const { greens, width, height } = await blank.evaluate(async (png) => {
    const image = new Image();
    image.src = `data:image/png;base64,${png}`;
    await image.decode();
    const drawn = new OffscreenCanvas(image.width, image.height).getContext('2d');
    drawn?.drawImage(image, 0, 0);
    const pixels = drawn?.getImageData(0, 0, image.width, image.height).data ?? [];
    const greens = String.fromCharCode(...Array.from(pixels).filter((_, at) => at % 4 === 1));
    return { greens, width: image.width, height: image.height };
  }, shot);
  await blank.close();
  const pixels = Uint8ClampedArray.from(
    [...greens].flatMap((one) => [one, one, one, '\xff'].map((part) => part.charCodeAt(0))),
  );
  return jsQR.default(pixels, width, height)?.data;
}

/** The times of the open places of our day, as the public page offers them. */
async function openPlaces(page: Page, home: string): Promise<string[]> {
  await page.goto(home);
  return page
    .getByRole('link', { name: `${DAY} at` })
    .locator('strong')
    .allTextContents();
}

async function fillWho(page: Page): Promise<void> {
  await page.getByLabel('Your name').fill('Linnea Harrow');
  await page.getByLabel('By e-mail').check();
  await page.getByLabel('E-mail address').fill('linnea@post.example');
  await goOn(page);
  await page.getByLabel('Name of the sitter').waitFor();
  await page.getByRole('button', { name: 'Add a sitter' }).click();
  await page.getByLabel('Name of sitter 2').fill('Tobias Harrow');
  await page.getByRole('button', { name: 'Add a plate' }).click();
  await page.getByLabel('Size of plate 1').selectOption('Whole plate');
  await page.getByLabel('Size of plate 2').selectOption('Half plate');
  const first = page.getByRole('group', { name: 'Who is on plate 1?' });
  await first.getByLabel('Linnea Harrow').check();
  await first.getByLabel('Tobias Harrow').check();
  await page.getByRole('group', { name: 'Who is on plate 2?' }).getByLabel('Tobias Harrow').check();
  await goOn(page);
}

const goOn = (page: Page) => page.getByRole('button', { name: 'Go on', exact: true }).click();

async function chooseHomeWhileTyping(page: Page): Promise<void> {
  const field = page.getByRole('combobox', { name: 'Where do you travel from?' });
  await field.pressSequentially('Newport');
  await page.getByRole('option', { name: 'Newport' }).first().waitFor();
  await field.press('ArrowDown');
  await field.press('Enter');
  await page.getByRole('listbox', { name: 'Places' }).waitFor({ state: 'hidden' });
}

/** Without the type-ahead, a name that several places bear is asked about on the next page. */
async function sendAndChooseHome(page: Page): Promise<void> {
  await page.getByLabel('Where do you travel from?').fill('Newport');
  await goOn(page);
  await expectText(page, 'Please choose which of these places it is.');
  await page.getByRole('group', { name: 'Which of these is it?' }).getByRole('radio').first().check();
}

async function expectText(page: Page, text: string): Promise<void> {
  await page.getByText(text).first().waitFor({ timeout: 10_000 });
}

/** The terms and details of the page. */
function factsOf(page: Page): Promise<Record<string, string>> {
  return paired(page.locator('dl.facts dt'), page.locator('dl.facts dd'));
}

/** What the owner's shelf shows as set aside, by item. */
async function setAsideOnShelf(page: Page, home: string): Promise<Record<string, string>> {
  await page.goto(`${home}/desk/shelf`);
  return paired(
    page.locator('main section.kept h2'),
    page.locator('main section.kept dl div:nth-child(2) dd'),
  );
}

async function paired(names: Locator, words: Locator): Promise<Record<string, string>> {
  const [keys, values] = [await names.allTextContents(), await words.allTextContents()];
  expect(values).toHaveLength(keys.length);
  return Object.fromEntries(keys.map((key, at) => [key, values[at] ?? '']));
}

/** Does what is due, and takes the letters that went; those to the studio before those to the contact. */
async function takeLetters(): Promise<Message[]> {
  await house.work();
  return house.mail.sent.splice(0).sort((a, b) => (a.to.address < b.to.address ? -1 : 1));
}

interface Event {
  uid: string;
  start: string;
  status: string;
  sequence: number;
}

/** The entries of a calendar, as an independent reader finds them. */
function eventsOf(calendar: string): Event[] {
  return Object.values(nodeIcal.sync.parseICS(calendar)).flatMap((one) =>
    one?.type === 'VEVENT'
      ? [
          {
            uid: one.uid,
            start: one.start.toISOString(),
            status: one.status ?? '',
            sequence: Number(one.sequence),
          },
        ]
      : [],
  );
}

async function fetchEvents(feed: string): Promise<Event[]> {
  const answer = await fetch(feed);
  expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
  return eventsOf(await answer.text());
}
