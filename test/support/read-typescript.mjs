// Hooks for a thread that tests start from the source: './x.js' is './x.ts' where only that is there, read through swc.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { transformFile } from '@swc/core';

export function resolve(specifier, context, next) {
  if (specifier.startsWith('.') && specifier.endsWith('.js')) {
    const url = new URL(specifier.replace(/\.js$/, '.ts'), context.parentURL);
    if (existsSync(url)) return { url: url.href, format: 'module', shortCircuit: true };
  }
  return next(specifier, context);
}

export async function load(url, context, next) {
  if (!url.endsWith('.ts')) return next(url, context);
  const { code } = await transformFile(fileURLToPath(url), { sourceMaps: 'inline' });
  return { format: 'module', source: code, shortCircuit: true };
}
