// Secret links at the desk: the owner's calendar links, and the link of whoever asked.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { DESK_FEEDS, FeedsService } from '../calendar/feeds.service.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { CalendarPage } from './calendar.pages.js';
import type { Notice } from './frame.pages.js';
import { CALENDAR_ACTS, DeskLinks } from './links.service.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

const DONE = new Map<unknown, Notice>([
  ['make', { tone: 'good', text: 'Your calendar link is made.' }],
  ['make-tasks', { tone: 'good', text: 'The link to the tasks is made.' }],
  ['make-assistant', { tone: 'good', text: 'The link to the day sheets is made.' }],
  ['replace', { tone: 'good', text: 'The new link is made. The old one has stopped: follow the new one.' }],
  ['end', { tone: 'good', text: 'The link has ended. Calendars that followed it get nothing more.' }],
  ['there', { tone: 'warn', text: 'There was a link already. It stands below as it was.' }],
  ['none', { tone: 'warn', text: 'There was no link any more, so nothing was done.' }],
]);

const calendarForm = z.object({ do: z.enum(CALENDAR_ACTS), of: z.enum(DESK_FEEDS) });

@Controller('s/:slug/desk')
export class LinksWeb {
  constructor(
    private readonly visits: Visits,
    private readonly feeds: FeedsService,
    private readonly links: DeskLinks,
  ) {}

  @Get('calendar')
  async calendar(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const links = await this.feeds.ofAccount(visit.studio, visit.account.id);
    return page(reply, CalendarPage({ visit, links, notice: DONE.get(done) }));
  }

  @Post('calendar')
  async change(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { do: act, of } = readInput(calendarForm, body ?? {});
    const changed = await this.links.calendar(visit.studio.id, visit.account, of, act);
    const nothing = act === 'make' ? 'there' : 'none';
    const done = act === 'make' && of !== 'owner' ? `make-${of}` : act;
    return seeOther(reply, `/s/${slug}/desk/calendar?done=${changed ? done : nothing}`);
  }

  @Post('requests/:id/new-link')
  async newLink(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.links.replacePlace(visit.studio.id, visit.account, sittingId);
    return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=new-link`);
  }
}
