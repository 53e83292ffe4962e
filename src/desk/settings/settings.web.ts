// The owner's settings: each change is previewed, and made only as it was seen.
import { Body, Controller, Get, Param, ParseEnumPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { RoomService } from '../../room/room.service.js';
import { type Preview, SettingsService } from '../../room/settings.service.js';
import { DeskService } from '../desk.service.js';
import type { Notice } from '../frame.pages.js';
import { ClosuresPage } from './closures.pages.js';
import { type Answers, fieldOnForm, toChange } from './forms.calc.js';
import { SECTIONS, type Section, type Sent } from './frame.pages.js';
import { KindsPage } from './kinds.pages.js';
import { LightSettingsPage } from './light.pages.js';
import { OverviewPage } from './overview.pages.js';
import { PeoplePage } from './people.pages.js';
import { PreviewPage } from './preview.pages.js';
import { RhythmPage } from './rhythm.pages.js';

const section = new ParseEnumPipe(Object.fromEntries(Object.keys(SECTIONS).map((one) => [one, one])), {
  exceptionFactory: () => new AppError('not_found'),
});

@Controller('s/:slug/desk/settings')
export class SettingsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly settings: SettingsService,
    private readonly room: RoomService,
    private readonly desk: DeskService,
  ) {}

  @Get()
  async overview(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, OverviewPage({ visit, ...(await this.settings.all(visit.studio.id)) }));
  }

  @Get(':section')
  async show(
    @Param('slug') slug: string,
    @Param('section', section) which: Section,
    @Query() query: Record<string, unknown>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const notice = query.done === 'yes' ? ({ tone: 'good', text: 'Done.' } as const) : undefined;
    return this.page(visit, which, reply, { form: query.form, notice });
  }

  @Post(':section/preview')
  async preview(
    @Param('slug') slug: string,
    @Param('section', section) which: Section,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, which, answers, reply, async (change) =>
      this.previewPage(visit, which, answers, reply, await this.settings.preview(visit.studio.id, change)),
    );
  }

  /** Back to the form, with everything that was typed. */
  @Post(':section/again')
  async again(
    @Param('slug') slug: string,
    @Param('section', section) which: Section,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.page(visit, which, reply, { sent: { answers, problems: [] } });
  }

  @Post(':section/confirm')
  async confirm(
    @Param('slug') slug: string,
    @Param('section', section) which: Section,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, which, answers, reply, async (change) => {
      const seen = typeof answers.seen === 'string' ? answers.seen : '';
      const done = await this.settings.confirm(visit.studio.id, visit.account, change, seen);
      if (done.ok) return seeOther(reply, `/s/${slug}/desk/settings/${which}?done=yes`);
      return this.previewPage(visit, which, answers, reply, done.preview, true);
    });
  }

  private async previewPage(
    visit: StaffVisit,
    which: Section,
    answers: Answers,
    reply: FastifyReply,
    preview: Preview,
    outdated = false,
  ): Promise<string> {
    const touched = await this.desk.touchedViews(visit.studio.id, preview.touched);
    const props = { visit, section: which, preview, touched, answers, outdated };
    return page(reply, PreviewPage(props), outdated ? 409 : 200);
  }

  /** Shows the page again with what was typed and what is wrong. */
  private async orAgain(
    visit: StaffVisit,
    which: Section,
    answers: Answers,
    reply: FastifyReply,
    act: (change: unknown) => Promise<string>,
  ): Promise<string> {
    try {
      return await act(toChange(answers, (name) => readDateField(answers, name)));
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const named = error.fields.map((one) => ({ ...one, field: fieldOnForm(one.field) }));
      const problems = named.filter(({ field }, at) => named.findIndex((one) => one.field === field) === at);
      return this.page(visit, which, reply, { sent: { answers, problems }, status: error.status });
    }
  }

  private async page(
    visit: StaffVisit,
    which: Section,
    reply: FastifyReply,
    shown: { form?: unknown; sent?: Sent; notice?: Notice | undefined; status?: number },
  ): Promise<string> {
    const { studio, rules } = await this.settings.all(visit.studio.id);
    const { sent, notice } = shown;
    const form = sent ? formOf(sent.answers) : typeof shown.form === 'string' ? shown.form : '';
    const props = { visit, rules, studio, sent, notice, form, today: this.room.today(studio) };
    const pages = {
      rhythm: RhythmPage,
      closures: ClosuresPage,
      kinds: KindsPage,
      people: PeoplePage,
      light: LightSettingsPage,
    };
    return page(reply, pages[which](props), shown.status ?? 200);
  }
}

/** Which form of a page was sent, as the address names it. */
function formOf(answers: Answers): string {
  if (answers.do === 'end weekday') return 'end';
  const about = answers.do === 'kind' ? answers.kindId : answers.of;
  return typeof about === 'string' && about !== '' ? about : 'new';
}
