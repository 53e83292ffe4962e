// The registry of problems, the table of codes in DEVELOPERS.md and the program say the same.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CONSTRAINT_PROBLEMS } from '../../src/platform/db/constraints.js';
import { PROBLEMS, type ProblemCode } from '../../src/platform/problems.js';
import { toAppError } from '../../src/platform/problem-filter.js';

const root = join(import.meta.dirname, '../..');
const codes = Object.keys(PROBLEMS) as ProblemCode[];

/** Rows of the table: | `code` | status | when | */
const rows = [
  ...readFileSync(join(root, 'DEVELOPERS.md'), 'utf8').matchAll(/^\| `([a-z_]+)` \| (\d{3}) \| (.+) \|$/gm),
].map(([, code = '', status = '', when = '']) => ({ code, status: Number(status), when }));

const sources = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('platform/problems.ts'))
  .map((name) => readFileSync(join(root, 'src', name), 'utf8'));

it('DEVELOPERS.md lists every code with its status, in the order of the registry, and none that is gone', () => {
  expect(rows.map(({ code, status }) => [code, status])).toEqual(
    codes.map((code) => [code, PROBLEMS[code].status]),
  );
  for (const { when } of rows) expect(when).toMatch(/\S/);
});

it('every code is thrown somewhere', () => {
  const thrown = new Set<string>();
  for (const source of sources)
    for (const [, inside = ''] of source.matchAll(/new AppError\(\s*([^,)]+)/g))
      for (const [, code = ''] of inside.matchAll(/'([a-z_]+)'/g)) thrown.add(code);
  for (const code of Object.values(CONSTRAINT_PROBLEMS)) thrown.add(code);
  for (let status = 400; status < 600; status++)
    thrown.add(toAppError(Object.assign(new Error('x'), { statusCode: status })).code);
  expect([...thrown].sort()).toEqual([...codes].sort());
});

it('what a person reads is a plain phrase, and tells nothing of the inside', () => {
  for (const code of codes) {
    expect(PROBLEMS[code].title).toMatch(/^[A-Z][^_<>{}]+[^.]$/);
    expect(PROBLEMS[code].title).not.toMatch(/\b(error|exception|null|undefined|SQL|invalid)\b/i);
  }
});

it('failures that nobody foresaw are "broken"; refusals of the web server keep their meaning', () => {
  const of = (statusCode?: number) => toAppError(Object.assign(new Error('inside'), { statusCode })).code;
  expect([of(), of(500), of(418), of(400), of(404), of(413), of(415), of(429)]).toEqual([
    ...['broken', 'broken', 'broken', 'unreadable', 'not_found', 'too_large', 'unreadable'],
    'too_many_requests',
  ]);
  for (const odd of [undefined, null, 'text', 7, {}]) {
    expect(toAppError(odd).code).toBe('broken');
    expect(toAppError(odd).detail).toBe(PROBLEMS.broken.title);
  }
});
