// The order of the test files: those that take longest begin first, so that at the end of a run no core waits for the
// other. The others as jest has them.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Sequencer from '@jest/test-sequencer';

const TESTS = join(import.meta.dirname, '..');
const LONG = [
  'browser/accessibility.spec.ts',
  'browser/accessibility-bench.spec.ts',
  'browser/main-job.spec.ts',
  'db/races.spec.ts',
  'db/start.spec.ts',
  'db/simulated-year.spec.ts',
  'db/nobody-silent.spec.ts',
  'db/nobody-silent-teaching.spec.ts',
  'http/who-may.spec.ts',
  'db/closures.spec.ts',
  'unit/rota-optimum.spec.ts',
  'architecture/bans.spec.ts',
  'architecture/rules.spec.ts',
].map((name) => join(TESTS, name));

export default class LongestFirst extends Sequencer {
  sort(tests) {
    for (const path of LONG) if (!existsSync(path)) throw new Error(`There is no ${path}.`);
    const place = ({ path }) => (LONG.includes(path) ? LONG.indexOf(path) : LONG.length);
    return super.sort(tests).sort((a, b) => place(a) - place(b));
  }
}
