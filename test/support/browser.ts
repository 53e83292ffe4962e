// The machine's own Chromium without a screen, and a watch on what pages do behind one's back.
import { existsSync } from 'node:fs';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

const CHROMIUM = process.env.TEST_CHROMIUM ?? '/usr/bin/chromium';

/** Root needs --no-sandbox; the others keep Chromium from asking the network for anything of its own. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 800 };

export async function startBrowser(): Promise<Browser> {
  if (!existsSync(CHROMIUM))
    throw new Error(`There is no ${CHROMIUM}: install Chromium, or name it in TEST_CHROMIUM.`);
  return chromium.launch({ executablePath: CHROMIUM, args: FLAGS });
}

/**
 * Everything a page of ours must not cause, in a list that grows as it happens: messages of the console
 * (refusals by the content security policy are among them), errors of scripts, answers of 400 and above,
 * requests that failed, requests to another host than `base`.
 */
export function watch(context: BrowserContext, base: string): string[] {
  const complaints: string[] = [];
  const path = (url: string) => url.replace(base, '');
  context.on('console', (message) => {
    // "Failed to load resource" repeats an answer that the list has already, with its address.
    if (['error', 'warning'].includes(message.type()) && !/^Failed to load resource/.test(message.text()))
      complaints.push(`${message.type()}: ${message.text()}`);
  });
  context.on('weberror', (error) => complaints.push(`script: ${error.error().message}`));
  context.on('request', (request) => {
    if (!request.url().startsWith(`${base}/`)) complaints.push(`other host: ${request.url()}`);
  });
  context.on('response', (response) => {
    if (response.status() >= 400)
      complaints.push(`${response.status()} ${response.request().method()} ${path(response.url())}`);
  });
  context.on('requestfailed', (request) => {
    const reason = request.failure()?.errorText ?? '';
    // A page that is left, or a type-ahead question that was overtaken, gives its requests up.
    if (reason !== 'net::ERR_ABORTED') complaints.push(`failed: ${path(request.url())} ${reason}`);
  });
  return complaints;
}

/** Signs in as people do; the page is then at the desk. */
export async function signInAt(page: Page, home: string, email: string, password: string): Promise<void> {
  await page.goto(`${home}/sign-in`);
  await page.getByLabel('E-mail address').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL(`${home}/desk`);
}
