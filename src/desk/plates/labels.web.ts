// The doors of labels: choosing plates, the sheets to print, and the owner's sheet.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { bookQuery } from '../../plates/book.schemas.js';
import { BookService } from '../../plates/book.service.js';
import { type LabelQuery, labelQuery } from '../../plates/labels.schemas.js';
import { LabelsService } from '../../plates/labels.service.js';
import { SeriesService } from '../../plates/series.service.js';
import type { Notice } from '../frame.pages.js';
import { LabelSheetsPage } from './label-sheets.pages.js';
import { LabelsPage } from './labels.pages.js';

type Sent = Record<string, unknown>;
const DONE = new Map<unknown, Notice>([['saved', { tone: 'good', text: 'The sheet is saved.' }]]);

@Controller('s/:slug/desk/plates/labels')
export class LabelsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly labels: LabelsService,
    private readonly book: BookService,
    private readonly series: SeriesService,
  ) {}

  @Get()
  async choose(
    @Param('slug') slug: string,
    @Query() sent: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const found = await this.found(visit, labelQuery.parse(sent));
    return page(reply, LabelsPage({ ...found, notice: DONE.get(sent.done) }));
  }

  @Get('print')
  async print(
    @Param('slug') slug: string,
    @Query() sent: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const labels = await this.labels.labels(visit.studio.id, labelQuery.parse(sent));
    return page(reply, LabelSheetsPage({ visit, labels }));
  }

  @Post('sheet')
  async sheet(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    try {
      await this.labels.saveSheet(visit.studio.id, visit.account, values, (stands) =>
        refuseChanged(values, { ...stands }),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { values, errors: error.fields };
      const found = await this.found(visit, labelQuery.parse({}));
      return page(reply, LabelsPage({ ...found, sent }), error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/plates/labels?done=saved`);
  }

  private async found(visit: StaffVisit, query: LabelQuery) {
    const { id } = visit.studio;
    const { series } = await this.series.all(id);
    const { sheet } = await this.labels.labels(id, labelQuery.parse({}));
    const [plate] = query.plate;
    const wanted = { day: query.day?.toString(), series: query.series ?? '', find: plate ? `${plate}` : '' };
    const book = await this.book.find(id, bookQuery.parse({ ...wanted, keeper: 'yes' }));
    return { visit, book, series, query, sheet };
  }
}
