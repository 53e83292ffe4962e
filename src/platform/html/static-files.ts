// Our style sheet, script and pictures: read once at start, served from memory under names that carry a
// hash of their bytes, so a browser may keep each for ever and a new version has a new name.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { FastifyInstance } from 'fastify';
import { takesGzip } from '../compress.js';

const KINDS: Record<string, string> = {
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.svg': 'image/svg+xml',
};

export interface StaticFile {
  /** "app.css" */
  name: string;
  /** "/static/app.3f9a1c0b2d.css" */
  url: string;
  type: string;
  bytes: Buffer;
  /** The same, compressed with gzip. */
  packed: Buffer;
}

/** The parts of app.css, in the order in which they are joined. */
const STYLES = [
  'ground',
  'letterhead',
  'signs',
  'forms',
  'facts',
  'days',
  'work',
  'shelf',
  'stock',
  'desk',
  'rota',
  'senses',
];

function readStaticFiles(): StaticFile[] {
  const folder = new URL('./static/', import.meta.url);
  const names = readdirSync(fileURLToPath(folder)).filter((name) => extname(name) in KINDS);
  return ['app.css', ...names].map((name) => {
    const parts = name === 'app.css' ? STYLES.map((style) => `styles/${style}.css`) : [name];
    const bytes = Buffer.concat(parts.map((part) => readFileSync(new URL(part, folder))));
    const hash = createHash('sha256').update(bytes).digest('hex').slice(0, 10);
    const ending = extname(name);
    const url = `/static/${name.slice(0, -ending.length)}.${hash}${ending}`;
    return { name, url, type: KINDS[ending] ?? '', bytes, packed: gzipSync(bytes, { level: 9 }) };
  });
}

export const staticFiles: readonly StaticFile[] = readStaticFiles();
const urls = new Map(staticFiles.map((file) => [file.name, file.url]));

/** The address of a file in the folder static. @throws Error when there is no such file */
export function assetUrl(name: string): string {
  const url = urls.get(name);
  if (url === undefined) throw new Error(`There is no file ${name} in src/platform/html/static.`);
  return url;
}

const KEEP_A_YEAR = 'public, max-age=31536000, immutable';

export function serveStatic(app: FastifyInstance): void {
  for (const file of staticFiles) {
    app.get(file.url, (request, reply) => {
      const packs = takesGzip(request.headers['accept-encoding']);
      reply
        .header('content-type', file.type)
        .header('cache-control', KEEP_A_YEAR)
        .header('vary', 'accept-encoding');
      if (packs) reply.header('content-encoding', 'gzip');
      return reply.send(packs ? file.packed : file.bytes);
    });
  }
}
