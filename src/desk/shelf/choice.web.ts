// The door through which the owner chooses another bottle for a sitting.
import { Body, Controller, Param, ParseUUIDPipe, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { ShelfService } from '../../stock/shelf.service.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

/** The bottle cannot give it that day, or another sitting could not be had any more. */
const REFUSED = ['bad_input', 'short_of_stock'];

@Controller('s/:slug/desk/requests/:id/bottle')
export class ChoiceWeb {
  constructor(
    private readonly visits: Visits,
    private readonly shelf: ShelfService,
  ) {}

  @Post()
  async choose(
    @Param('slug') slug: string,
    @Param('id', id) heldFor: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const back = (done: string) => seeOther(reply, `/s/${slug}/desk/requests/${heldFor}?done=${done}`);
    try {
      await this.shelf.choose(visit.studio.id, visit.account, { ...body, heldFor });
      return back('bottle');
    } catch (error) {
      if (!(error instanceof AppError) || !REFUSED.includes(error.code)) throw error;
      return back('no-bottle');
    }
  }
}
