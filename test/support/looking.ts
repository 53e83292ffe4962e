// What can be measured of a page as it stands in the browser: its width, its targets, the way of the Tab key.
import type { Page } from 'playwright-core';

/** What reaches beyond the right edge of the window, if the page is wider than it. */
export function overflow(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const beyond = [...document.querySelectorAll('body *')].filter(
      (one) => one.getBoundingClientRect().right > clientWidth,
    );
    return [`${scrollWidth - clientWidth} pixels too wide: ${beyond.at(-1)?.outerHTML.slice(0, 100)}`];
  });
}

/** Texts that are cut off because their box does not grow with them. */
export function cutTexts(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('body *')]
      .filter((one) => !one.closest('.unseen, svg') && one.checkVisibility())
      .filter((one) => !/^(INPUT|TEXTAREA|SELECT)$/.test(one.tagName))
      .filter((one) => getComputedStyle(one).overflow !== 'visible' && one.scrollWidth > one.clientWidth + 1)
      .map((one) => one.outerHTML.slice(0, 80)),
  );
}

/**
 * Links, buttons and fields smaller than `least` pixels either way. A tick or radio button counts with the
 * line that holds its label; a link within a sentence is as high as the sentence (WCAG 2.2, 2.5.8 "inline").
 */
export function smallTargets(page: Page, least: number): Promise<string[]> {
  return page.evaluate((pixels) => {
    const targets = document.querySelectorAll<HTMLElement>(
      'a[href], button, input, select, textarea, summary',
    );
    const inSentence = (one: HTMLElement) =>
      one.tagName === 'A' &&
      getComputedStyle(one).display === 'inline' &&
      [...(one.parentElement?.childNodes ?? [])].some(
        (beside) => beside !== one && /\w/.test(beside.textContent ?? ''),
      );
    return [...targets].flatMap((one) => {
      if (!one.checkVisibility() || one.closest('.skip') || inSentence(one)) return [];
      const whole = one.matches('[type=radio], [type=checkbox]') ? (one.closest('.choice') ?? one) : one;
      const { width, height } = whole.getBoundingClientRect();
      if (width >= pixels && height >= pixels) return [];
      return [`${Math.round(width)} x ${Math.round(height)}: ${one.outerHTML.slice(0, 100)}`];
    });
  }, least);
}

/** What is wrong with the summary of a form's mistakes: it has the focus, and each line leads to its field. */
export function summaryFaults(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const summary = document.querySelector('.error-summary');
    if (!summary) return ['There is no summary of mistakes.'];
    const faults: string[] = [];
    if (document.activeElement !== summary) faults.push('The summary does not have the focus.');
    if (!document.title.startsWith('Error: ')) faults.push(`The title is "${document.title}".`);
    const links = [...summary.querySelectorAll('a')];
    if (links.length === 0) faults.push('The summary has no links.');
    for (const link of links) {
      const field = document.querySelector<HTMLElement>(link.hash);
      const message = document.querySelector(`${link.hash}-error`);
      if (!field?.matches('input, select, textarea')) faults.push(`${link.hash} is no field.`);
      else if (!field.checkVisibility()) faults.push(`${link.hash} cannot be seen.`);
      else if (field.getAttribute('aria-invalid') !== 'true') faults.push(`${link.hash} is not marked.`);
      if (!message?.textContent.endsWith(link.textContent)) faults.push(`${link.hash} says otherwise.`);
    }
    return faults;
  });
}

export interface Walk {
  /** What the Tab key should come to and does not. */
  missed: string[];
  /** Where the focus cannot be seen, or something lies over it. */
  hidden: string[];
  steps: number;
}

/** Presses at one go; those after the end of the way count for nothing. */
const STRIDE = 16;
const TAB = { key: 'Tab', code: 'Tab', windowsVirtualKeyCode: 9 };

/** Goes through the whole page with the Tab key. */
export async function walkWithTab(page: Page): Promise<Walk> {
  await page.evaluate(watchSteps);
  const session = await page.context().newCDPSession(page);
  let walked = { steps: 0, hidden: [] as string[], ended: false };
  while (!walked.ended && walked.steps < 500) {
    const keys = Array.from({ length: STRIDE }, () => ['rawKeyDown', 'keyUp'] as const).flat();
    await Promise.all(keys.map((type) => session.send('Input.dispatchKeyEvent', { type, ...TAB })));
    walked = await page.evaluate(() => (window as unknown as { walked: typeof walked }).walked);
  }
  await session.detach();
  const missed = await page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    const { reached } = window as unknown as { reached: Set<Element> };
    const names = new Set(
      [...reached].map((one) => one.getAttribute('type') === 'radio' && one.getAttribute('name')),
    );
    return [...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary')]
      .filter((one) => one.checkVisibility() && !one.matches(':disabled, [type=hidden], [tabindex="-1"]'))
      .filter(
        (one) => !reached.has(one) && !(one.matches('[type=radio]') && names.has(one.getAttribute('name'))),
      )
      .map((one) => one.outerHTML.slice(0, 100));
  });
  return { missed, hidden: walked.hidden, steps: walked.steps };
}

/** Runs in the page: from its top on, each step is looked at as the key is let go, until the way ends. */
function watchSteps(): void {
  const reached = new Set<Element>();
  const walked = { steps: 0, hidden: [] as string[], ended: false };
  Object.assign(window, { reached, walked });
  document.body.tabIndex = -1;
  document.body.focus();
  document.body.removeAttribute('tabindex');
  const look = ({ key }: KeyboardEvent) => {
    if (key !== 'Tab' || walked.ended) return;
    walked.steps += 1;
    const fault = stepTaken();
    if (fault === null) walked.ended = true;
    else if (fault) walked.hidden.push(fault);
  };
  const { watching } = window as unknown as { watching?: typeof look };
  if (watching) removeEventListener('keyup', watching, true);
  addEventListener('keyup', look, true);
  Object.assign(window, { watching: look });

  /** '' for a good step, what is wrong with it, or null at the end of the way. */
  function stepTaken(): string | null {
    const one = document.activeElement as HTMLElement | null;
    if (!one || one === document.body || reached.has(one)) return null;
    reached.add(one);
    const style = getComputedStyle(one);
    const name = one.outerHTML.slice(0, 100);
    if (style.outlineStyle === 'none' || Number.parseFloat(style.outlineWidth) < 2)
      return `no outline: ${name}`;
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const middle = (from: number, to: number, end: number) => (Math.max(from, 0) + Math.min(to, end)) / 2;
    const above = document.elementFromPoint(
      middle(left, right, innerWidth),
      middle(top, bottom, innerHeight),
    );
    return above && (one.contains(above) || above.contains(one)) ? '' : `covered or out of sight: ${name}`;
  }
}
