// Builds the web application on a platform; does not listen.
import type { IncomingMessage } from 'node:http';
import type { DynamicModule } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { compressTexts } from './compress.js';
import { serveStatic } from './html/static-files.js';
import { KnownKeysGuard } from './known-keys.js';
import type { Platform } from './platform.module.js';
import { ProblemFilter } from './problem-filter.js';
import { FormGuard } from './security/forms.js';
import { oneClickBody } from './security/one-click.js';
import { raiseShield } from './security/shield.js';
import { takeUploads } from './uploads.js';

const BODY_LIMIT = 256 * 1024;

export async function buildApp(root: DynamicModule, platform: Platform): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    bodyLimit: BODY_LIMIT,
    trustProxy: platform.config.trustProxy && nearestHop,
    rewriteUrl: (request: IncomingMessage) => readableAddress(request.url ?? '/'),
    routerOptions: { maxParamLength: 16_384 }, // Node takes no longer address; ours then say "not found"
  });
  const app = await NestFactory.create<NestFastifyApplication>(root, adapter, {
    logger: ['error', 'warn'],
    abortOnError: false,
  });
  const fastify = adapter.getInstance();
  await raiseShield(fastify, platform.config);
  takeUploads(fastify, oneClickBody);
  compressTexts(fastify);
  serveStatic(fastify);
  app.useGlobalFilters(new ProblemFilter(platform.config));
  app.useGlobalGuards(new FormGuard(platform.config), new KnownKeysGuard());
  await app.init();
  await fastify.ready();
  return app;
}

/** X-Forwarded-For is believed for what the proxy added; what stands before that a visitor wrote. */
const nearestHop = (_address: string, hop: number) => hop === 0;

/**
 * An address that cannot be decoded, or holds a NUL, which PostgreSQL has no text for, is nowhere: it goes
 * on as one that does not exist, so that the refusal passes the shield like any other.
 */
function readableAddress(url: string): string {
  const path = url.replace(/[?#].*$/s, '');
  try {
    if (!decodeURIComponent(path).includes('\0')) return url;
  } catch {
    // Not UTF-8, or a lone per cent sign.
  }
  return path.startsWith('/api/') ? '/api/unreadable' : '/unreadable';
}
