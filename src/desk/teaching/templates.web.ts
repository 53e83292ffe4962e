// The doors of the kinds of teaching day.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { refuseChanged } from '../../platform/seen.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import type { Course } from '../../teaching/course.schemas.js';
import { SessionsService } from '../../teaching/sessions.service.js';
import { TeachingViews } from '../../teaching/views.service.js';
import { TemplatePage } from './template.pages.js';
import { problemsOnTemplate, toCourse, toFields } from './template-form.calc.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
/** What a new kind of day begins with. Assumptions. */
const FIRST = {
  leastAge: '16',
  most: '4',
  least: '2',
  decideDays: '21',
  'stations/tanks': '1',
  'stations/holders': '2',
  'stations/cameras': '2',
  'stations/sinks': '1',
  'stations/darkroomPlaces': '2',
};

@Controller('s/:slug/desk/teaching')
export class TemplatesWeb {
  constructor(
    private readonly visits: Visits,
    private readonly views: TeachingViews,
    private readonly sessions: SessionsService,
  ) {}

  @Get('templates/new')
  async newTemplate(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.showTemplate(visit, null, FIRST, reply);
  }

  @Get('templates/:id')
  async template(
    @Param('slug') slug: string,
    @Param('id', id) templateId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.showTemplate(visit, templateId, null, reply);
  }

  @Post('templates/new')
  async makeTemplate(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.saveTemplate(visit, null, body ?? {}, reply);
  }

  @Post('templates/:id')
  async changeTemplate(
    @Param('slug') slug: string,
    @Param('id', id) templateId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.saveTemplate(visit, templateId, body ?? {}, reply);
  }

  private async saveTemplate(
    visit: StaffVisit,
    templateId: string | null,
    fields: Sent,
    reply: FastifyReply,
  ): Promise<string> {
    try {
      const check = (stands: Course) => refuseChanged(fields, toFields(stands));
      await this.sessions.saveTemplate(visit.studio.id, visit.account, templateId, toCourse(fields), check);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      return this.showTemplate(visit, templateId, fields, reply, error);
    }
    return seeOther(reply, `/s/${visit.studio.slug}/desk/teaching?done=template`);
  }

  private async showTemplate(
    visit: StaffVisit,
    templateId: string | null,
    fields: Sent | null,
    reply: FastifyReply,
    refusal?: AppError,
  ): Promise<string> {
    const found = await this.views.template(visit.studio.id, templateId);
    const values = fields ?? (found.template ? toFields(found.template.course) : {});
    const errors = refusal && problemsOnTemplate(values, refusal.fields);
    return page(reply, TemplatePage({ visit, ...found, values, errors }), refusal?.status ?? 200);
  }
}
