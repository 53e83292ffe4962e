// The zone of the computer must not show in a calendar file. Jest's sandbox cannot change TZ, so the feed is built
// in child processes that start in other zones, with the same sources compiled on the fly.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Module hooks: our imports end in .js where the source is .ts, and swc compiles that. */
const HOOKS = `
  import { existsSync, readFileSync } from 'node:fs';
  import { fileURLToPath } from 'node:url';
  import { transformSync } from ${JSON.stringify(import.meta.resolve('@swc/core'))};
  export async function resolve(specifier, context, next) {
    if (/^\\.{1,2}\\//.test(specifier)) {
      const url = new URL(specifier.replace(/\\.js$/, '.ts'), context.parentURL);
      if (existsSync(url)) return { url: url.href, shortCircuit: true };
    }
    return next(specifier, context);
  }
  export async function load(url, context, next) {
    if (!url.endsWith('.ts')) return next(url, context);
    const source = readFileSync(fileURLToPath(url), 'utf8');
    const options = { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' }, module: { type: 'es6' } };
    return { format: 'module', source: transformSync(source, options).code, shortCircuit: true };
  }`;

const PROGRAM = `
  import { register } from 'node:module';
  register('data:text/javascript,' + encodeURIComponent(${JSON.stringify(HOOKS)}));
  const { buildFeed } = await import('./src/calendar/ics.calc.ts');
  const { anEntry, kittiwakeFeed, wall, at } = await import('./test/support/calendar-entries.ts');
  const feed = kittiwakeFeed();
  // Wall times that one of the server zones, or the zone data inside Node, skips.
  const skipped = [
    anEntry({ uid: 'la', start: wall('2027-03-14T02:30'), end: wall('2027-03-14T02:45'),
      startInstant: at('2027-03-14T02:30:00Z'), endInstant: at('2027-03-14T02:45:00Z') }),
    anEntry({ uid: 'bc', zone: 'America/Vancouver', start: wall('2027-03-14T02:30'), end: wall('2027-03-14T02:45'),
      startInstant: at('2027-03-14T09:30:00Z'), endInstant: at('2027-03-14T09:45:00Z') }),
  ];
  const offset = new Date(0).getTimezoneOffset();
  console.log(JSON.stringify({ offset, golden: buildFeed(feed), skipped: buildFeed({ ...feed, entries: skipped }) }));`;

function buildIn(TZ: string): { offset: number; golden: string; skipped: string } {
  const args = ['--input-type=module', '--eval', PROGRAM];
  const output = execFileSync(process.execPath, args, {
    cwd: root,
    env: { PATH: process.env.PATH, TZ },
    encoding: 'utf8',
  });
  return JSON.parse(output);
}

describe.each([
  ['UTC', 0],
  ['America/Los_Angeles', 480],
  ['Pacific/Auckland', -720],
])('on a server in %s', (zone, offset) => {
  const built = buildIn(zone);

  test('the child process is in that zone', () => {
    expect(built.offset).toBe(offset);
  });

  test('the feed is the golden one', () => {
    expect(built.golden).toBe(readFileSync(`${root}/test/golden/calendar/feed.ics`, 'utf8'));
  });

  test('wall times that this zone or Node’s zone data skips stay as they are', () => {
    expect(built.skipped.match(/^DT(START|END);.*(?=\r)/gmu)).toEqual([
      'DTSTART;TZID=Europe/London:20270314T023000',
      'DTEND;TZID=Europe/London:20270314T024500',
      'DTSTART;TZID=America/Vancouver:20270314T023000',
      'DTEND;TZID=America/Vancouver:20270314T024500',
    ]);
  });
});
