// The doors of one person's data at the desk. For the owner alone.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { ErasureService } from '../../privacy/erasure.service.js';
import { asSent, ExportService } from '../../privacy/export.service.js';
import type { Notice } from '../frame.pages.js';
import { PersonPage } from './person.pages.js';

const person = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This person is not known here.'),
});
const DONE = new Map<unknown, Notice>([
  ['erased', { tone: 'good', text: 'Erased.' }],
  ['stands', { tone: 'warn', text: 'Nothing is erased: a place of theirs lies ahead.' }],
]);

@Controller('s/:slug/desk/people/:id')
export class PersonWeb {
  constructor(
    private readonly visits: Visits,
    private readonly exports: ExportService,
    private readonly erasures: ErasureService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('id', person) id: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.erasures.preview(visit.studio.id, id);
    return page(reply, PersonPage({ visit, found, notice: DONE.get(done) }));
  }

  @Post('file')
  async file(
    @Param('slug') slug: string,
    @Param('id', person) id: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.staff(slug, request, reply, ['owner']);
    const { type, name, text } = asSent(await this.exports.file(studio.id, { contactId: id }), body?.as);
    reply.status(200).header('content-type', type).header('cache-control', 'no-store');
    reply.header('content-disposition', `attachment; filename="${name}"`);
    return text;
  }

  @Post('erase')
  async erase(
    @Param('slug') slug: string,
    @Param('id', person) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const own = `/s/${slug}/desk/people/${id}`;
    try {
      await this.erasures.erase(visit.studio.id, visit.account, id);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      return seeOther(reply, `${own}?done=stands`);
    }
    return seeOther(reply, `${own}?done=erased`);
  }
}
