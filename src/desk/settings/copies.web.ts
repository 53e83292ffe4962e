// The doors of copies: the list, a further one, and the file itself. For the owner alone.
import { Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { BackupService } from '../../backup/backup.service.js';
import { Config } from '../../platform/config.js';
import { page, seeOther } from '../../platform/http.js';
import { CopiesPage } from './copies.pages.js';

@Controller('s/:slug/desk/settings/copies')
export class CopiesWeb {
  constructor(
    private readonly visits: Visits,
    private readonly config: Config,
    private readonly backup: BackupService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const copies = await this.backup.kept(visit.studio.id);
    const notice = done === 'made' ? ({ tone: 'good', text: 'The copy is made.' } as const) : undefined;
    const folder = this.backup.folder(visit.studio.id);
    return page(reply, CopiesPage({ visit, copies, folder, withKey: this.config.ownSecret, notice }));
  }

  @Post()
  async make(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.backup.keep(visit.studio.id);
    return seeOther(reply, `/s/${slug}/desk/settings/copies?done=made`);
  }

  @Get(':name')
  async file(
    @Param('slug') slug: string,
    @Param('name') name: string,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const bytes = await this.backup.read(visit.studio.id, name);
    return reply
      .header('content-type', 'application/gzip')
      .header('content-disposition', `attachment; filename="${name}"`)
      .header('cache-control', 'no-store')
      .send(bytes);
  }
}
