// The doors of what a teaching day came to: the page, writing it down or correcting it, taking it back.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { AfterService } from '../../teaching/after.service.js';
import { ATTENDANCE_WORDS } from '../../teaching/words.calc.js';
import type { Notice } from '../frame.pages.js';
import { AfterPage } from './after.pages.js';
import { afterAnswers, readAfter } from './after-form.calc.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
const STAFF = ['owner', 'assistant'] as const;
const DONE = new Map<unknown, Notice>([
  ['written', { tone: 'good', text: 'It is written down, and the shelf and your own figures follow.' }],
  ['undone', { tone: 'good', text: 'It is taken back.' }],
]);
const AGAIN = ['bad_input', 'changed_meanwhile', 'wrong_state', 'short_of_stock'];

@Controller('s/:slug/desk/teaching/:id/after')
export class AfterWeb {
  constructor(
    private readonly visits: Visits,
    private readonly after: AfterService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const found = await this.after.show(visit.studio.id, sessionId);
    return page(reply, AfterPage({ visit, found, notice: DONE.get(done) }));
  }

  @Post()
  async write(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const values = body ?? {};
    return this.orAgain(visit, sessionId, values, reply, async () => {
      const { view, students } = await this.after.show(visit.studio.id, sessionId);
      const read = readAfter(values, view.session, students);
      if (!read.ok) throw new AppError('bad_input', undefined, read.problems);
      await this.after.write(visit.studio.id, visit.account, sessionId, read.told, (stands) =>
        refuseChanged(values, afterAnswers(students, stands), ATTENDANCE_WORDS),
      );
      return 'written';
    });
  }

  @Post('undo')
  async undo(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    return this.orAgain(visit, sessionId, null, reply, async () => {
      await this.after.undo(visit.studio.id, visit.account, sessionId);
      return 'undone';
    });
  }

  /** The page once more with what was typed and what is wrong; null where nothing was typed. */
  private async orAgain(
    visit: StaffVisit,
    sessionId: string,
    values: Sent | null,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      const done = await act();
      return seeOther(reply, `/s/${visit.studio.slug}/desk/teaching/${sessionId}/after?done=${done}`);
    } catch (error) {
      if (!(error instanceof AppError) || !AGAIN.includes(error.code)) throw error;
      const found = await this.after.show(visit.studio.id, sessionId);
      const notice = error.fields.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const sent = values ? { values, errors: error.fields } : undefined;
      return page(reply, AfterPage({ visit, found, notice, sent }), error.status);
    }
  }
}
