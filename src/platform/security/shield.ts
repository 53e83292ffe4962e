// What every answer and every visitor goes through before a feature is asked: security headers, cookies,
// limits on how often, our static files.
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit, { normalizeIP } from '@fastify/rate-limit';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Config } from '../config.js';
import { AppError } from '../problems.js';

const CONTENT_SECURITY_POLICY = {
  useDefaults: false,
  directives: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'"],
    imgSrc: ["'self'"],
    connectSrc: ["'self'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
    baseUri: ["'none'"],
  },
};

export async function raiseShield(app: FastifyInstance, config: Config): Promise<void> {
  await app.register(cookie);
  await app.register(helmet, {
    contentSecurityPolicy: CONTENT_SECURITY_POLICY,
    referrerPolicy: { policy: 'no-referrer' },
    strictTransportSecurity: { maxAge: 31_536_000, includeSubDomains: true },
    xFrameOptions: { action: 'deny' },
  });
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('cache-control', 'no-store'); // unless a door says otherwise
  });
  await app.register(rateLimit, {
    global: true,
    timeWindow: 60_000,
    keyGenerator: (request) => `${networkOf(request.ip)} ${isWrite(request) ? 'write' : 'read'}`,
    max: (request) => (isWrite(request) ? config.formLimitPerMinute : config.rateLimitPerMinute),
    allowList: (request) => request.url.startsWith('/static/'),
    errorResponseBuilder: (_request, context) =>
      new AppError(
        'too_many_requests',
        `Too many requests. Please wait ${Math.ceil(context.ttl / 1000)} seconds.`,
      ),
  });
}

/** Whoever has one IPv6 address has the 2^64 of its network (RFC 6177), and could ask from each of them. */
const networkOf = (address: string) => normalizeIP(address, 64);

const isWrite = (request: FastifyRequest) => request.method !== 'GET' && request.method !== 'HEAD';
