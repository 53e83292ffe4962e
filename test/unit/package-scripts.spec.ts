// What package.json promises: each build takes the files along that are no source, such as the solver's thread and the
// styles, so that it runs on its own; what is installed is known to the last byte.
import { existsSync, readFileSync } from 'node:fs';
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

it('every package is named by one version, and the lock file knows it and all it brings along by their sums', () => {
  const read = (name: string): unknown =>
    JSON.parse(readFileSync(join(import.meta.dirname, '../..', name), 'utf8'));
  const versions = z.record(z.string(), z.string());
  const named = z.object({
    dependencies: versions,
    devDependencies: versions,
    optionalDependencies: versions,
    overrides: versions,
  });
  const asked = Object.values(named.parse(read('package.json'))).flatMap((one) => Object.entries(one));
  expect(asked.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
  const locked = z.object({ packages: z.record(z.string(), z.object({ integrity: z.string().optional() })) });
  const { '': _, ...packages } = locked.parse(read('package-lock.json')).packages;
  expect(Object.keys(packages).length).toBeGreaterThan(asked.length);
  const unknown = Object.entries(packages).filter(([, { integrity }]) => !/^sha512-/.test(integrity ?? ''));
  expect(unknown.map(([name]) => name)).toEqual([]);
});

it('every program that a script starts has its source', () => {
  const root = join(import.meta.dirname, '../..');
  const { scripts } = file.parse(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')));
  const started = Object.values(scripts).flatMap(
    (script) => / dist\/((?:src|seed)\/\S+)\.js/.exec(script)?.[1] ?? [],
  );
  expect(started).toEqual(expect.arrayContaining(['src/main', 'src/restore', 'src/second-step-off']));
  expect(started.filter((name) => !existsSync(join(root, `${name}.ts`)))).toEqual([]);
});
