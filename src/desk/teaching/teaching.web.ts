// The doors of teaching at the desk.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { readInput } from '../../platform/input.js';
import { AppError } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { TeachingChanges } from '../../teaching/changes.service.js';
import { atForm, ownNames } from '../../teaching/form-names.calc.js';
import { TeachingDecisions } from '../../teaching/decisions.service.js';
import { TeachingRequestsService } from '../../teaching/requests.service.js';
import { SessionsService } from '../../teaching/sessions.service.js';
import { dateText, isMeant, meantText, timeText } from '../../teaching/sign-up.schemas.js';
import { TeachingViews } from '../../teaching/views.service.js';
import { TeachingChangePage } from './change.pages.js';
import { TEACHING_DONE, TeachingOverviewPage } from './overview.pages.js';
import { SESSION_DONE, SessionPage } from './session.pages.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
const start = z
  .object({ day: dateText, time: timeText, meant: meantText })
  .transform(({ day, time, meant }) => [day.toPlainDateTime(time), isMeant(time, meant)] as const);
const text = (value: unknown): string => (typeof value === 'string' ? value : '');
/** What is no fault and is told over the form, with what was typed. */
const AGAIN = [
  'bad_input',
  'changed_meanwhile',
  'place_taken',
  'not_an_opening',
  'short_of_stock',
  'wrong_state',
];
@Controller('s/:slug/desk/teaching')
export class DeskTeachingWeb {
  constructor(
    private readonly visits: Visits,
    private readonly views: TeachingViews,
    private readonly sessions: SessionsService,
    private readonly requests: TeachingRequestsService,
    private readonly changes: TeachingChanges,
    private readonly decisions: TeachingDecisions,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const all = await this.views.all(visit.studio.id);
    return page(reply, TeachingOverviewPage({ visit, all, notice: TEACHING_DONE.get(done) }));
  }

  @Post('days')
  async make(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.orOverview(visit, 'make', body ?? {}, reply, async () => {
      const templateId = readInput(z.object({ id: z.uuid('Please choose what is taught.') }), {
        id: body?.templateId,
      }).id;
      const { id: made } = await this.sessions.make(
        visit.studio.id,
        visit.account,
        templateId,
        ...startOf(body),
      );
      return `/${made}?done=made`;
    });
  }

  @Post('safety')
  async safety(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const values = body ?? {};
    return this.orOverview(visit, 'safety', values, reply, async () => {
      await this.sessions.saveSafety(visit.studio.id, visit.account, text(values.wording), ({ wording }) =>
        refuseChanged(values, { wording }),
      );
      return '?done=safety';
    });
  }

  @Post('sign-ups/:id/:act')
  async onSignUp(
    @Param('slug') slug: string,
    @Param('id', id) signUpId: string,
    @Param('act') act: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const [studioId, who] = [visit.studio.id, visit.account];
    if (act === 'approve' || act === 'decline')
      return this.orOverview(visit, `${act} ${signUpId}`, body ?? {}, reply, async () => {
        const { fields } = ownNames(body ?? {});
        if (act === 'approve') await this.requests.approve(studioId, who, signUpId, ...startOf(fields));
        else await this.requests.decline(studioId, who, signUpId, text(fields.message));
        return `?done=${act}d`;
      });
    if (act !== 'offer' && act !== 'deposit') throw new AppError('not_found');
    const sessionId = await this.views.dayOf(studioId, signUpId);
    return this.orSession(visit, sessionId, act, body ?? {}, reply, async () => {
      if (act === 'offer') await this.requests.offer(studioId, who, signUpId);
      else {
        const known = z.enum(['none', 'due', 'received']).safeParse(body?.deposit);
        if (!known.success) throw new AppError('bad_input');
        await this.requests.noteDeposit(studioId, who, signUpId, known.data);
      }
      return act === 'offer' ? 'offered' : 'deposit';
    });
  }

  @Get(':id')
  async session(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const found = await this.views.session(visit.studio.id, sessionId);
    return page(reply, SessionPage({ visit, found, notice: SESSION_DONE.get(done) }));
  }

