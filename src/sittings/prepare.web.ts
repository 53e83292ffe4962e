// The preparation sheet, behind a contact's own link.
import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { page } from '../platform/http.js';
import { ConsentsService } from './consents.service.js';
import { ListService } from './list.service.js';
import { PreparePage } from './prepare.pages.js';

@Controller('s/:slug/place/:token/prepare')
export class PrepareWeb {
  constructor(
    private readonly visits: Visits,
    private readonly list: ListService,
    private readonly consents: ConsentsService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, spoken } = await this.visits.guest(slug, request, reply);
    const { view, offer } = await this.list.behindLink(studio.id, token);
    const { inForce } = await this.consents.words(studio.id);
    const path = `/s/${slug}/place/${token}`;
    const houseRules = inForce.house_rules.words;
    return page(reply, PreparePage({ studio, view, offer, houseRules, path, spoken }));
  }
}
