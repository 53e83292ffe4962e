// What every answer and every visitor goes through before a feature is asked: security headers, cookies,
// limits on how often, our static files.
import cookie from '@fastify/cookie';
import rateLimit, { normalizeIP } from '@fastify/rate-limit';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import helmet from 'helmet';
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
  const all = securityHeaders();
  const few = { 'strict-transport-security': all['strict-transport-security'] ?? '' };
  app.addHook('onSend', (_request, reply, _payload, done) => {
    // "not modified" stands for an answer that had them (RFC 9110, 15.4.5)
    reply.headers(reply.statusCode === 304 ? few : all);
    done();
  });
  app.addHook('onRequest', (_request, reply, done) => {
    reply.header('cache-control', 'no-store'); // unless a door says otherwise
    done();
  });
  await app.register(rateLimit, {
    global: true,
    timeWindow: 60_000,
    keyGenerator: (request) => `${networkOf(request.ip)} ${isWrite(request) ? 'write' : 'read'}`,
    max: (request) => (isWrite(request) ? config.formLimitPerMinute : config.rateLimitPerMinute),
    allowList: (request) => request.url.startsWith('/static/'),
    // Retry-After says all that a visitor needs, once they need it
    addHeadersOnExceeding: {
      'x-ratelimit-limit': false,
      'x-ratelimit-remaining': false,
      'x-ratelimit-reset': false,
    },
    errorResponseBuilder: (_request, context) =>
      new AppError(
        'too_many_requests',
        `Too many requests. Please wait ${Math.ceil(context.ttl / 1000)} seconds.`,
      ),
  });
}

/** What helmet would set on every answer: the same each time, so it is asked once. */
function securityHeaders(): Record<string, string> {
  const headers: Record<string, string> = {};
  const answer = {
    setHeader: (name: string, value: string) => (headers[name.toLowerCase()] = value),
    removeHeader: () => {},
  };
  helmet({
    contentSecurityPolicy: CONTENT_SECURITY_POLICY,
    referrerPolicy: { policy: 'no-referrer' },
    strictTransportSecurity: { maxAge: 31_536_000, includeSubDomains: true },
    xFrameOptions: { action: 'deny' },
  })({} as never, answer as never, (error) => {
    if (error) throw error;
  });
  return headers;
}

/** Whoever has one IPv6 address has the 2^64 of its network (RFC 6177), and could ask from each of them. */
const networkOf = (address: string) => normalizeIP(address, 64);

const isWrite = (request: FastifyRequest) => request.method !== 'GET' && request.method !== 'HEAD';
