// The doors of outside calendars: adding one, seeing what it would close, putting it in use, pausing and removing it.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { textOfBytes } from '../../lib/text-of-bytes.js';
import { OutsideService } from '../../outside/outside.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../../platform/security/forms.js';
import { TakesUploads, uploadedFile, type UploadRefusal, uploadRefusal } from '../../platform/uploads.js';
import { type ElsewherePreview, ElsewhereService } from '../../room/elsewhere.service.js';
import { DeskService } from '../desk.service.js';
import type { Notice } from '../frame.pages.js';
import type { Answers } from './forms.calc.js';
import type { Sent } from './frame.pages.js';
import { OutsidePage } from './outside.pages.js';
import { OneOutsidePage } from './outside-one.pages.js';

const NOTICES: Record<string, Notice> = {
  'in-use': { tone: 'good', text: 'The calendar is in use.' },
  paused: { tone: 'good', text: 'The calendar is paused; it blocks nothing now.' },
  removed: { tone: 'good', text: 'The calendar is removed; what it blocked is open again.' },
  read: { tone: 'good', text: 'The calendar was read again.' },
  added: { tone: 'good', text: 'The calendar is here. It blocks nothing before you put it in use below.' },
};
const NOT_READ: Record<UploadRefusal, string> = {
  'too large': 'This is more than 2 MB, so it was not read.',
  unreadable: 'What the browser sent could not be read. Please send it again.',
};
const NO_CALENDAR = 'This is no calendar file: such a file ends in .ics, and holds text.';
const TOO_LATE = 'This form was open for too long. Please send it again.';
const calendarId = new ParseUUIDPipe({ exceptionFactory: () => new AppError('not_found') });
const noticeOf = (done: unknown) => (typeof done === 'string' ? NOTICES[done] : undefined);

@Controller('s/:slug/desk/settings/outside')
export class OutsideWeb {
  constructor(
    private readonly visits: Visits,
    private readonly outside: OutsideService,
    private readonly elsewhere: ElsewhereService,
    private readonly desk: DeskService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.list(visit, reply, { notice: noticeOf(done) });
  }

  @TakesUploads()
  @ShowsFormAgain()
  @Post()
  async add(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    const again = (problems: FieldProblem[], status: number = PROBLEMS.bad_input.status) =>
      this.list(visit, reply, { sent: { answers, problems }, status });
    const refusal = uploadRefusal(request);
    if (refusal !== null)
      return again([{ field: 'upload', message: NOT_READ[refusal] }], PROBLEMS.too_large.status);
    if (hasRunOut(request))
      return again([{ field: 'name', message: TOO_LATE }], PROBLEMS.form_expired.status);
    const { file, problem } = fileIn(answers);
    if (problem !== undefined) return again([{ field: 'upload', message: problem }]);
    try {
      const sent = file === undefined ? answers : { ...answers, file };
      const id = await this.outside.add(visit.studio.id, visit.account, sent);
      return seeOther(reply, `/s/${slug}/desk/settings/outside/${id}?done=added`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      // told beside the way it was given
      const place = (field: string) => (field === 'file' && file !== undefined ? 'upload' : field);
      return again(error.fields.map((one) => ({ ...one, field: place(one.field) })));
    }
  }

  /** With a choice in the address: what it would close. */
  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', calendarId) id: string,
    @Query() query: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = typeof query.blocks === 'string' ? query : null;
    return this.orAgain(visit, id, query, reply, async () => {
      const preview = await this.elsewhere.preview(visit.studio.id, id, answers);
      return this.page(visit, reply, preview, { asked: answers !== null, notice: noticeOf(query.done) });
    });
  }

  @Post(':id/confirm')
  async confirm(
    @Param('slug') slug: string,
    @Param('id', calendarId) id: string,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const seen = typeof answers.seen === 'string' ? answers.seen : '';
    return this.orAgain(visit, id, answers, reply, async () => {
      const done = await this.elsewhere.confirm(visit.studio.id, visit.account, id, answers, seen);
      if (done.ok) return seeOther(reply, `/s/${slug}/desk/settings/outside/${id}?done=in-use`);
      const text = 'Something changed since you looked. Nothing is done yet: this is how it stands now.';
      return this.page(visit, reply, done.preview, {
        asked: true,
        notice: { tone: 'warn', text },
        status: 409,
      });
    });
  }

  @Post(':id/pause')
  async pause(
    @Param('slug') slug: string,
    @Param('id', calendarId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.outside.pause(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/settings/outside/${id}?done=paused`);
  }

  @Post(':id/remove')
  async remove(
    @Param('slug') slug: string,
    @Param('id', calendarId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.outside.remove(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/settings/outside?done=removed`);
  }

  @Post(':id/read')
  async read(
    @Param('slug') slug: string,
    @Param('id', calendarId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const well = await this.outside.readNow(visit.studio.id, id);
    return seeOther(reply, `/s/${slug}/desk/settings/outside/${id}${well ? '?done=read' : ''}`);
  }

  private async list(
    visit: StaffVisit,
    reply: FastifyReply,
    shown: { sent?: Sent; notice?: Notice | undefined; status?: number },
  ): Promise<string> {
    const calendars = await this.outside.all(visit.studio.id);
    const { sent, notice, status = 200 } = shown;
    return page(reply, OutsidePage({ visit, calendars, sent, notice }), status);
  }

  private async page(
    visit: StaffVisit,
    reply: FastifyReply,
    preview: ElsewherePreview,
    shown: { asked: boolean; sent?: Sent; notice?: Notice | undefined; status?: number },
  ): Promise<string> {
    const { status = 200, ...props } = shown;
    const views = await this.desk.touchedViews(visit.studio.id, preview.touched);
    return page(
      reply,
      OneOutsidePage({ visit, preview, views: views.map(({ view }) => view), ...props }),
      status,
    );
  }

  /** Shows the page again with what was chosen and is wrong. */
  private async orAgain(
    visit: StaffVisit,
    id: string,
    answers: Answers,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const preview = await this.elsewhere.preview(visit.studio.id, id, null);
      const sent = { answers, problems: error.fields };
      return this.page(visit, reply, preview, { asked: false, sent, status: error.status });
    }
  }
}

/** The text of the file that was chosen, if one was. */
function fileIn(answers: Answers): { file?: string; problem?: string } {
  const chosen = uploadedFile(answers, 'upload');
  if (!chosen) return {};
  if (typeof answers.file === 'string' && answers.file.trim() !== '')
    return { problem: 'Please choose the file or paste its text, not both.' };
  const read = textOfBytes(chosen.bytes, null);
  return read.ok ? { file: read.text } : { problem: NO_CALENDAR };
}
