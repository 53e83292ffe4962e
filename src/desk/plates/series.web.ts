// The doors of series: all of them, one, and saving one.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { SeriesService } from '../../plates/series.service.js';
import type { Notice } from '../frame.pages.js';
import { answersOf, SeriesPage } from './series.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This series is not known here.'),
});

type Sent = Record<string, unknown>;
const DONE = new Map<unknown, Notice>([['saved', { tone: 'good', text: 'It is saved.' }]]);

@Controller('s/:slug/desk/plates/series')
export class SeriesWeb {
  constructor(
    private readonly visits: Visits,
    private readonly series: SeriesService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query('form') form: unknown,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const now = await this.series.all(visit.studio.id);
    return page(reply, SeriesPage({ visit, now, one: null, isNew: form === 'new', notice: DONE.get(done) }));
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', id) seriesId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, SeriesPage({ ...(await this.found(visit, seriesId)), isNew: false }));
  }

  @Post('new')
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, null, body ?? {});
  }

  @Post(':id')
  async change(
    @Param('slug') slug: string,
    @Param('id', id) seriesId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, seriesId, body ?? {});
  }

  private async found(visit: StaffVisit, seriesId: string | null) {
    const now = await this.series.all(visit.studio.id);
    const one = now.series.find((each) => each.series_id === seriesId) ?? null;
    if (seriesId !== null && !one) throw new AppError('not_found', 'This series is not known here.');
    return { visit, now, one };
  }

  private async save(reply: FastifyReply, visit: StaffVisit, seriesId: string | null, values: Sent) {
    const { studio, account } = visit;
    try {
      await this.series.save(studio.id, account, seriesId, values, (series) =>
        refuseChanged(values, answersOf(series)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { values, errors: error.fields };
      return page(
        reply,
        SeriesPage({ ...(await this.found(visit, seriesId)), isNew: seriesId === null, sent }),
        error.status,
      );
    }
    return seeOther(reply, `/s/${studio.slug}/desk/plates/series?done=saved`);
  }
}
