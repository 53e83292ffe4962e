// The door of calendar feeds: GET and HEAD only, answered with 304 before anything is built.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { type AbstractHttpAdapter, HttpAdapterHost } from '@nestjs/core';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { isLanguage } from '../words/asked-language.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { clientOf } from './clients.calc.js';
import { hasAlready, httpDateOf } from './conditional.calc.js';
import { FeedDoors } from './feed-doors.service.js';
import { FeedsService } from './feeds.service.js';
import { FeedFetches } from './fetches.service.js';

type Asked = FastifyRequest<{ Params: { slug: string; file: string }; Querystring: { lang?: unknown } }>;

/**
 * A route of Fastify itself: calendars come day and night, nearly always for nothing new, and what stands before the
 * other doors (guards, pipes, the reading of parameters) would cost more than the answer.
 */
@Injectable()
export class FeedsWeb implements OnModuleInit {
  constructor(
    private readonly http: HttpAdapterHost,
    private readonly doors: FeedDoors,
    private readonly feeds: FeedsService,
    private readonly fetches: FeedFetches,
  ) {}

  /** A worker without pages has no door to open. */
  onModuleInit(): void {
    const adapter = this.http.httpAdapter as AbstractHttpAdapter | undefined;
    adapter
      ?.getInstance<FastifyInstance>()
      .get('/s/:slug/calendar/:file', (request: Asked, reply) => this.answer(request, reply));
  }

  private async answer(request: Asked, reply: FastifyReply): Promise<string> {
    const { slug, file } = request.params;
    const token = file.replace(/\.ics$/, '');
    const { lang } = request.query;
    const door = await this.doors.door(slug, token, isLanguage(lang) ? lang : LANGUAGE_OF_DESK);
    // the public one has no link of its own
    if (door.kind !== 'workshops') this.fetches.note(door, clientOf(request.headers['user-agent']));
    const written = hasAlready(request.headers, door) ? null : await this.feeds.text(door);
    reply.headers({
      etag: `W/"${written?.etag ?? door.etag}"`,
      'cache-control': 'private, no-cache',
      vary: 'Accept-Encoding',
    });
    if (written === null) {
      reply.status(304);
      return '';
    }
    const changedAt = door.changedAt();
    reply.headers({
      'content-type': 'text/calendar; charset=utf-8',
      'x-robots-tag': 'noindex',
      ...(changedAt && { 'last-modified': httpDateOf(changedAt) }),
      'content-disposition': 'inline; filename="calendar.ics"',
    });
    return written.text;
  }
}
