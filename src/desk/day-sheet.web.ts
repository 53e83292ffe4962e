// The doors of the day sheet: the day, its red screen, ticks of arrival, endings and taking them back.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { readDay } from '../platform/day-in-path.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { EndingsService } from '../sittings/endings.service.js';
import { RedDayPage } from './day-red.pages.js';
import { DaySheetPage } from './day-sheet.pages.js';
import { DaySheets } from './day-sheets.service.js';
import type { Notice } from './frame.pages.js';

const sittingId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This sitting is not known here.'),
});
const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['here', good('Ticked.')],
  ['ended', good('It is written down, and the shelf follows.')],
  ['later', good('They have this place instead, and are told.')],
  ['undone', good('It is taken back.')],
]);
const STAFF = ['owner', 'assistant'] as const;

@Controller('s/:slug/desk/days/:date')
export class DaySheetWeb {
  constructor(
    private readonly visits: Visits,
    private readonly sheets: DaySheets,
    private readonly endings: EndingsService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const sheet = await this.sheets.of(visit.studio.id, readDay(date));
    return page(reply, DaySheetPage({ visit, sheet, notice: DONE.get(done) }));
  }

  @Get('red')
  async red(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    return page(reply, RedDayPage({ visit, sheet: await this.sheets.of(visit.studio.id, readDay(date)) }));
  }

  @Post(':id/arrived')
  async arrived(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', sittingId) id: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = readDay(date);
    await this.endings.arrived(visit.studio.id, visit.account, id, body?.here === 'yes');
    const sheet = `/s/${slug}/desk/days/${day}`;
    return seeOther(reply, body?.from === 'red' ? `${sheet}/red` : `${sheet}?done=here#sitting-${id}`);
  }

  @Post(':id/end')
  async end(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', sittingId) id: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = readDay(date);
    const chosen = typeof body?.ending === 'string' ? body.ending : '';
    const note = typeof body?.note === 'string' ? body.note : '';
    const [how, reason] = chosen.split('/');
    try {
      await this.endings.end(visit.studio.id, visit.account, id, { how, reason, note });
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const errors = error.fields.map((one) => (one.field === 'note' ? one : { ...one, field: 'ending' }));
      const sheet = await this.sheets.of(visit.studio.id, day);
      const sent = { id, values: { ending: chosen, note }, errors };
      return page(reply, DaySheetPage({ visit, sheet, sent }), 422);
    }
    const sheet = `/s/${slug}/desk/days/${day}`;
    return seeOther(reply, body?.from === 'red' ? `${sheet}/red` : `${sheet}?done=ended#sitting-${id}`);
  }

  @Post(':id/undo')
  async undo(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', sittingId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = readDay(date);
    await this.endings.undo(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/days/${day}?done=undone#sitting-${id}`);
  }
}
