// The JSON doors of plates: the book, one plate, and a list for an archive with its table. Reading only.
import { Controller, Get, Header, Param, ParseUUIDPipe, Query, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { bookQuery, plateNumber, type SeenPlate } from './book.schemas.js';
import { BookService } from './book.service.js';
import { HANDED } from './hand-over.calc.js';
import { HandOverService } from './hand-over.service.js';

const plateAnswer = z.object({
  number: z.number(),
  day: z.string(),
  sittingId: z.uuid().nullable(),
  people: z.array(z.object({ name: z.string(), agreesToArchive: z.boolean(), agreesToRecord: z.boolean() })),
  size: z.string(),
  kept: z.boolean(),
  seconds: z.number().nullable(),
  sky: z.string().nullable(),
  bottle: z.string().nullable(),
  bath: z.string().nullable(),
  result: z.string(),
  note: z.string(),
  names: z.string(),
  series: z.object({ name: z.string(), number: z.number() }).nullable(),
  struck: z.boolean(),
});

const wholeAnswer = plateAnswer.extend({
  /** What stands on its back. */
  record: z.array(z.object({ label: z.string(), value: z.string() })),
  stillOwed: z.array(z.object({ what: z.string(), due: z.string(), late: z.boolean() })),
  lists: z.array(
    z.object({ id: z.uuid(), takenBy: z.string(), as: z.enum(HANDED), givenOn: z.string().nullable() }),
  ),
});

const findQuery = z.object({
  find: z.string().optional(),
  day: z.string().optional(),
  series: z.string().optional(),
  keeper: z.enum(['yes', 'no']).optional(),
  page: z.string().optional(),
});

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This list is not known here.'),
});

@Controller('api/v1/s/:slug')
export class PlatesController {
  constructor(
    private readonly visits: Visits,
    private readonly book: BookService,
    private readonly lists: HandOverService,
  ) {}

  @Describe({
    summary: 'All plates made, the newest first, 50 a page; looked for as on the page of the desk',
    staff: true,
    query: findQuery,
    answer: z.object({ found: z.number(), pages: z.number(), plates: z.array(plateAnswer) }),
  })
  @Get('plates')
  async findPlates(@Param('slug') slug: string, @Query() query: unknown, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    const { plates, found, last } = await this.book.find(studioId, bookQuery.parse(query));
    return { found, pages: last, plates: plates.map(toAnswer) };
  }

  @Describe({
    summary: 'All that is known of one plate',
    staff: true,
    answer: wholeAnswer,
    problems: ['not_found'],
  })
  @Get('plates/:number')
  async readPlate(
    @Param('slug') slug: string,
    @Param('number') number: string,
    @Req() request: FastifyRequest,
  ): Promise<z.output<typeof wholeAnswer>> {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    const whole = await this.book.byNumber(studioId, plateNumber(number));
    const open = whole.owed?.finishedAt === null ? whole.owed.steps.filter((one) => one.done === null) : [];
    return {
      ...toAnswer(whole),
      record: whole.record.map(({ label, value }) => ({ label, value })),
      stillOwed: open.map(({ step, due, late }) => ({ what: step.what, due: due.toString(), late })),
      lists: (await this.lists.ofPlate(studioId, whole.plate.id)).map((one) => ({
        id: one.hand_over_id,
        takenBy: one.taken_by,
        as: one.what,
        givenOn: one.given_on?.toString() ?? null,
      })),
    };
  }

  @Describe({
    summary: 'A list for an archive as a table: text/csv, RFC 4180, UTF-8 with a mark at the front',
    staff: true,
    answer: z.string(),
    media: 'text/csv',
    problems: ['not_found'],
  })
  @Get('hand-overs/:id/list.csv')
  @Header('content-type', 'text/csv; charset=utf-8; header=present')
  async handOverTable(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Req() request: FastifyRequest,
  ) {
    const { studioId } = await this.visits.apiStaff(slug, request);
    return this.lists.csv(studioId, id);
  }
}

const toAnswer = ({ plate, on }: SeenPlate): z.output<typeof plateAnswer> => ({
  number: plate.number,
  day: plate.day.toString(),
  sittingId: plate.sittingId,
  people: on.map(({ name, archive, record }) => ({
    name,
    agreesToArchive: archive.state === 'agreed',
    agreesToRecord: record.state === 'agreed',
  })),
  size: plate.size,
  kept: plate.keeper,
  seconds: plate.seconds,
  sky: plate.sky,
  bottle: plate.bottle?.label ?? null,
  bath: plate.bath?.name ?? null,
  result: plate.result,
  note: plate.note,
  names: plate.names,
  series: plate.series && { name: plate.series.name, number: plate.series.number },
  struck: plate.struckAt !== null,
});
