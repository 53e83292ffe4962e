// The doors of a teaching day's sheet: the sheet itself, and what the owner fills in for it.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { SheetsService } from '../../teaching/sheets.service.js';
import { TurnsService } from '../../teaching/turns.service.js';
import type { Notice } from '../frame.pages.js';
import { BriefingPage, fieldsOf } from './briefing.pages.js';
import { SheetPage } from './sheet.pages.js';
import { WORK_WORDS } from './sheet-words.calc.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
const SAVED: Notice = { tone: 'good', text: 'It is saved, and stands on the sheet.' };

@Controller('s/:slug/desk/teaching/:id')
export class SheetWeb {
  constructor(
    private readonly visits: Visits,
    private readonly sheets: SheetsService,
    private readonly turns: TurnsService,
  ) {}

  @Get('sheet')
  async sheet(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sheet = await this.sheets.of(visit.studio.id, sessionId);
    const turns = await this.turns.kept(visit.studio.id, sessionId);
    return page(reply, SheetPage({ visit, sheet, turns }));
  }

  @Get('briefing')
  async briefing(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const found = await this.sheets.briefing(visit.studio.id, sessionId);
    return page(reply, BriefingPage({ visit, found, notice: done === 'saved' ? SAVED : undefined }));
  }

  @Post('briefing')
  async save(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const values = body ?? {};
    try {
      await this.sheets.saveBriefing(
        visit.studio.id,
        visit.account,
        sessionId,
        toBriefing(values),
        (stands) => refuseChanged(values, fieldsOf(stands), WORK_WORDS),
      );
    } catch (error) {
      if (!(error instanceof AppError) || ![...TOLD_BESIDE, 'wrong_state'].includes(error.code)) throw error;
      const found = await this.sheets.briefing(visit.studio.id, sessionId);
      const notice = error.fields.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const sent = { values, errors: error.fields };
      return page(reply, BriefingPage({ visit, found, notice, sent }), error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/teaching/${sessionId}/briefing?done=saved`);
  }
}

/** From the fields of the form to what the service checks. */
function toBriefing(values: Sent): Sent {
  const text = (name: string) => (typeof values[name] === 'string' ? values[name].trim() : '');
  const work: unknown[] = [];
  for (const [name, value] of Object.entries(values)) {
    const [, at] = /^work-(\d{1,2})$/.exec(name) ?? [];
    if (at !== undefined) work[Number(at)] = [value].flat().filter((one) => one !== '');
  }
  const youngest = text('youngest');
  return {
    ...Object.fromEntries(
      ['emergencyNumber', 'hospital', 'eyewash', 'teacher', 'secondAdult'].map((name) => [name, text(name)]),
    ),
    youngest: youngest === '' ? null : /^\d{1,3}$/.test(youngest) ? Number(youngest) : youngest,
    work: Array.from(work, (one) => one ?? []),
  };
}
