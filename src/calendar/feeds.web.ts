// The door of calendar feeds: GET and HEAD only, answered with 304 before anything is built.
import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { clientOf } from './clients.calc.js';
import { hasAlready, httpDateOf } from './conditional.calc.js';
import { FeedsService } from './feeds.service.js';
import { FeedFetches } from './fetches.service.js';

@Controller('s/:slug/calendar')
export class FeedsWeb {
  constructor(
    private readonly feeds: FeedsService,
    private readonly fetches: FeedFetches,
  ) {}

  @Get(':file')
  get(
    @Param('slug') slug: string,
    @Param('file') file: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.answer(slug, file, request, reply);
  }

  private async answer(
    slug: string,
    file: string,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<string> {
    const token = file.replace(/\.ics$/, '');
    const door = await this.feeds.door(slug, token);
    // the public one has no link of its own
    if (door.kind !== 'workshops') this.fetches.note(door, clientOf(request.headers['user-agent']));
    const written = hasAlready(request.headers, door) ? null : await this.feeds.text(door);
    reply.headers({
      etag: `W/"${written?.etag ?? door.etag}"`,
      'cache-control': 'private, no-cache',
      vary: 'Accept-Encoding',
      'x-robots-tag': 'noindex',
    });
    if (written === null) {
      reply.status(304);
      return '';
    }
    const changedAt = door.changedAt();
    reply.headers({
      'content-type': 'text/calendar; charset=utf-8',
      ...(changedAt && { 'last-modified': httpDateOf(changedAt) }),
      'content-disposition': 'inline; filename="calendar.ics"',
    });
    return written.text;
  }
}
