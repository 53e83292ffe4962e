// The doors of lists for an archive.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { bookQuery } from '../../plates/book.schemas.js';
import { HandOverService } from '../../plates/hand-over.service.js';
import { SeriesService } from '../../plates/series.service.js';
import type { Notice } from '../frame.pages.js';
import { HandOverPage, type HandOverProps } from './hand-over.pages.js';
import { HandOversPage } from './hand-overs.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This list is not known here.'),
});

type Sent = Record<string, unknown>;
const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['begun', good('The list is begun; now choose its plates.')],
  ['added', good('They stand on the list.')],
  ['off', good('It stands there no more.')],
  ['given', good('It is written down that they were given.')],
  ['back', good('They count as not given.')],
]);

@Controller('s/:slug/desk/plates/hand-over')
export class HandOverWeb {
  constructor(
    private readonly visits: Visits,
    private readonly lists: HandOverService,
    private readonly series: SeriesService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, HandOversPage({ visit, lists: await this.lists.all(visit.studio.id) }));
  }

  @Post('new')
  async begin(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { studio, account } = visit;
    const values = body ?? {};
    try {
      const list = await this.lists.begin(studio.id, account, values);
      return seeOther(reply, `/s/${slug}/desk/plates/hand-over/${list}?done=begun`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const sent = { values, errors: error.fields };
      const lists = await this.lists.all(studio.id);
      return page(reply, HandOversPage({ visit, lists, sent }), error.status);
    }
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Query() query: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, HandOverPage(await this.found(visit, listId, query)));
  }

  @Get(':id/list.csv')
  async csv(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const csv = await this.lists.csv(visit.studio.id, listId);
    reply.header('content-type', 'text/csv; charset=utf-8; header=present');
    reply.header('content-disposition', 'attachment; filename="plates-for-an-archive.csv"');
    return csv;
  }

  @Post(':id/add')
  add(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act({ slug, listId, request, reply }, 'added', async ({ studio, account }) => {
      const values = body ?? {};
      await shown('add', values, this.lists.add(studio.id, account, listId, values));
    });
  }

  @Post(':id/off')
  off(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act({ slug, listId, request, reply }, 'off', ({ studio, account }) =>
      this.lists.takeOff(studio.id, account, listId, body ?? {}),
    );
  }

  @Post(':id/give')
  give(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act({ slug, listId, request, reply }, 'given', async ({ studio, account }) => {
      const values = body ?? {};
      const day = readDateField(values, 'day');
      await shown('give', values, this.lists.give(studio.id, account, listId, { day }));
    });
  }

  @Post(':id/take-back')
  takeBack(
    @Param('slug') slug: string,
    @Param('id', id) listId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act({ slug, listId, request, reply }, 'back', ({ studio, account }) =>
      this.lists.takeBack(studio.id, account, listId),
    );
  }

  private async found(visit: StaffVisit, listId: string, sent: Sent): Promise<HandOverProps> {
    const query = bookQuery.parse(sent);
    const found = await this.lists.one(visit.studio.id, listId, query);
    const { series } = await this.series.all(visit.studio.id);
    return { visit, found, series, query, notice: DONE.get(sent.done) };
  }

  /** An act of the owner; a mistake stands beside its field, a refusal over the page as it is now. */
  private async act(
    at: { slug: string; listId: string; request: FastifyRequest; reply: FastifyReply },
    done: string,
    act: (visit: StaffVisit) => Promise<void>,
  ): Promise<string> {
    const { slug, listId, request, reply } = at;
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    try {
      await act(visit);
    } catch (error) {
      const known = error instanceof WrongForm ? error.error : error;
      if (!(known instanceof AppError) || !['bad_input', 'wrong_state'].includes(known.code)) throw error;
      const props = await this.found(visit, listId, {});
      const told =
        error instanceof WrongForm && known.code === 'bad_input'
          ? { sent: { form: error.form, values: error.values, errors: known.fields } }
          : { notice: { tone: 'bad' as const, text: known.message } };
      return page(reply, HandOverPage({ ...props, ...told }), known.status);
    }
    return seeOther(reply, `/s/${slug}/desk/plates/hand-over/${listId}?done=${done}`);
  }
}

class WrongForm extends Error {
  constructor(
    readonly form: 'add' | 'give',
    readonly values: Sent,
    readonly error: unknown,
  ) {
    super('A form was sent wrong.');
  }
}

async function shown(form: 'add' | 'give', values: Sent, act: Promise<void>): Promise<void> {
  try {
    await act;
  } catch (error) {
    throw new WrongForm(form, values, error);
  }
}