  @Post(':id/change')
  async change(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.orSession(visit, sessionId, 'change', body ?? {}, reply, async () => {
      const fields = withDates(body ?? {});
      const shown = await this.changes.preview(visit.studio.id, sessionId, fields);
      return { html: page(reply, TeachingChangePage({ visit, shown, fields: body ?? {} })) };
    });
  }

  @Post(':id/change/confirm')
  async confirm(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    return this.orSession(visit, sessionId, 'change', body ?? {}, reply, async () => {
      const [fields, hash] = [withDates(body ?? {}), text(body?.hash)];
      const shown = await this.changes.confirm(visit.studio.id, visit.account, sessionId, fields, hash);
      if (shown === null) return 'changed';
      const notice = {
        tone: 'warn',
        text: 'Something went on meanwhile; this is how it stands now.',
      } as const;
      return { html: page(reply, TeachingChangePage({ visit, shown, fields: body ?? {}, notice }), 409) };
    });
  }

  @Post(':id/:act')
  async act(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Param('act') act: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const [studioId, who] = [visit.studio.id, visit.account];
    if (act === 'copy')
      return this.orSession(visit, sessionId, 'copy', body ?? {}, reply, async () => {
        const start = startOf(ownNames(body ?? {}).fields);
        const made = await this.sessions.copy(studioId, who, sessionId, ...start);
        return { html: seeOther(reply, `/s/${slug}/desk/teaching/${made.id}?done=made`) };
      });
    const acts: Record<string, () => Promise<void>> = {
      open: () => this.sessions.open(studioId, who, sessionId),
      close: () => this.sessions.close(studioId, who, sessionId),
      'go-ahead': () => this.decisions.goAhead(studioId, who, sessionId),
      end: () => this.sessions.end(studioId, who, sessionId),
      'call-off': () => this.sessions.callOff(studioId, who, sessionId, text(body?.message)),
    };
    const does = Object.hasOwn(acts, act) ? acts[act] : undefined;
    if (!does) throw new AppError('not_found');
    return this.orSession(visit, sessionId, act, body ?? {}, reply, async () => {
      await does();
      return act;
    });
  }

  /** The page of the day again with what was typed and what is wrong. */
  private async orSession(
    visit: StaffVisit,
    sessionId: string,
    form: string,
    values: Sent,
    reply: FastifyReply,
    act: () => Promise<string | { html: string }>,
  ): Promise<string> {
    try {
      const done = await act();
      const path = `/s/${visit.studio.slug}/desk/teaching/${sessionId}`;
      return typeof done === 'string' ? seeOther(reply, `${path}?done=${done}`) : done.html;
    } catch (error) {
      const { errors, notice, status } = told(error, values);
      const found = await this.views.session(visit.studio.id, sessionId);
      return page(reply, SessionPage({ visit, found, notice, sent: { form, values, errors } }), status);
    }
  }

  private async orOverview(
    visit: StaffVisit,
    form: string,
    values: Sent,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return seeOther(reply, `/s/${visit.studio.slug}/desk/teaching${await act()}`);
    } catch (error) {
      const { errors, notice, status } = told(error, values);
      const all = await this.views.all(visit.studio.id);
      return page(
        reply,
        TeachingOverviewPage({ visit, all, notice, sent: { form, values, errors } }),
        status,
      );
    }
  }
}

function told(error: unknown, sent: Sent) {
  if (!(error instanceof AppError) || !AGAIN.includes(error.code)) throw error;
  const notice = error.fields.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
  return { errors: atForm(ownNames(sent).prefix, error.fields), notice, status: error.status };
}

const withDates = (body: Sent): Sent => ({
  ...body,
  day: readDateField(body, 'day'),
  decideOn: readDateField(body, 'decideOn'),
});
const startOf = (body: Sent | undefined) =>
  readInput(start, { ...body, day: readDateField(body ?? {}, 'day'), time: text(body?.time) });
