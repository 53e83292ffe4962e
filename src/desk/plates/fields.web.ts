// The doors of the owner's fields for the back of a plate.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { RecordService } from '../../plates/record.service.js';
import type { Notice } from '../frame.pages.js';
import { answersOf, FieldsPage, WHAT_WORDS } from './fields.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This field is not known here.'),
});

type Sent = Record<string, unknown>;
const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['saved', good('It is saved.')],
  ['gone', good('It is put away; what was typed in it is kept.')],
  ['last', { tone: 'bad', text: 'This is the last line, and one has to stand there.' }],
]);

@Controller('s/:slug/desk/plates/fields')
export class FieldsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly records: RecordService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Query('form') form: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.records.fields(visit.studio.id);
    const open = typeof form === 'string' ? form : '';
    return page(reply, FieldsPage({ visit, ...found, form: open, notice: DONE.get(done) }));
  }

  @Post('new')
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, null, body ?? {});
  }

  @Post(':id')
  async change(
    @Param('slug') slug: string,
    @Param('id', id) fieldId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, fieldId, body ?? {});
  }

  @Post(':id/move')
  async move(
    @Param('slug') slug: string,
    @Param('id', id) fieldId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.records.move(visit.studio.id, visit.account, fieldId, body ?? {});
    return seeOther(reply, `/s/${slug}/desk/plates/fields?done=saved`);
  }

  @Post(':id/remove')
  async remove(
    @Param('slug') slug: string,
    @Param('id', id) fieldId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    let done = 'gone';
    try {
      await this.records.remove(visit.studio.id, visit.account, fieldId);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      done = 'last';
    }
    return seeOther(reply, `/s/${slug}/desk/plates/fields?done=${done}`);
  }

  private async save(reply: FastifyReply, visit: StaffVisit, fieldId: string | null, values: Sent) {
    const { studio, account } = visit;
    try {
      await this.records.save(studio.id, account, fieldId, values, (field) =>
        refuseChanged(values, answersOf(field), WHAT_WORDS),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { values, errors: error.fields };
      const found = await this.records.fields(studio.id);
      return page(reply, FieldsPage({ visit, ...found, form: fieldId ?? 'new', sent }), error.status);
    }
    return seeOther(reply, `/s/${studio.slug}/desk/plates/fields?done=saved`);
  }
}
