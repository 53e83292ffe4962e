// Habits of this repository that no linter knows: tests that always run and can be told apart, files
// that hold on every machine, SQL that reads no clock, markup in its place, one list of checks.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { titles } from '../support/spec-titles.js';

const root = join(import.meta.dirname, '../..');
/** Also files not yet committed, so that a mistake shows before it is. */
const tracked = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
  cwd: root,
  encoding: 'utf8',
})
  .split('\0')
  .filter((name) => name !== '' && existsSync(join(root, name)));
const read = (name: string) => readFileSync(join(root, name), 'utf8');
const specs = tracked.filter((name) => /^test\/.*\.spec\.tsx?$/.test(name));

/** "file:line: text" of every line of `names` that `pattern` finds. */
function lines(names: string[], pattern: RegExp): string[] {
  return names.flatMap((name) =>
    read(name)
      .split('\n')
      .flatMap((line, at) => (pattern.test(line) ? [`${name}:${at + 1}: ${line.trim().slice(0, 120)}`] : [])),
  );
}

const repeated = (all: string[]) => all.filter((one, at) => all.indexOf(one) !== at);

describe('tests', () => {
  it('are never singled out, and left out only where the line names the condition', () => {
    const singled = /[.]only\b|\b(fit|fdescribe)\(/;
    const leftOut =
      /(?<!\? (it|test|describe) : )\b(it|test|describe)\.(skip|todo|failing)\b|\b(xit|xtest|xdescribe)\(/;
    expect(lines(specs, singled)).toEqual([]);
    expect(lines(specs, leftOut)).toEqual([]);
    expect(leftOut.test(`it.${'skip'}('a', f)`) && !leftOut.test(`root ? it : it.${'skip'}`)).toBe(true);
  });

  it('have a title of their own within their file', () => {
    const sample =
      "describe('a', () => { it('b', f); it.each([1])('b', f); }); describe('c', () => { it('b', f); });";
    expect(repeated(titles('sample.spec.ts', sample))).toEqual(['a > b']);
    expect(
      specs.flatMap((name) => repeated(titles(name, read(name))).map((title) => `${name}: ${title}`)),
    ).toEqual([]);
  });
});

describe('files', () => {
  it('name no folder of one machine and nothing outside the repository', () => {
    const folders = ['work', 'tmp', 'root', 'home'].join('|');
    const outside = ['..', 'shared'].join('/');
    const pattern = new RegExp(`(?<![\\w.*-])/(${folders})/|${outside.replaceAll('.', '\\.')}\\b`);
    expect(pattern.test(`see ${outside}/notes`) && pattern.test(` /${'tmp'}/x`)).toBe(true);
    const text = tracked.filter((name) => !/\.(png|gz|woff2|ico)$/.test(name));
    expect(lines(text, pattern)).toEqual([]);
  });

  it('tie the packages to no registry', () => {
    expect(lines(['package-lock.json'], /"resolved": "http/)).toEqual([]);
  });

  it('keep markup in pages and the html shell', () => {
    const markup = tracked.filter((name) => /^src\/.*\.tsx$/.test(name));
    expect(markup.filter((name) => !/\.pages\.tsx$|^src\/platform\/html\//.test(name))).toEqual([]);
  });
});

describe('migrations', () => {
  const clock =
    /\b(now|clock_timestamp|statement_timestamp|transaction_timestamp|timeofday)\s*\(|\b(current_(timestamp|date|time)|localtime(stamp)?)\b|\bat\s+time\s+zone\b/i;
  const code = (text: string) => text.replace(/--.*$/gm, '');

  it('read no clock and convert no zone', () => {
    expect(clock.test(code('alter table x alter y set default now(); -- now'))).toBe(true);
    expect(clock.test(code('-- the clock is not read: now()\nselect known(1)'))).toBe(false);
    const migrations = tracked.filter((name) => /^migrations\/.*\.sql$/.test(name));
    expect(migrations.length).toBeGreaterThan(0);
    expect(migrations.filter((name) => clock.test(code(read(name))))).toEqual([]);
  });
});

describe('checks', () => {
  it('run in .ci/run and in npm test alike', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const steps = (name: string): string[] => {
      const parts = (scripts[name] ?? '').split(' && ').map((part) => /^npm run -s (\S+)$/.exec(part)?.[1]);
      return parts.every((part) => part !== undefined) ? parts.flatMap((part) => steps(part)) : [name];
    };
    const inCi = [...read('.ci/run').matchAll(/^step (\S+)/gm)].map(([, name]) => name);
    expect(steps('test')).toContain('unit');
    expect(inCi).toEqual(expect.arrayContaining(steps('test')));
  });
});
