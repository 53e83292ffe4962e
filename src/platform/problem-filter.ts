// Turns whatever went wrong into an answer: RFC 9457 problem details for programs, a page for people.
// Unknown failures tell nothing of the inside; the log has them under the request's id.
import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException, Logger } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from './config.js';
import { DESK_SPOKEN, type Spoken } from './html/kit/spoken.js';
import { ProblemPage, SendAgainPage } from './html/problem-page.js';
import { page } from './http.js';
import { spokenTo } from './language.js';
import { AppError, PROBLEMS, type ProblemCode } from './problems.js';
import { FORM_FIELD, formToken, fromOurPages } from './security/forms.js';

/** Refusals that somebody who tries doors would meet. */
const LOGGED: ReadonlySet<ProblemCode> = new Set(['not_allowed', 'form_expired', 'too_many_requests']);

@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly log = new Logger('Problem');

  constructor(private readonly config: Config) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const problem = toAppError(error);
    if (problem.status >= 500)
      this.log.error(
        `${request.id} ${request.method} ${safePath(request.url)}: ${(error as Error | undefined)?.stack ?? String(error)}`,
      );
    else if (LOGGED.has(problem.code))
      this.log.warn(`${request.id} ${request.method} ${safePath(request.url)}: ${problem.code}`);
    reply.header('cache-control', 'no-store');
    if (problem.retryAfter !== undefined) reply.header('retry-after', problem.retryAfter);
    if (problem.status === 401 && request.url.startsWith('/api/')) reply.header('www-authenticate', 'Bearer');
    if (wantsPage(request)) {
      const home = problem.code === 'unknown_studio' ? null : (/^\/s\/[^/?]+/.exec(request.url)?.[0] ?? null);
      const spoken = this.spoken(request, reply);
      const typed = problem.code === 'form_expired' && fromOurPages(request) ? typedIn(request.body) : null;
      if (typed) {
        const token = formToken(this.config, request, reply);
        const secret = hasPassword(request.body);
        const props = { action: request.url, home, formToken: token, typed, secret, spoken };
        void reply.send(page(reply, SendAgainPage(props), problem.status));
        return;
      }
      const wanted = request.method === 'GET' ? request.url.slice(home?.length ?? 0) : '';
      const props = { problem, home, wanted, requestId: request.id, spoken };
      void reply.send(page(reply, ProblemPage(props), problem.status));
      return;
    }
    void reply
      .status(problem.status)
      .header('content-type', 'application/problem+json; charset=utf-8')
      .send(
        JSON.stringify({
          type: `/problems#${problem.code}`,
          title: PROBLEMS[problem.code].title,
          status: problem.status,
          detail: problem.detail,
          code: problem.code,
          instance: request.id,
          ...(problem.fields.length > 0
            ? {
                errors: problem.fields.map(({ field, message }) => ({
                  pointer: field === '' ? '' : `/${field}`, // RFC 6901: '' is the whole of what was sent
                  detail: message,
                })),
              }
            : {}),
        }),
      );
  }

  /** A visitor's language; the page may come before the request was read so far that it can be asked. */
  private spoken(request: FastifyRequest, reply: FastifyReply): Spoken {
    return OF_THE_DESK.test(request.url) ? DESK_SPOKEN : spokenTo(this.config, request, reply);
  }
}

/** Whose doors are in one language: those who work at a studio, and who set one up. */
const OF_THE_DESK = /^\/(set-up|s\/[^/?]+\/(desk|sign-in|join))\b/;

/** What an unexpected failure is to the outside: Nest's and Fastify's own refusals keep their meaning. */
export function toAppError(error: unknown): AppError {
  if (error instanceof AppError) return error;
  const status =
    error instanceof HttpException
      ? error.getStatus()
      : (error as { statusCode?: number } | undefined)?.statusCode;
  const known: Record<number, ProblemCode> = {
    400: 'unreadable',
    404: 'not_found',
    413: 'too_large',
    415: 'unreadable',
    429: 'too_many_requests',
  };
  return new AppError((status !== undefined && known[status]) || 'broken');
}

/** A change of a password, and codes: of what such a form held nothing is worth keeping. */
const SECRET_FIELDS = ['current', 'next', 'code'];

/** What a form held, but for its token and a password; null where it held nothing, or other secrets. */
function typedIn(body: unknown): [name: string, value: string][] | null {
  if (typeof body !== 'object' || body === null) return null;
  if (SECRET_FIELDS.some((name) => name in body)) return null;
  const typed = Object.entries(body).flatMap(([name, values]) =>
    [values].flat().flatMap((value) => {
      const kept = typeof value === 'string' && name !== FORM_FIELD && name !== 'password';
      return kept ? [[name, value] as [string, string]] : [];
    }),
  );
  return typed.length > 0 ? typed : null;
}

const hasPassword = (body: unknown) =>
  typeof body === 'object' && body !== null && 'password' in body && body.password !== '';

function wantsPage(request: FastifyRequest): boolean {
  if (request.url.startsWith('/api/')) return false;
  return String(request.headers.accept ?? 'text/html').includes('text/html');
}

/** Secrets stand in paths; the log keeps only how the path begins. */
const safePath = (url: string) => url.replace(/\?.*$/, '').replace(/[A-Za-z0-9_-]{43}/g, '[secret]');
