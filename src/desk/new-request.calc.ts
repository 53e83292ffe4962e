// The short form by which the owner types in what somebody asks for on the telephone: its answers as a request, and
// the problems of that request at the fields of the form.
import type { Temporal } from 'temporal-polyfill';

import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { PURPOSES, type Purpose } from '../sittings/consents.calc.js';
import { MOST_PLATES } from '../sittings/request.schemas.js';

type Answers = Record<string, unknown>;

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

/** The form as it is first shown: by telephone, one plate, any open day. */
export function firstTyped(
  { from, until }: { from: Temporal.PlainDate; until: Temporal.PlainDate },
  sizes: readonly { id: string }[],
): Answers {
  const parts = (name: string, { day, month, year }: Temporal.PlainDate) => ({
    [`${name}-day`]: String(day),
    [`${name}-month`]: String(month),
    [`${name}-year`]: String(year),
  });
  return {
    ...parts('suits/from', from),
    ...parts('suits/until', until),
    ...{
      reachBy: 'telephone',
      language: LANGUAGE_OF_DESK,
      count: '1',
      on: 'together',
      size: sizes[0]?.id ?? '',
    },
  };
}

/** The request as it was typed in, unchecked. Who sits stands one a line; nobody named: whoever rings. */
export function typedRequest(answers: Answers, readDate: (name: string) => string): Record<string, unknown> {
  const named = text(answers.people)
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '');
  const sitters = named.length === 0 ? [text(answers.name)] : named;
  const all = [...sitters.keys()];
  const on = text(answers.on) === 'each' ? all.map((one) => [one]) : [all];
  const typed = text(answers.count).trim();
  // One more than there may be is enough to be told.
  const count = /^\d{1,3}$/.test(typed) ? Math.min(Number(typed), MOST_PLATES + 1) : 0;
  const plates = Array.from({ length: count }, () => on)
    .flat()
    .slice(0, MOST_PLATES + 1)
    .map((people) => ({ plateSizeId: text(answers.size), sitters: people }));
  const guardian = Object.fromEntries(
    ['name', 'relation', 'reach'].map((one) => [one, text(answers[`guardian/${one}`])]),
  );
  return {
    name: text(answers.name),
    reachBy: text(answers.reachBy) || 'telephone',
    email: text(answers.email),
    telephone: text(answers.telephone),
    postalAddress: text(answers.postalAddress),
    sitters,
    plates,
    kindId: text(answers.kindId) || null,
    homeId: /^\d{1,12}$/.test(text(answers.homeId)) ? Number(answers.homeId) : 0,
    suits: { kind: 'any', from: readDate('suits/from'), until: readDate('suits/until') },
    anything: text(answers.anything),
    ...(text(answers.language) === '' ? {} : { language: text(answers.language) }),
    access: text(answers.access),
    voucher: text(answers.voucher),
    minor: text(answers.minor) === 'yes',
    guardian: Object.values(guardian).some((said) => said.trim() !== '') ? guardian : null,
  };
}

/** What was agreed to on the telephone: "show:2" is the second version of these words. Anything else is passed over. */
export function agreedTo(answers: Answers): { purpose: Purpose; version: number }[] {
  return [answers.consents].flat().flatMap((sent) => {
    const [, name, version] = /^([a-z]+):(\d{1,6})$/.exec(text(sent)) ?? [];
    const purpose = PURPOSES.find((one) => one === name);
    return purpose === undefined ? [] : [{ purpose, version: Number(version) }];
  });
}

interface Problem {
  field: string;
  message: string;
}

/** The fields of the form from top to bottom, by how their names begin. */
const ORDER = [
  ...['name', 'telephone', 'home', 'people', 'kindId', 'count', 'size', 'on', 'suits', 'anything'],
  ...['minor', 'guardian', 'access', 'voucher', 'reachBy', 'email', 'postal', 'language', ''],
];

const FIELDS: [of: RegExp, field: string, words?: string][] = [
  [/^name$/, 'name', 'Please give the name of whoever rings.'],
  [/^sitters/, 'people'],
  [/^plates$/, 'count'],
  [/^plates\/\d+\/plateSizeId/, 'size'],
  [/^plates\/\d+\/sitters/, 'on'],
];

/** The problems at the fields of the form, each field once. Whoever rings is named once, where they ring. */
export function problemsOfTyped(answers: Answers, problems: readonly Problem[]): Problem[] {
  const nobodyNamed = text(answers.people).trim() === '';
  const found = problems
    .filter(({ field }) => !(nobodyNamed && field.startsWith('sitters')))
    .map(({ field, message }) => {
      if (field === 'home' && text(answers.home).trim() === '')
        return { field, message: 'Please say where they travel from.' };
      if (field === 'plates' && /[^\d\s]/.test(text(answers.count)))
        return { field: 'count', message: 'Please give the number of plates in figures, such as 2.' };
      const [, own, words] = FIELDS.find(([of]) => of.test(field)) ?? [null, field];
      return { field: own, message: words ?? message };
    });
  const place = ({ field }: Problem) => ORDER.findIndex((start) => field.startsWith(start));
  return found
    .filter(({ field }, at) => found.findIndex((one) => one.field === field) === at)
    .sort((a, b) => place(a) - place(b));
}
