// The doors of all plates: looking them up, and correcting what stands on the back of one.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { bookQuery, plateNumber } from '../../plates/book.schemas.js';
import { BookService } from '../../plates/book.service.js';
import { HandOverService } from '../../plates/hand-over.service.js';
import { SeriesService } from '../../plates/series.service.js';
import type { Notice } from '../frame.pages.js';
import { BookPage } from './book.pages.js';
import { answersOf, PlatePage } from './plate.pages.js';

type Sent = Record<string, unknown>;
const DONE = new Map<unknown, Notice>([['saved', { tone: 'good', text: 'It is saved.' }]]);

@Controller('s/:slug/desk/plates')
export class BookWeb {
  constructor(
    private readonly visits: Visits,
    private readonly book: BookService,
    private readonly series: SeriesService,
    private readonly lists: HandOverService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query() sent: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const query = bookQuery.parse(sent);
    const { series } = await this.series.all(visit.studio.id);
    const book = await this.book.find(visit.studio.id, query);
    return page(reply, BookPage({ visit, book, series, query }));
  }

  @Get(':number')
  async one(
    @Param('slug') slug: string,
    @Param('number') number: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return page(
      reply,
      PlatePage({ ...(await this.found(visit, plateNumber(number))), notice: DONE.get(done) }),
    );
  }

  @Post(':number/record')
  async correct(
    @Param('slug') slug: string,
    @Param('number') sentNumber: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const number = plateNumber(sentNumber);
    const values = body ?? {};
    try {
      await this.book.correct(visit.studio.id, visit.account, number, values, (stands) =>
        refuseChanged(values, answersOf(stands)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { values, errors: error.fields };
      return page(reply, PlatePage({ ...(await this.found(visit, number)), sent }), error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/plates/${number}?done=saved`);
  }

  private async found(visit: StaffVisit, number: number) {
    const whole = await this.book.byNumber(visit.studio.id, number);
    return { visit, whole, lists: await this.lists.ofPlate(visit.studio.id, whole.plate.id) };
  }
}
