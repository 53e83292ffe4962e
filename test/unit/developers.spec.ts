// DEVELOPERS.md names tests that are there: each spec file it mentions, and in the table of OWASP ASVS each title.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { rowNames, titles } from '../support/spec-titles.js';

const root = join(import.meta.dirname, '../..');
const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');

/** Spec files that a text mentions, without their folder where it is that of the one before. `*` stands for any. */
function mentioned(of: string): string[] {
  let folder = '';
  return [...of.matchAll(/`((?:test\/\w+\/)?)([\w.*-]+\.spec\.tsx?)`/g)].map(([, named = '', file = '']) => {
    folder = named || folder;
    return folder + file;
  });
}

const specs = readdirSync(join(root, 'test'), { recursive: true, encoding: 'utf8' }).map(
  (one) => `test/${one}`,
);

const missing = (names: string[]) =>
  names.filter((name) => {
    const pattern = new RegExp(`^${name.replaceAll('.', '\\.').replaceAll('*', '[\\w.-]*')}$`);
    return !specs.some((one) => pattern.test(one));
  });

/** "file: title" of every title that stands after a file in a cell and is in no test of it. */
function unknownTitles(cell: string): string[] {
  let file = '';
  let known: string[] = [];
  const unknown: string[] = [];
  for (const [, named, title] of cell.matchAll(/`(test\/[^`]+)`|"([^"]+)"/g)) {
    if (named !== undefined) {
      file = named;
      const spec = readFileSync(join(root, file), 'utf8');
      known = [...titles(file, spec).map((one) => one.split(' > ').at(-1) ?? ''), ...rowNames(file, spec)];
    } else if (!known.includes(title ?? '')) unknown.push(`${file}: ${title}`);
  }
  return unknown;
}

const [, table = ''] = text.split(/^## OWASP ASVS.*$/m);
const rows = [...table.matchAll(/^\| (\d.+?) \| (.+) \| (.*)\|$/gm)].map(
  ([, what = '', tests = '', limit = '']) => ({
    what,
    tests,
    limit: limit.trim(),
  }),
);

it('each line names spec files that are there', () => {
  expect(missing(mentioned('`test/db/jobs.spec.ts`, `gone.spec.ts`; `test/unit/s*n.spec.ts`'))).toEqual([
    'test/db/gone.spec.ts',
  ]);
  expect(mentioned(text).length).toBeGreaterThan(200);
  for (const line of text.split('\n')) expect(missing(mentioned(line))).toEqual([]);
});

it('each other file it names is there, by that name or below a folder', () => {
  const all = ['src', 'test', 'migrations', 'seed'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((one) => `${folder}/${one}`),
  );
  const gone = (of: string) =>
    [...of.matchAll(/`((?!x\.)[\w./-]+\.(?:tsx?|mjs|sql))`/g)]
      .flatMap(([, name = '']) => (name.includes('.spec.') ? [] : [name]))
      .filter((name) => ![...all, 'jest.config.mjs'].some((one) => `/${one}`.endsWith(`/${name}`)));
  expect(gone('`room/room.service.ts`, `gone.calc.ts`')).toEqual(['gone.calc.ts']);
  expect(gone(text)).toEqual([]);
});

it('each requirement of the table has tests by titles that are there, or says that it is not met', () => {
  expect(unknownTitles('`test/db/jobs.spec.ts` "no test has this title", "nor this"')).toHaveLength(2);
  expect(rows.length).toBeGreaterThan(45);
  for (const { what, tests, limit } of rows) {
    expect(what).toMatch(/^\d+\.\d+\.\d+ \([12]\)/);
    if (tests === 'none') expect([what, limit]).toEqual([what, expect.stringMatching(/^\*\*not met\*\*/)]);
    else expect([what, tests]).toEqual([what, expect.stringMatching(/^`test\/\S+\.spec\.tsx?` "/)]);
  }
  expect(table.split('\n').flatMap(unknownTitles)).toEqual([]);
});

it('no requirement stands in two rows', () => {
  const ids = rows.flatMap(({ what }) => what.match(/\d+\.\d+\.\d+(?= \()/g) ?? []);
  expect(ids.length).toBeGreaterThan(70);
  expect(ids.filter((one, at) => ids.indexOf(one) !== at)).toEqual([]);
});
