// The doors of "the chemistry is off" on the red screen. The bright ones stand at the shelf: shelf/faults.web.ts.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { readDay } from '../platform/day-in-path.js';
import { Random } from '../platform/clock.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { FaultsService } from '../stock/faults.service.js';
import { RedOffPage, RedSeenPage, RedSuspectsPage } from './day-off.pages.js';
import { type DaySheet, DaySheets } from './day-sheets.service.js';
import { ConcernedService } from './shelf/concerned.service.js';

const faultId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This entry is not in the log.'),
});
const STAFF = ['owner', 'assistant'] as const;

@Controller('s/:slug/desk/days/:date/red/off')
export class DayOffWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly sheets: DaySheets,
    private readonly faults: FaultsService,
    private readonly concerned: ConcernedService,
  ) {}

  /** What may be off, of what the day pours; with one of them in the address, what was seen. */
  @Get()
  async choose(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Query('what') what: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const red = redOf(slug, date);
    const bottles = bottlesOf(await this.sheets.of(visit.studio.id, readDay(date)));
    const suspects = (await this.faults.suspects(visit.studio.id)).filter(
      ({ value, label }) => !value.startsWith('bottle:') || bottles.has(label),
    );
    const suspect = suspects.find(({ value }) => value === what);
    if (!suspect) return page(reply, RedSuspectsPage({ visit, red, suspects }));
    return page(reply, RedSeenPage({ visit, red, suspect, formKey: this.random.id() }));
  }

  @Post()
  async off(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const red = redOf(slug, date);
    const formKey = formKeyOf(body, this.random);
    try {
      await this.faults.off(visit.studio.id, visit.account, formKey, body ?? {});
    } catch (error) {
      // nothing typed can be lost, and a bright page would fog the plates
      if (error instanceof AppError && ['bad_input', 'not_found'].includes(error.code))
        return seeOther(reply, `${red}/off`);
      throw error;
    }
    return seeOther(reply, `${red}/off/${formKey}`);
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', faultId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const found = await this.concerned.of(visit.studio.id, id);
    return page(reply, RedOffPage({ visit, red: redOf(slug, date), found }));
  }
}

const redOf = (slug: string, date: string) => `/s/${slug}/desk/days/${readDay(date)}/red`;

/** The bottles that the day pours from, by their names. */
const bottlesOf = ({ sittings, poured }: DaySheet) =>
  new Set([...poured, ...sittings.flatMap((one) => one.poured)].flatMap(({ bottles }) => bottles));
