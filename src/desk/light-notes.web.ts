// The owner's exposure notes: typing plates in, taking a slip out, seeing what they propose.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { DaylightService } from '../daylight/daylight.service.js';
import { Random } from '../platform/clock.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import type { Notice } from './frame.pages.js';
import { LightNotesPage } from './light-notes.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This note is not here any more.'),
});

const DONE = new Map<unknown, Notice>([
  ['noted', { tone: 'good', text: 'The plate is noted.' }],
  ['removed', { tone: 'good', text: 'The note is taken out.' }],
]);

@Controller('s/:slug/desk/light/notes')
export class LightNotesWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly daylight: DaylightService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.daylight.notes(visit.studio.id);
    return page(reply, LightNotesPage({ visit, found, formKey: this.random.id(), notice: DONE.get(done) }));
  }

  @Post()
  async enter(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    const formKey = formKeyOf(sent, this.random);
    try {
      const answers = { ...sent, date: readDateField(sent, 'date') };
      await this.daylight.enterNote(visit.studio.id, visit.account, formKey, answers);
      return seeOther(reply, `/s/${slug}/desk/light/notes?done=noted`);
    } catch (error) {
      if (!(error instanceof AppError && error.code === 'bad_input')) throw error;
      const found = await this.daylight.notes(visit.studio.id);
      const props = { visit, found, formKey, values: sent, errors: error.fields };
      return page(reply, LightNotesPage(props), error.status);
    }
  }

  @Post(':id/remove')
  async remove(
    @Param('slug') slug: string,
    @Param('id', id) noteId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.daylight.removeNote(visit.studio.id, visit.account, noteId);
    return seeOther(reply, `/s/${slug}/desk/light/notes?done=removed`);
  }
}
