// What people agree to, at the desk: a yes that was told, and the owner's own words and house rules.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { ConsentsService } from '../sittings/consents.service.js';
import { wordsField, WordsPage } from './settings/words.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

type Answers = Record<string, unknown>;

@Controller('s/:slug/desk')
export class ConsentsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly consents: ConsentsService,
  ) {}

  @Post('requests/:id/consents')
  async told(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, account } = await this.visits.staff(slug, request, reply, ['owner']);
    const done = await this.orChanged(() =>
      this.consents.answer(studio.id, { who: account, sittingId }, body ?? {}),
    );
    return seeOther(
      reply,
      `/s/${slug}/desk/requests/${sittingId}?done=${done ? 'consent' : 'words-changed'}`,
    );
  }

  @Get('settings/words')
  async words(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const notice = done === 'yes' ? ({ tone: 'good', text: 'Your words are kept.' } as const) : undefined;
    return page(reply, WordsPage({ visit, words: await this.consents.words(visit.studio.id), notice }));
  }

  @Post('settings/words')
  async rewrite(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    const field = wordsField(String(answers.purpose));
    try {
      await this.consents.rewrite(visit.studio.id, visit.account, { ...answers, words: answers[field] });
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'wrong_state'].includes(error.code)) throw error;
      const words = await this.consents.words(visit.studio.id);
      const notice = error.fields.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const problems = error.fields.map((one) => (one.field === 'words' ? { ...one, field } : one));
      const sent = { answers, problems };
      return page(reply, WordsPage({ visit, words, notice, sent }), error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/settings/words?done=yes`);
  }

  /** Whether it was done; not, where the words were changed since they were read out. */
  private async orChanged(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      return true;
    } catch (error) {
      if (error instanceof AppError && error.code === 'wrong_state') return false;
      throw error;
    }
  }
}
