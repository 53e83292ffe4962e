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

/** What the page of the request tells of it, by the code in its address. */
const DONE = { 'all of it': 'bottle', 'part of it': 'bottle-part', 'by the rule': 'bottle-rule' } as const;
const REFUSED = new Map([
  ['bad_input', 'no-bottle'],
  ['short_of_stock', 'bottle-short'],
  ['not_found', 'bottle-gone'],
]);

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
      return back(DONE[await this.shelf.choose(visit.studio.id, visit.account, { ...body, heldFor })]);
    } catch (error) {
      const refused = error instanceof AppError && REFUSED.get(error.code);
      if (!refused) throw error;
      return back(refused);
    }
  }
}
