// What the scripts of package.json promise: each build takes the files along that are no source, such as the solver's
// thread and the styles, so that it runs on its own.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from '@jest/globals';
import { z } from 'zod';

const file = z.object({ scripts: z.record(z.string(), z.string()) });

it('every build copies what is no source', () => {
  const text = readFileSync(join(import.meta.dirname, '../../package.json'), 'utf8');
  const { scripts } = file.parse(JSON.parse(text));
  const builds = Object.entries(scripts).filter(([, script]) => /(^|\s)swc\s/.test(script));
  expect(builds.map(([name]) => name).sort()).toEqual(['bench', 'build']);
  for (const [name, script] of builds)
    expect([name, script]).toEqual([name, expect.stringContaining('--copy-files')]);
});
