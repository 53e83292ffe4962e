// Builds the web application on a platform; does not listen.
import type { DynamicModule } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { serveStatic } from './html/static-files.js';
import type { Platform } from './platform.module.js';
import { ProblemFilter } from './problem-filter.js';
import { FormGuard } from './security/forms.js';
import { raiseShield } from './security/shield.js';

const BODY_LIMIT = 256 * 1024;

export async function buildApp(root: DynamicModule, platform: Platform): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    bodyLimit: BODY_LIMIT,
    trustProxy: platform.config.trustProxy,
    routerOptions: { maxParamLength: 200 },
  });
  const app = await NestFactory.create<NestFastifyApplication>(root, adapter, {
    logger: ['error', 'warn'],
    abortOnError: false,
  });
  const fastify = adapter.getInstance();
  await raiseShield(fastify, platform.config);
  serveStatic(fastify);
  app.useGlobalFilters(new ProblemFilter());
  app.useGlobalGuards(new FormGuard(platform.config));
  await app.init();
  await fastify.ready();
  return app;
}
