// The doors of gift vouchers.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { Surprises } from '../../reminders/surprises.service.js';
import { VouchersService } from '../../vouchers/vouchers.service.js';
import type { Notice } from '../frame.pages.js';
import { answersOf, VouchersPage, type VouchersProps } from './vouchers.pages.js';

const voucherId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This voucher is not known here.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['saved', good('The voucher is written down.')],
  ['used', good('The voucher is used on the request.')],
  ['back', good('The use is taken back.')],
  ['told', good('They may know now.')],
  ['before', { tone: 'warn', text: 'This was done before; here is how it stands.' }],
]);

type Sent = Record<string, unknown>;
const text = (value: unknown) => (typeof value === 'string' ? value : '');

@Controller('s/:slug/desk/vouchers')
export class VouchersWeb {
  constructor(
    private readonly visits: Visits,
    private readonly vouchers: VouchersService,
    private readonly surprises: Surprises,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Query('form') form: unknown,
    @Query('request') asked: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const props = { form: text(form), request: text(asked), notice: DONE.get(done) };
    return page(reply, VouchersPage({ visit, ...(await this.found(visit)), ...props }));
  }

  @Post('new')
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, null, body ?? {});
  }

  @Post('use')
  async use(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const act = () => this.vouchers.use(visit.studio.id, visit.account, values);
    return this.orAgain(reply, visit, { form: 'use', values, act, done: 'used' });
  }

  @Post(':id')
  async change(
    @Param('slug') slug: string,
    @Param('id', voucherId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, id, body ?? {});
  }

  @Post(':id/back')
  async back(
    @Param('slug') slug: string,
    @Param('id', voucherId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const act = () => this.vouchers.takeBack(visit.studio.id, visit.account, id);
    return this.orBefore(reply, slug, id, { act, done: 'back' });
  }

  @Post(':id/told')
  async told(
    @Param('slug') slug: string,
    @Param('id', voucherId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const act = () => this.vouchers.tell(visit.studio.id, visit.account, id);
    return this.orBefore(reply, slug, id, { act, done: 'told' });
  }

  private save(reply: FastifyReply, visit: StaffVisit, id: string | null, values: Sent) {
    const input = { ...values, validUntil: readDateField(values, 'validUntil') };
    const act = () =>
      this.vouchers.save(visit.studio.id, visit.account, id, input, (voucher) =>
        refuseChanged(input, answersOf(voucher)),
      );
    return this.orAgain(reply, visit, { form: id ?? 'new', values: input, act, done: 'saved' });
  }

  private async found({ studio }: StaffVisit): Promise<Pick<VouchersProps, 'list' | 'held'>> {
    const list = await this.vouchers.list(studio.id);
    return { list, held: await this.surprises.heldCounts(studio.id, [...list.usedOn.keys()]) };
  }

  private async orAgain(
    reply: FastifyReply,
    visit: StaffVisit,
    { form, values, act, done }: { form: string; values: Sent; act: () => Promise<void>; done: string },
  ): Promise<string> {
    try {
      await act();
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { form, values, errors: error.fields };
      const found = await this.found(visit);
      return page(reply, VouchersPage({ visit, ...found, form, request: '', sent }), error.status);
    }
    return seeOther(reply, `/s/${visit.studio.slug}/desk/vouchers?done=${done}`);
  }

  private async orBefore(
    reply: FastifyReply,
    slug: string,
    id: string,
    { act, done }: { act: () => Promise<void>; done: string },
  ): Promise<string> {
    let outcome = done;
    try {
      await act();
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      outcome = 'before';
    }
    return seeOther(reply, `/s/${slug}/desk/vouchers?done=${outcome}#voucher-${id}`);
  }
}
