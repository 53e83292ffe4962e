// Hooks of module loading for tests and for threads that they start, which run the source in plain Node: './x.js' is
// './x.ts' or './x.tsx' where only that is there, read through swc; what tests import from '@jest/globals' is what the
// runner has set.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { transformFile } from '@swc/core';

const GLOBALS = new URL('jest-globals.mjs', import.meta.url).href;

export function resolve(specifier, context, next) {
  if (specifier === '@jest/globals') return { url: GLOBALS, format: 'module', shortCircuit: true };
  if (specifier.startsWith('.') && specifier.endsWith('.js'))
    for (const ending of ['.ts', '.tsx']) {
      const url = new URL(specifier.replace(/\.js$/, ending), context.parentURL);
      if (existsSync(url)) return { url: url.href, format: 'module', shortCircuit: true };
    }
  return next(specifier, context);
}

export async function load(url, context, next) {
  if (!/\.tsx?(\?|$)/.test(url)) return next(url, context);
  const { code } = await transformFile(fileURLToPath(url), { sourceMaps: 'inline' });
  return { format: 'module', source: code, shortCircuit: true };
}
