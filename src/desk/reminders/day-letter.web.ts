// The doors of the owner's letter about the day ahead: when it goes.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { DayLetters } from '../../reminders/day-letters.service.js';
import { NewsService } from '../news.service.js';
import { answersOf, DayLetterPage } from './day-letter.pages.js';

const SAVED = { tone: 'good', text: 'It is saved.' } as const;

@Controller('s/:slug/desk/mail/day-letter')
export class DayLetterWeb {
  constructor(
    private readonly visits: Visits,
    private readonly news: NewsService,
    private readonly letters: DayLetters,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const shown = await this.news.preview(visit.studio.id);
    return page(reply, DayLetterPage({ visit, ...shown, notice: done === 'saved' ? SAVED : undefined }));
  }

  @Post()
  async save(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    try {
      await this.letters.saveRule(visit.studio.id, visit.account, values, (rule) =>
        refuseChanged(values, answersOf(rule)),
      );
      return seeOther(reply, `/s/${slug}/desk/mail/day-letter?done=saved`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const shown = await this.news.preview(visit.studio.id);
      const sent = { values, errors: error.fields };
      return page(reply, DayLetterPage({ visit, ...shown, sent }), error.status);
    }
  }
}
