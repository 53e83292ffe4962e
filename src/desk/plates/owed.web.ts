// The doors of what is owed after the day: the list with its ticks, and the owner's steps.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { OwedService } from '../../plates/owed.service.js';
import type { Notice } from '../frame.pages.js';
import { OwedPage } from './owed.pages.js';
import { answersOf, StepsPage } from './owed-steps.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['ticked', good('Done.')],
  ['unticked', good('It is owed again.')],
  ['step', good('It is saved.')],
  ['gone', good('It is put away, and owed no more.')],
  [
    'stays',
    { tone: 'bad', text: 'With one step at least the plates must leave the studio; this is the last.' },
  ],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/owed')
export class OwedWeb {
  constructor(
    private readonly visits: Visits,
    private readonly owed: OwedService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return page(
      reply,
      OwedPage({ visit, list: await this.owed.list(visit.studio.id), notice: DONE.get(done) }),
    );
  }

  @Post(':id/done')
  async tick(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    await this.owed.tick(visit.studio.id, visit.account, sittingId, body ?? {});
    const done = body?.done === 'yes' ? 'ticked' : 'unticked';
    return seeOther(reply, `/s/${slug}/desk/owed?done=${done}#sitting-${sittingId}`);
  }

  @Get('steps')
  async steps(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Query('form') form: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.owed.steps(visit.studio.id);
    const open = typeof form === 'string' ? form : '';
    return page(reply, StepsPage({ visit, ...found, form: open, notice: DONE.get(done) }));
  }

  @Post('steps/new')
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, null, body ?? {});
  }

  @Post('steps/:id')
  async change(
    @Param('slug') slug: string,
    @Param('id', id) stepId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, stepId, body ?? {});
  }

  @Post('steps/:id/remove')
  async remove(
    @Param('slug') slug: string,
    @Param('id', id) stepId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    let done = 'gone';
    try {
      await this.owed.removeStep(visit.studio.id, visit.account, stepId);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      done = 'stays';
    }
    return seeOther(reply, `/s/${slug}/desk/owed/steps?done=${done}`);
  }

  private async save(reply: FastifyReply, visit: StaffVisit, stepId: string | null, values: Sent) {
    const { studio, account } = visit;
    try {
      await this.owed.saveStep(studio.id, account, stepId, values, (step) =>
        refuseChanged(values, answersOf(step)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const found = await this.owed.steps(studio.id);
      const sent = { values, errors: error.fields };
      return page(reply, StepsPage({ visit, ...found, form: stepId ?? 'new', sent }), error.status);
    }
    return seeOther(reply, `/s/${studio.slug}/desk/owed/steps?done=step`);
  }
}
