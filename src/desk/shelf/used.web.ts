// What a day took: writing it down, correcting it, taking a slip out; and the studio's own figures.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../../accounts/visits.service.js';
import { maker, type WhichDay } from '../../chemistry/actuals.schemas.js';
import { plainDateText } from '../../daylight/daylight.schemas.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { readInput } from '../../platform/input.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import type { Notice } from '../frame.pages.js';
import { answersOf, UsedPage } from './used.pages.js';
import { isSame, UsedService } from './used.service.js';

const DONE = new Map<unknown, Notice>([
  ['written', { tone: 'good', text: 'The day is written down, and your own figures follow it.' }],
  ['used', { tone: 'good', text: 'It is taken off the shelf.' }],
  ['put back', { tone: 'good', text: 'It is free again.' }],
  ['removed', { tone: 'good', text: 'The day is taken out, and your own figures follow.' }],
]);

type Sent = Record<string, unknown>;

const settleForm = z.object({ day: plainDateText, became: z.enum(['used', 'not used']) });

@Controller('s/:slug/desk/shelf/used')
export class UsedWeb {
  constructor(
    private readonly visits: Visits,
    private readonly used: UsedService,
  ) {}

  /** With ?correct=2026-11-20-sittings the form is filled with that day. */
  @Get()
  async show(
    @Param('slug') slug: string,
    @Query() query: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const now = await this.used.show(visit.studio.id);
    const which = readWhich(query.correct);
    const record = which && now.days.find((one) => isSame(one, which));
    const notice = DONE.get(query.done);
    return page(
      reply,
      UsedPage({ visit, now, notice, corrects: record ?? null, values: record ? answersOf(record) : {} }),
    );
  }

  @Post()
  async enter(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    const corrects = readWhich(sent.corrects);
    try {
      const answers = { ...sent, day: readDateField(sent, 'day') };
      await this.used.enter(visit.studio.id, visit.account, answers, corrects, (stands) =>
        refuseChanged(sent, answersOf(stands)),
      );
      return seeOther(reply, `/s/${slug}/desk/shelf/used?done=written`);
    } catch (error) {
      if (!(error instanceof AppError && TOLD_BESIDE.includes(error.code))) throw error;
      const now = await this.used.show(visit.studio.id);
      const stands = corrects && now.days.some((one) => isSame(one, corrects)) ? corrects : null;
      const props = { visit, now, corrects: stands, values: sent, errors: error.fields };
      return page(reply, UsedPage(props), error.status);
    }
  }

  /** What became of all that was set aside for a day past. */
  @Post('settle')
  async settle(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const { day, became } = readInput(settleForm, body ?? {});
    await this.used.settle(visit.studio.id, visit.account, day, became);
    const done = became === 'used' ? 'used' : 'put%20back';
    return seeOther(reply, `/s/${slug}/desk/shelf/used?done=${done}`);
  }

  @Post('remove')
  async remove(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const which = readWhich(body?.which);
    if (!which) throw new AppError('not_found', 'Nothing is written down for this day any more.');
    await this.used.remove(visit.studio.id, visit.account, which);
    return seeOther(reply, `/s/${slug}/desk/shelf/used?done=removed`);
  }
}

/** "2026-11-20-sittings", or null. */
function readWhich(sent: unknown): WhichDay | null {
  const [, date, by] = /^(\d{4}-\d{2}-\d{2})-([a-z]+)$/.exec(typeof sent === 'string' ? sent : '') ?? [];
  const day = plainDateText.safeParse(date);
  const madeBy = maker.safeParse(by);
  return day.success && madeBy.success ? { day: day.data, madeBy: madeBy.data } : null;
}
