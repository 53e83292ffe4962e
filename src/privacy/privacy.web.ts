// The doors of a person's own data, behind the link of their page: of a sitting or of a sign-up alike.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { ErasureService } from './erasure.service.js';
import { asSent, ExportService } from './export.service.js';
import { YourDataPage } from './privacy.pages.js';

@Controller('s/:slug/your-data/:token')
export class PrivacyWeb {
  constructor(
    private readonly visits: Visits,
    private readonly exports: ExportService,
    private readonly erasures: ErasureService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const asked = await this.erasures.hasAsked(studio.id, token);
    reply.header('cache-control', 'private, no-store');
    const path = `/s/${slug}/your-data/${token}`;
    return page(reply, YourDataPage({ studio, formToken, asked, path, spoken }));
  }

  @Post('file')
  async file(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const { type, name, text } = asSent(await this.exports.file(studio.id, { token }), body?.as);
    reply.status(200).header('content-type', type).header('cache-control', 'no-store');
    reply.header('content-disposition', `attachment; filename="${name}"`);
    return text;
  }

  @Post('erase')
  async erase(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.erasures.ask(studio.id, token);
    return seeOther(reply, `/s/${slug}/your-data/${token}`);
  }
}
