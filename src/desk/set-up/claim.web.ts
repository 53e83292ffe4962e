// The door of the first evening: behind the secret that the console told, and only while there is no studio.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Config } from '../../platform/config.js';
import { agentOf, page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { formToken } from '../../platform/security/forms.js';
import { ClaimPage } from './claim.pages.js';
import { ClaimService } from './claim.service.js';

@Controller('set-up')
export class ClaimWeb {
  constructor(
    private readonly config: Config,
    private readonly claims: ClaimService,
    private readonly visits: Visits,
  ) {}

  @Get(':token')
  async show(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    await this.claims.check(token);
    return page(reply, ClaimPage({ token, formToken: formToken(this.config, request, reply) }));
  }

  @Post(':token')
  async claim(
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { password: _, ...typed } = body ?? {};
    const again = (shown: Omit<Parameters<typeof ClaimPage>[0], 'token' | 'formToken' | 'values'>) =>
      page(
        reply,
        ClaimPage({ token, formToken: formToken(this.config, request, reply), values: typed, ...shown }),
        422,
      );
    try {
      const claimed = await this.claims.claim(token, body ?? {}, agentOf(request));
      if (!claimed.ok) return again({ problems: claimed.problems, places: claimed.places });
      await this.visits.beginSession({ id: claimed.studioId }, claimed.secret, request, reply);
      return seeOther(reply, `/s/${claimed.slug}/desk/set-up`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      return again({ problems: error.fields });
    }
  }
}
