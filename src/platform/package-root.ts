// The folder that holds package.json, whether the program runs from src or from dist.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

function find(from: string): string {
  if (existsSync(join(from, 'package.json'))) return from;
  if (from === dirname(from)) throw new Error('The folder of package.json was not found above the program.');
  return find(dirname(from));
}

export const packageRoot = find(dirname(fileURLToPath(import.meta.url)));
