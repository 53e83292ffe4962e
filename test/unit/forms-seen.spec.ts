// Each form that shows answers already there carries a mark of them (`shown`, src/platform/seen.ts), so that nobody's change
// is overwritten unseen; or it stands here with its reason. A new form without a mark fails this.
import { describe, expect, it } from '@jest/globals';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const src = join(import.meta.dirname, '../../src');

/** Why a form goes without a mark. */
const ADDS = 'it makes something new, or adds a line to what is only added to';
const ONCE = 'an act of one state: whoever is second is refused by the state';
const PREVIEW = 'a preview tells old beside new, and is confirmed only as it was seen';
const VERSION = 'it carries the version it began with, and an older one is refused';
const CHOICE = 'one choice, where the last word goes: see "Not done yet" in DEVELOPERS.md';

/** By file, in the order of their forms. */
const WITHOUT: Record<string, string[]> = {
  'accounts/accounts.pages.tsx': [ONCE, ONCE],
  'desk/account/colleagues.pages.tsx': [ADDS],
  'desk/bring-in/bring-in.pages.tsx': [ADDS],
  'desk/calendar.pages.tsx': [ADDS],
  'desk/day-endings.pages.tsx': [ONCE],
  'desk/light-notes.pages.tsx': [ADDS],
  'desk/move.pages.tsx': [ONCE, ONCE],
  'desk/new-request.pages.tsx': [ADDS],
  'desk/plan.pages.tsx': [ADDS, ONCE],
  'desk/plates/hand-over.pages.tsx': [ONCE, ADDS],
  'desk/plates/hand-overs.pages.tsx': [ADDS],
  'desk/plates/type-in.pages.tsx': [VERSION],
  'desk/plates/vouchers.pages.tsx': [ONCE],
  'desk/prepare-task.pages.tsx': [CHOICE],
  'desk/reminders/messages.pages.tsx': [CHOICE],
  'desk/reminders/wordings.pages.tsx': [VERSION, VERSION],
  'desk/request.pages.tsx': [ONCE],
  'desk/set-up/claim.pages.tsx': [ONCE],
  'desk/set-up/set-up.pages.tsx': [ONCE, ADDS],
  'desk/settings/frame.pages.tsx': [PREVIEW],
  'desk/settings/outside.pages.tsx': [ADDS],
  'desk/settings/words.pages.tsx': [VERSION],
  'desk/shelf/bath-forms.pages.tsx': [ADDS],
  'desk/shelf/baths.pages.tsx': [ADDS],
  'desk/shelf/bench-card.pages.tsx': [ADDS],
  'desk/shelf/faults.pages.tsx': [ADDS],
  'desk/shelf/formula.pages.tsx': [VERSION],
  'desk/shelf/formulas.pages.tsx': [ADDS],
  'desk/shelf/lot-act.pages.tsx': [ADDS],
  'desk/shelf/new-item.pages.tsx': [ADDS],
  'desk/shelf/orders.pages.tsx': [ADDS, ADDS],
  'desk/shelf/receive.pages.tsx': [ADDS],
  'desk/teaching/by-hand.pages.tsx': [ADDS],
  'platform/html/kit/language.tsx': [CHOICE],
  'sittings/ask.pages.tsx': [ADDS],
  'teaching/teaching.pages.tsx': [ADDS],
};

const formsIn = (text: string): string[] =>
  [...text.matchAll(/<Form\b/g)].map(({ index }) => openingTag(text.slice(index)));
const isMarked = (tag: string) => /\bshown=/.test(tag);

/** The opening tags of forms that are sent and have answers in them, but no mark. */
const unmarked = (text: string): string[] =>
  formsIn(text).filter((tag) => /\bvalues=/.test(tag) && !isMarked(tag) && !/\bmethod="get"/.test(tag));

/** Up to the ">" that stands in no braces. */
function openingTag(text: string): string {
  let depth = 0;
  for (const [at, sign] of [...text].entries()) {
    if (sign === '{') depth += 1;
    if (sign === '}') depth -= 1;
    if (sign === '>' && depth === 0) return text.slice(0, at);
  }
  return text;
}

const pages = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((one) => one.endsWith('.tsx'))
  .sort();
const textOf = (file: string) => readFileSync(join(src, file), 'utf8');

describe('a form with answers in it', () => {
  it('carries a mark of what it shows, or is named here with its reason', () => {
    const found = pages.map((file) => [file, unmarked(textOf(file)).length] as const);
    const named = Object.entries(WITHOUT).map(([file, reasons]) => [file, reasons.length]);
    expect(Object.fromEntries(found.filter(([, count]) => count > 0))).toEqual(Object.fromEntries(named));
  });

  it.each(pages.filter((file) => formsIn(textOf(file)).some(isMarked)))(
    'of %s is missed without its mark',
    (file) => {
      const text = textOf(file);
      const bare = text.replace(/\s+shown=\{(?:[^{}]|\{[^{}]*\})*\}/g, '');
      expect(bare).not.toBe(text);
      expect(unmarked(bare).length).toBeGreaterThan(unmarked(text).length);
    },
  );
});
