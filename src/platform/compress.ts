// Pages and documents travel compressed to whoever can unpack them. A form's token is masked anew in every
// page (see security/forms.ts), so the length of a compressed page tells nothing about it.
import { gzip } from 'node:zlib';
import type { FastifyInstance } from 'fastify';

/** Below this many characters an answer fits into one packet anyway. */
const WORTH_IT = 1200;

/** Whether an Accept-Encoding header takes gzip (RFC 9110 §12.5.3; a weight of 0 means it does not). */
export function takesGzip(header: string | string[] | undefined): boolean {
  return /\bgzip\b(?!\s*;\s*q=0(\.0*)?\s*(,|$))/.test(String(header ?? ''));
}

/** Packs texts only: a door that sends bytes has packed them itself, or has a reason not to. */
export function compressTexts(app: FastifyInstance): void {
  app.addHook('onSend', (request, reply, payload, done) => {
    if (typeof payload !== 'string' || payload.length < WORTH_IT || reply.hasHeader('content-encoding'))
      return done(null, payload);
    const vary = reply.getHeader('vary');
    reply.header('vary', vary === undefined ? 'accept-encoding' : `${String(vary)}, accept-encoding`);
    if (!takesGzip(request.headers['accept-encoding'])) return done(null, payload);
    reply.header('content-encoding', 'gzip').removeHeader('content-length');
    gzip(payload, done);
  });
}
