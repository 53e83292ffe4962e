// Forms from our own pages only: a token in the form must match a secret in a cookie, and a browser
// that says the request comes from another site is refused. The API uses no cookies and needs neither; it
// takes JSON only.
import { Tokens } from '@fastify/csrf';
import type { CookieSerializeOptions } from '@fastify/cookie';
import { type CanActivate, type ExecutionContext, Injectable, SetMetadata } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Config } from '../config.js';
import { AppError } from '../problems.js';
import { isOneClick } from './one-click.js';

const tokens = new Tokens({});

export const FORM_FIELD = '_form';

export function cookieOptions(config: Config): CookieSerializeOptions {
  return { path: '/', httpOnly: true, sameSite: 'lax', secure: config.secureCookies };
}

/** `__Host-` ties the cookie to this very host; browsers take it over https only. */
export function cookieName(config: Config, name: string): string {
  return config.secureCookies ? `__Host-${name}` : name;
}

/** The token to put into a form; sets the visitor's cookie when there is none yet. */
export function formToken(config: Config, request: FastifyRequest, reply: FastifyReply): string {
  const name = cookieName(config, 'plateday-form');
  let secret = request.cookies[name];
  if (!secret) {
    secret = tokens.secretSync();
    request.cookies[name] = secret;
    reply.setCookie(name, secret, cookieOptions(config));
  }
  return tokens.create(secret);
}

/** Requests of our own pages whose token had run out. Their doors act no more, and show the form again. */
const runOut = new WeakSet<FastifyRequest>();
const SHOWS_AGAIN = 'shows the form again';

/** For a door that asks `hasRunOut` before it acts, and then shows its form with what was typed. */
export const ShowsFormAgain = () => SetMetadata(SHOWS_AGAIN, true);

/** Whether the form came too late to be acted upon. */
export const hasRunOut = (request: FastifyRequest): boolean => runOut.has(request);

/** Said by the browser itself: only then may what was sent be shown again, ready to be sent. */
export const fromOurPages = (request: FastifyRequest): boolean =>
  request.headers['sec-fetch-site'] === 'same-origin';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

@Injectable()
export class FormGuard implements CanActivate {
  constructor(private readonly config: Config) {}

  canActivate(context: ExecutionContext): boolean {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    if (SAFE.has(request.method)) return true;
    if (request.url.startsWith('/api/')) return isJson(request);
    if (isOneClick(context.getHandler())) return true;
    const site = request.headers['sec-fetch-site'];
    if (site && site !== 'same-origin' && site !== 'none') throw new AppError('form_expired');
    const secret = request.cookies[cookieName(this.config, 'plateday-form')];
    const sent = (request.body as Record<string, unknown> | null)?.[FORM_FIELD];
    if (secret && typeof sent === 'string' && tokens.verify(secret, sent)) return true;
    if (!fromOurPages(request) || Reflect.getMetadata(SHOWS_AGAIN, context.getHandler()) !== true)
      throw new AppError('form_expired');
    runOut.add(request);
    return true;
  }
}

/** @throws AppError unreadable for a body of another kind */
function isJson(request: FastifyRequest): true {
  const kind = request.headers['content-type'] ?? '';
  if (request.body !== undefined && !/^application\/json\s*(;|$)/i.test(kind))
    throw new AppError('unreadable', 'Please send JSON, with "Content-Type: application/json".');
  return true;
}
