// Typing in the day: the plates of one day, line by line, in the order of the printed day sheet.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { readDay } from '../../platform/day-in-path.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, type FieldProblem } from '../../platform/problems.js';
import { MadeService } from '../../plates/made.service.js';
import type { Notice } from '../frame.pages.js';
import { TypeInPage } from './type-in.pages.js';
import { atLines, linesAtFirst, linesSent, readTypeIn } from './type-in.schemas.js';

const DONE = new Map<unknown, Notice>([
  ['typed', { tone: 'good', text: 'It is typed in. The shelf, the baths and your own figures follow.' }],
  ['nothing', { tone: 'warn', text: 'Nothing was typed in, so nothing has changed.' }],
  ['struck', { tone: 'good', text: 'The plate is struck. Its number is not given again.' }],
]);
const CHANGED: Notice = {
  tone: 'warn',
  text: 'Somebody else typed in plates of this day meanwhile. They stand below now, and what you typed is still here: please look, and save again.',
};
const STAFF = ['owner', 'assistant'] as const;
type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/days/:date/plates')
export class TypeInWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly made: MadeService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const now = await this.made.day(visit.studio.id, readDay(date));
    const lines = linesAtFirst(now, () => this.random.id());
    return page(reply, TypeInPage({ visit, now, lines, notice: DONE.get(done) }));
  }

  @Post()
  async save(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = readDay(date);
    const sent = body ?? {};
    const again = async (status: number, errors: FieldProblem[], notice?: Notice) => {
      const now = await this.made.day(visit.studio.id, day);
      const more = typeof sent.more === 'string' ? sent.more : null;
      const lines = linesSent(now, sent, more, () => this.random.id());
      return page(reply, TypeInPage({ visit, now, lines, values: sent, errors, notice }), status);
    };
    if (typeof sent.more === 'string') return again(200, []);
    const now = await this.made.day(visit.studio.id, day);
    const read = readTypeIn(
      sent,
      linesSent(now, sent, null, () => this.random.id()),
    );
    if (!read.ok) return again(422, read.problems);
    try {
      const done = await this.made.save(visit.studio.id, visit.account, day, read.input);
      const told = done.struck > 0 ? 'struck' : done.changed ? 'typed' : 'nothing';
      return seeOther(reply, `/s/${slug}/desk/days/${day}/plates?done=${told}`);
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      const ids = (read.input.plates as { id: string }[]).map((one) => one.id);
      if (error.code === 'bad_input') return again(422, atLines(error.fields, ids));
      if (error.code === 'wrong_state' && read.input.seen !== now.version) return again(409, [], CHANGED);
      throw error;
    }
  }
}
