// The doors of the steps after the studio was founded; for the owner.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { FirstShelfService } from './first-shelf.service.js';
import { MailStepPage, RhythmStepPage, SetUpPage, ShelfStepPage } from './set-up.pages.js';
import { SetUpService } from './set-up.service.js';

type Answers = Record<string, unknown>;

@Controller('s/:slug/desk/set-up')
export class SetUpWeb {
  constructor(
    private readonly visits: Visits,
    private readonly setUp: SetUpService,
    private readonly firstShelf: FirstShelfService,
  ) {}

  @Get()
  async overview(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, SetUpPage({ visit, done: await this.setUp.done(visit.studio.id, visit.account) }));
  }

  @Get('rhythm')
  async rhythm(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, RhythmStepPage({ visit, ...(await this.setUp.days(visit.studio.id)) }));
  }

  @Post('rhythm')
  async beginRhythm(
    @Param('slug') slug: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return orAgain(
      async () => {
        await this.setUp.beginRhythm(visit.studio.id, visit.account, answers ?? {});
        return seeOther(reply, `/s/${slug}/desk/set-up/rhythm`);
      },
      async ({ fields, status }) => {
        const shown = { values: answers ?? {}, problems: fields };
        return page(
          reply,
          RhythmStepPage({ visit, ...(await this.setUp.days(visit.studio.id)), ...shown }),
          status,
        );
      },
    );
  }

  @Get('shelf')
  async shelf(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, ShelfStepPage({ visit, there: await this.firstShelf.there(visit.studio.id) }));
  }

  @Post('shelf')
  async fillShelf(
    @Param('slug') slug: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = answers ?? {};
    return orAgain(
      async () => {
        const told = { sheets: under(sent, 'sheets-'), millilitres: under(sent, 'ml-') };
        await this.firstShelf.fill(visit.studio.id, visit.account, told);
        return seeOther(reply, `/s/${slug}/desk/set-up`);
      },
      async ({ fields, status }) => {
        const there = await this.firstShelf.there(visit.studio.id);
        const problems = fields.map(({ field, message }) => ({
          field: field.replace(/^sheets\//, 'sheets-').replace(/^millilitres\//, 'ml-'),
          message,
        }));
        return page(reply, ShelfStepPage({ visit, there, values: sent, problems }), status);
      },
    );
  }

  @Get('mail')
  async mail(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit: StaffVisit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, MailStepPage({ visit, test: null }));
  }

  @Post('mail')
  async testMail(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, MailStepPage({ visit, test: await this.setUp.testMail(visit.studio, visit.account) }));
  }
}

/** Shows the form again, with what was typed and what is wrong. */
async function orAgain(
  act: () => Promise<string>,
  again: (refusal: AppError) => Promise<string> | string,
): Promise<string> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
    return again(error);
  }
}

/** The fields whose name begins so, without that beginning. */
const under = (answers: Answers, start: string): Answers =>
  Object.fromEntries(
    Object.entries(answers).flatMap(([name, value]) =>
      name.startsWith(start) ? [[name.slice(start.length), value]] : [],
    ),
  );
