// The JSON door of plans for the waiting list: making one, and reading it. Giving the places stays with a person.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { leftOutShown, placeShown, weightsForm } from './plans.schemas.js';
import { PlansService, type WholePlan } from './plans.service.js';

const planAnswer = z.object({
  id: z.uuid(),
  madeAt: z.string(),
  state: z.enum(['proposed', 'confirmed', 'dropped']),
  weights: weightsForm,
  points: z.number(),
  bound: z.number(),
  proven: z.boolean(),
  people: z.array(
    z.object({
      sittingId: z.uuid(),
      position: z.number(),
      start: z.string().nullable(),
      place: placeShown.nullable(),
      leftOut: leftOutShown.nullable(),
      ticked: z.boolean(),
      outcome: z.string(),
    }),
  ),
});

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This plan is not known here.'),
});

@Controller('api/v1/s/:slug/plans')
export class PlansController {
  constructor(
    private readonly visits: Visits,
    private readonly plans: PlansService,
  ) {}

  @Describe({
    summary: 'Propose who of the waiting list gets which place; nothing is given and nobody is told',
    staff: true,
    body: weightsForm,
    answer: planAnswer,
    status: 201,
  })
  @Post()
  async propose(@Param('slug') slug: string, @Body() body: unknown, @Req() request: FastifyRequest) {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    const id = await this.plans.propose(studioId, account, readInput(weightsForm, body));
    return toAnswer(await this.plans.whole(studioId, id));
  }

  @Describe({
    summary: 'A plan and what became of it',
    staff: true,
    answer: planAnswer,
    problems: ['not_found'],
  })
  @Get(':id')
  async read(@Param('slug') slug: string, @Param('id', uuid) id: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request);
    return toAnswer(await this.plans.whole(studioId, id));
  }
}

function toAnswer({ plan, entries }: WholePlan): z.output<typeof planAnswer> {
  const { id, state, weights, points, bound } = plan;
  return {
    id,
    madeAt: plan.madeAt.toString(),
    state,
    weights,
    points,
    bound,
    proven: points === bound,
    people: entries.map((one) => ({
      sittingId: one.sittingId,
      position: one.position,
      start: one.wallStart?.toString({ smallestUnit: 'minute' }) ?? null,
      place: one.place,
      leftOut: one.leftOut,
      ticked: one.ticked,
      outcome: one.outcome,
    })),
  };
}
