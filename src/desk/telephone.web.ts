// The doors of telling by hand: the list, the letters on paper, ticks and taking them back.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { TelephoneService } from '../reminders/telephone.service.js';
import type { Notice } from './frame.pages.js';
import { LettersPage, TelephonePage } from './telephone.pages.js';
import { telephonePath } from './telephone-parts.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

const DONE = new Map<unknown, Notice>([
  ['told', { tone: 'good', text: 'Ticked. Below you can take it back.' }],
  ['not-told', { tone: 'good', text: 'It is on the list again.' }],
  ['late', { tone: 'warn', text: 'That was ticked, or taken back, in the meantime.' }],
]);

const lettersForm = z.object({
  letters: z
    .string('Please choose again.')
    .transform((text) => text.split(' '))
    .pipe(z.array(z.uuid('Please choose again.')).min(1).max(100)),
});

@Controller('s/:slug/desk/telephone')
export class TelephoneWeb {
  constructor(
    private readonly visits: Visits,
    private readonly telephone: TelephoneService,
  ) {}

  @Get()
  async list(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.telephone.list(visit.studio.id);
    return page(reply, TelephonePage({ visit, ...found, notice: DONE.get(done) }));
  }

  @Get('letters')
  async letters(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, LettersPage({ visit, letters: await this.telephone.letters(visit.studio.id) }));
  }

  @Post(':id/told')
  async told(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { letters } = readInput(lettersForm, body ?? {});
    const done = await orLate('told', () =>
      this.telephone.tell(visit.studio.id, visit.account, sittingId, letters),
    );
    return seeOther(reply, `${telephonePath(visit)}?done=${done}`);
  }

  @Post(':id/not-told')
  async notTold(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { letters } = readInput(lettersForm, body ?? {});
    const done = await orLate('not-told', () =>
      this.telephone.untell(visit.studio.id, visit.account, sittingId, letters),
    );
    return seeOther(reply, `${telephonePath(visit)}?done=${done}`);
  }
}

async function orLate(done: string, act: () => Promise<void>): Promise<string> {
  try {
    await act();
    return done;
  } catch (error) {
    if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
    return 'late';
  }
}
