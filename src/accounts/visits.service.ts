// Who is at the door: the studio an address names, the account a cookie or bearer token names.
import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Config } from '../platform/config.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { spokenTo } from '../platform/language.js';
import { AppError } from '../platform/problems.js';
import { cookieName, cookieOptions, formToken } from '../platform/security/forms.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Account, Role } from './accounts.schemas.js';
import { AccountsService } from './accounts.service.js';
import { SESSION_DAYS } from './sign-ins.service.js';

export interface Visit {
  studio: Studio;
  account: Account | null;
  /** The token that each form of the page carries. */
  formToken: string;
}

/** A visit to a page that stands in several languages. */
export interface Guest extends Visit {
  spoken: Spoken;
}

export interface StaffVisit extends Visit {
  account: Account;
}

@Injectable()
export class Visits {
  constructor(
    private readonly config: Config,
    private readonly studios: StudiosService,
    private readonly accounts: AccountsService,
  ) {}

  /** Anyone at a studio's page. @throws AppError unknown_studio */
  async visitor(slug: string, request: FastifyRequest, reply: FastifyReply): Promise<Visit> {
    const studio = await this.studios.at(slug);
    const account = await this.accounts.signedIn(studio.id, this.secretOf(studio, request));
    return { studio, account, formToken: formToken(this.config, request, reply) };
  }

  /** Anyone, spoken to in their language. @throws AppError unknown_studio */
  async guest(slug: string, request: FastifyRequest, reply: FastifyReply): Promise<Guest> {
    const visit = await this.visitor(slug, request, reply);
    return { ...visit, spoken: spokenTo(this.config, request, reply) };
  }

  /** Someone who works there. @throws AppError sign_in_needed, not_allowed */
  async staff(
    slug: string,
    request: FastifyRequest,
    reply: FastifyReply,
    roles: Role[] = ['owner'],
  ): Promise<StaffVisit> {
    const visit = await this.visitor(slug, request, reply);
    return { ...visit, account: allowed(visit.account, roles) };
  }

  /** Someone who works there, by the API's bearer token. @throws AppError sign_in_needed, not_allowed */
  async apiStaff(
    slug: string,
    request: FastifyRequest,
    roles: Role[] = ['owner'],
  ): Promise<{ studioId: string; account: Account }> {
    const studioId = await this.studios.idAt(slug);
    const bearer = /^Bearer (\S+)$/.exec(request.headers.authorization ?? '')?.[1];
    return { studioId, account: allowed(await this.accounts.signedIn(studioId, bearer), roles) };
  }

  /** Gives the browser a new session; one that it held before ends. */
  async beginSession(
    studio: Pick<Studio, 'id'>,
    secret: string,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<void> {
    const before = this.secretOf(studio, request);
    if (before) await this.accounts.signOut(studio.id, before);
    reply.setCookie(this.sessionCookie(studio), secret, {
      ...cookieOptions(this.config),
      maxAge: SESSION_DAYS * 24 * 3600,
    });
  }

  /** The secret of the session that a browser holds, if any; it may be over, or wait for a code. */
  secretOf(studio: Pick<Studio, 'id'>, request: FastifyRequest): string | undefined {
    return request.cookies[this.sessionCookie(studio)];
  }

  /** Signs out here and on the server; what the browser kept of our pages goes too. */
  async endSession(studio: Studio, request: FastifyRequest, reply: FastifyReply): Promise<void> {
    const secret = this.secretOf(studio, request);
    if (secret) await this.accounts.signOut(studio.id, secret);
    reply.clearCookie(this.sessionCookie(studio), cookieOptions(this.config));
    reply.header('clear-site-data', '"cache"');
  }

  /** One cookie a studio, so that one browser can be signed in at two. */
  private sessionCookie(studio: Pick<Studio, 'id'>): string {
    return cookieName(this.config, `plateday-${studio.id.slice(0, 8)}`);
  }
}

function allowed(account: Account | null, roles: Role[]): Account {
  if (!account) throw new AppError('sign_in_needed');
  if (!roles.includes(account.role)) throw new AppError('not_allowed');
  return account;
}
