// The doors of planning: what matters, a proposal, and the owner's yes or no to it.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { confirmForm, weightsForm } from '../sittings/plans.schemas.js';
import { PlansService } from '../sittings/plans.service.js';
import type { Notice } from './frame.pages.js';
import { PlanPage, PlanStartPage } from './plan.pages.js';
import { planPath } from './plan-parts.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This plan is not known here.'),
});

const DONE = new Map<unknown, Notice>([
  ['confirmed', { tone: 'good', text: 'Confirmed. What became of each stands below.' }],
  ['dropped', { tone: 'good', text: 'The plan is put away. Nobody was told.' }],
  ['late', { tone: 'warn', text: 'That plan was decided about in the meantime.' }],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/plan')
export class PlanWeb {
  constructor(
    private readonly visits: Visits,
    private readonly plans: PlansService,
  ) {}

  @Get()
  async start(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const overview = await this.plans.overview(visit.studio.id);
    return page(reply, PlanStartPage({ visit, ...overview, notice: DONE.get(done) }));
  }

  @Post()
  async propose(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const again = async (errors: AppError['fields']) => {
      const overview = await this.plans.overview(visit.studio.id);
      return PlanStartPage({ visit, ...overview, values, errors });
    };
    return this.orAgain(reply, again, async () => {
      const weights = readInput(weightsForm, values);
      const planId = await this.plans.propose(visit.studio.id, visit.account, weights);
      return seeOther(reply, planPath(visit, `/${planId}`));
    });
  }

  @Get(':id')
  async show(
    @Param('slug') slug: string,
    @Param('id', id) planId: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const whole = await this.plans.whole(visit.studio.id, planId);
    return page(reply, PlanPage({ visit, whole, notice: DONE.get(done) }));
  }

  @Post(':id/confirm')
  async confirm(
    @Param('slug') slug: string,
    @Param('id', id) planId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = { people: [], ...body };
    const again = async (errors: AppError['fields']) =>
      PlanPage({ visit, whole: await this.plans.whole(visit.studio.id, planId), values, errors });
    return this.orAgain(reply, again, () =>
      this.orLate(reply, visit, planId, 'confirmed', async () => {
        const chosen = readInput(confirmForm, values);
        await this.plans.confirm(visit.studio.id, visit.account, planId, chosen);
      }),
    );
  }

  @Post(':id/drop')
  async drop(
    @Param('slug') slug: string,
    @Param('id', id) planId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orLate(reply, visit, planId, 'dropped', () => this.plans.drop(visit.studio.id, planId));
  }

  private async orLate(
    reply: FastifyReply,
    visit: StaffVisit,
    planId: string,
    done: string,
    act: () => Promise<void>,
  ): Promise<string> {
    try {
      await act();
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      return seeOther(reply, `${planPath(visit, `/${planId}`)}?done=late`);
    }
    return seeOther(reply, `${planPath(visit, `/${planId}`)}?done=${done}`);
  }

  /** The page again with what was sent and what is wrong. */
  private async orAgain(
    reply: FastifyReply,
    again: (errors: AppError['fields']) => Promise<Parameters<typeof page>[1]>,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      return page(reply, await again(error.fields), error.status);
    }
  }
}
