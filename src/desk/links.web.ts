// Secret links at the desk: the owner's calendar links, and the link of whoever asked.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { DESK_FEEDS } from '../calendar/feeds.calc.js';
import { FeedsService } from '../calendar/feeds.service.js';
import { page, seeOther } from '../platform/http.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { isLoopback } from '../platform/html/kit/calendar-link.js';
import { LONGEST_FEED_NAME } from '../accounts/accounts.schemas.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { CalendarPage, CalendarPhonePage } from './calendar.pages.js';
import type { Notice } from './frame.pages.js';
import { DeskLinks } from './links.service.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

const DONE = new Map<unknown, Notice>([
  ['make', { tone: 'good', text: 'The link is made.' }],
  ['replace', { tone: 'good', text: 'The new link is made. The old one has stopped: follow the new one.' }],
  ['end', { tone: 'good', text: 'The link has ended. Calendars that followed it get nothing more.' }],
  ['there', { tone: 'warn', text: 'There was a link already. It stands below as it was.' }],
  ['none', { tone: 'warn', text: 'There was no link any more, so nothing was done.' }],
]);

const NAME_LENGTH = `A name has at most ${LONGEST_FEED_NAME} characters.`;
const named = z
  .string()
  .trim()
  .min(1, 'Please give it a name, to tell it from the others.')
  .max(LONGEST_FEED_NAME, NAME_LENGTH);
const calendarForm = z.discriminatedUnion('do', [
  z.object({ do: z.literal('make'), of: z.enum(DESK_FEEDS) }),
  z.object({
    do: z.literal('add'),
    of: z.enum(DESK_FEEDS, 'Please choose what it is to show.'),
    name: named,
  }),
  z.object({ do: z.enum(['replace', 'end']), link: z.uuid() }),
]);

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
    return this.showLinks(reply, visit, { notice: DONE.get(done) });
  }

  @Get('calendar/phone')
  async phone(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, CalendarPhonePage({ visit, local: isLoopback(this.feeds.publicUrl(slug)) }));
  }

  @Post('calendar')
  async change(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { studio, account } = visit;
    try {
      const form = readInput(calendarForm, body ?? {});
      const back = (done: string) => seeOther(reply, `/s/${slug}/desk/calendar?done=${done}`);
      if (!('of' in form))
        return back((await this.links.changeFeed(studio.id, account, form.link, form.do)) ? form.do : 'none');
      const name = form.do === 'add' ? form.name : '';
      if (await this.links.addFeed(studio.id, account, form.of, name)) return back('make');
      if (form.do === 'make') return back('there');
      const message = 'There is a link of this kind and name already; please give another name.';
      throw new AppError('bad_input', undefined, [{ field: 'name', message }]);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input' || body?.do !== 'add') throw error;
      const sent = { values: body as FormValues, errors: error.fields };
      return this.showLinks(reply, visit, { sent }, error.status);
    }
  }

  private async showLinks(
    reply: FastifyReply,
    visit: StaffVisit,
    shown: Pick<Parameters<typeof CalendarPage>[0], 'notice' | 'sent'>,
    status?: number,
  ): Promise<string> {
    const links = await this.feeds.ofAccount(visit.studio, visit.account.id);
    const publicUrl = this.feeds.publicUrl(visit.studio.slug);
    return page(reply, CalendarPage({ visit, links, publicUrl, ...shown }), status);
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
