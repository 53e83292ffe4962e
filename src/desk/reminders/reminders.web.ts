// The doors of reminders: the owner's rules, and all messages to one person.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../../accounts/accounts.schemas.js';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { LetterLanguage } from '../../reminders/letter-language.service.js';
import { ReminderRulesService } from '../../reminders/reminder-rules.service.js';
import { FOR_DAYS, type ForDay } from '../../reminders/reminder-rules.schemas.js';
import { Reminding } from '../../reminders/reminding.service.js';
import { StopsService } from '../../reminders/stops.service.js';
import type { Notice } from '../frame.pages.js';
import { MessagesPage, TeachingMessagesPage } from './messages.pages.js';
import { answersOf, RemindersPage, RULE_WORDS } from './reminders.pages.js';

const ruleId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This reminder is not known here.'),
});
const sittingId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});
const signUpId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This sign-up is not known here.'),
});
/** The hour of a day that nobody has chosen a place on. */
const NOON = { hour: 12 };

type Sent = Record<string, unknown>;
type About = Parameters<LetterLanguage['setAtDesk']>[2];

@Controller('s/:slug/desk')
export class RemindersWeb {
  constructor(
    private readonly visits: Visits,
    private readonly reminding: Reminding,
    private readonly ruling: ReminderRulesService,
    private readonly stops: StopsService,
    private readonly languages: LetterLanguage,
  ) {}

  @Get('mail/reminders')
  async rules(
    @Param('slug') slug: string,
    @Query('form') form: unknown,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const rules = await this.ruling.rulesOf(visit.studio.id);
    return page(
      reply,
      RemindersPage({ visit, rules, form: typeof form === 'string' ? form : '', notice: noticeOf(done) }),
    );
  }

  @Post('mail/reminders/new/:day')
  async add(
    @Param('slug') slug: string,
    @Param('day') day: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const forDay = FOR_DAYS.find((one) => one === day);
    if (!forDay) throw new AppError('not_found');
    return this.save(reply, visit, { forDay }, body ?? {});
  }

  @Post('mail/reminders/:id')
  async change(
    @Param('slug') slug: string,
    @Param('id', ruleId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.save(reply, visit, { id }, body ?? {});
  }

  @Post('mail/reminders/:id/remove')
  async remove(
    @Param('slug') slug: string,
    @Param('id', ruleId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    try {
      const people = await this.ruling.removeRule(visit.studio.id, visit.account, id);
      return seeOther(reply, `/s/${slug}/desk/mail/reminders?done=${people}`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      return seeOther(reply, `/s/${slug}/desk/mail/reminders?done=last`);
    }
  }

  @Get('requests/:id/messages')
  async messages(
    @Param('slug') slug: string,
    @Param('id', sittingId) id: string,
    @Query() query: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { day, errors } = dayIn(query);
    const wall = day?.toPlainDateTime(NOON) ?? null;
    const found = await this.reminding.messages(visit.studio.id, id, wall);
    return page(reply, MessagesPage({ visit, found, day, values: query, errors }));
  }

  @Post('requests/:id/messages')
  async wanted(
    @Param('slug') slug: string,
    @Param('id', sittingId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, account } = await this.visits.staff(slug, request, reply, ['owner']);
    await this.keep(studio.id, account, { sittingId: id }, body ?? {});
    return seeOther(reply, `/s/${slug}/desk/requests/${id}/messages`);
  }

  @Post('teaching/sign-ups/:id/messages')
  async teachingWanted(
    @Param('slug') slug: string,
    @Param('id', signUpId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, account } = await this.visits.staff(slug, request, reply, ['owner']);
    await this.keep(studio.id, account, { signUpId: id }, body ?? {});
    return seeOther(reply, `/s/${slug}/desk/teaching/sign-ups/${id}/messages`);
  }

  @Get('teaching/sign-ups/:id/messages')
  async teachingMessages(
    @Param('slug') slug: string,
    @Param('id', signUpId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.reminding.signUpMessages(visit.studio.id, id);
    return page(reply, TeachingMessagesPage({ visit, found }));
  }

  /** Whether they want reminders, or in which language letters go to them: two forms of one page. */
  private async keep(studioId: string, who: Account, of: About, sent: Sent): Promise<void> {
    if ('language' in sent) await this.languages.setAtDesk(studioId, who, of, sent.language);
    else await this.stops.setAtDesk(studioId, who, of, sent.wanted === 'yes');
  }

  private async save(
    reply: FastifyReply,
    visit: StaffVisit,
    which: { id: string } | { forDay: ForDay },
    values: Sent,
  ) {
    const { studio, account } = visit;
    try {
      const people = await this.ruling.saveRule(studio.id, account, which, values, (rule) =>
        refuseChanged(values, answersOf(rule), RULE_WORDS),
      );
      return seeOther(reply, `/s/${studio.slug}/desk/mail/reminders?done=${people}`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const rules = await this.ruling.rulesOf(studio.id);
      const sent = { values, errors: error.fields };
      return page(
        reply,
        RemindersPage({ visit, rules, form: 'id' in which ? which.id : `new-${which.forDay}`, sent }),
        error.status,
      );
    }
  }
}

function dayIn(query: Sent) {
  if (!('day' in query) && !('day-day' in query)) return { day: null, errors: [] };
  const text = readDateField(query, 'day');
  try {
    return { day: Temporal.PlainDate.from(text), errors: [] };
  } catch {
    return { day: null, errors: [{ field: 'day', message: 'Please give a day.' }] };
  }
}

function noticeOf(done: unknown): Notice | undefined {
  if (done === 'last') return { tone: 'bad', text: 'This is the last reminder. Switch it off instead.' };
  if (typeof done !== 'string' || !/^\d{1,6}$/.test(done)) return undefined;
  const people = Number(done);
  return {
    tone: 'good',
    text: `It is saved. ${people === 0 ? 'Nobody has a place yet.' : `Planned anew for ${counted(people, 'place')}; what has gone stays as it is.`}`,
  };
}
