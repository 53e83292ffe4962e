// The doors of "the chemistry is off" and of the log of faults. They stand before the bath's own, whose id they are not.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { FaultsService } from '../../stock/faults.service.js';
import { ConcernedService } from './concerned.service.js';
import { FaultPage, OffPage, remedyAnswers } from './faults.pages.js';

const faultId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This entry is not in the log.'),
});

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/baths/off')
export class FaultsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly faults: FaultsService,
    private readonly concerned: ConcernedService,
  ) {}

  @Get()
  async form(
    @Param('slug') slug: string,
    @Query('what') what: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const suspects = await this.faults.suspects(visit.studio.id);
    const values = typeof what === 'string' ? { what } : {};
    return page(reply, OffPage({ visit, suspects, formKey: this.random.id(), values }));
  }

  @Post()
  async off(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    try {
      await this.faults.off(visit.studio.id, visit.account, formKey, values);
      return seeOther(reply, `/s/${slug}/desk/shelf/baths/off/${formKey}?done=off`);
    } catch (error) {
      if (!(error instanceof AppError && error.code === 'bad_input')) throw error;
      const suspects = await this.faults.suspects(visit.studio.id);
      return page(reply, OffPage({ visit, suspects, formKey, values, errors: error.fields }), error.status);
    }
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', faultId) id: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const found = await this.concerned.of(visit.studio.id, id);
    const text = done === 'off' ? 'It is put aside.' : done === 'written' ? 'It is written down.' : null;
    return page(
      reply,
      FaultPage({ visit, found, notice: text === null ? undefined : { tone: 'good', text } }),
    );
  }

  @Post(':id')
  async settle(
    @Param('slug') slug: string,
    @Param('id', faultId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const values = body ?? {};
    try {
      await this.faults.settle(visit.studio.id, id, values, (stands) =>
        refuseChanged(values, remedyAnswers(stands)),
      );
      return seeOther(reply, `/s/${slug}/desk/shelf/baths/off/${id}?done=written`);
    } catch (error) {
      if (!(error instanceof AppError && TOLD_BESIDE.includes(error.code))) throw error;
      const found = await this.concerned.of(visit.studio.id, id);
      return page(reply, FaultPage({ visit, found, values, errors: error.fields }), error.status);
    }
  }
}
