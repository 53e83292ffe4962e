// The doors of bringing in a diary: sending it, looking at what is understood, bringing it in, undoing it. For the owner.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { ENCODINGS, textOfBytes } from '../../lib/text-of-bytes.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../../platform/security/forms.js';
import { TakesUploads, uploadedFile, type UploadRefusal, uploadRefusal } from '../../platform/uploads.js';
import type { Notice } from '../frame.pages.js';
import type { Sent } from '../settings/frame.pages.js';
import { BringInPage } from './bring-in.pages.js';
import { BringInService, type Touched } from './bring-in.service.js';
import { chosen } from './choose.calc.js';
import { WHATS, type What } from './columns.calc.js';
import { DraftPage } from './draft.pages.js';

type Answers = Record<string, unknown>;

const aim = new ParseUUIDPipe({ exceptionFactory: () => new AppError('not_found') });
const text = (value: unknown): string => (typeof value === 'string' ? value : '');

const NOTICES: Record<string, Notice> = {
  in: { tone: 'good', text: 'It is all in. Nobody was written to.' },
  undone: { tone: 'good', text: 'It is undone, as if it had never been brought in.' },
  dropped: { tone: 'good', text: 'The draft is thrown away.' },
};
const OUTDATED: Notice = {
  tone: 'warn',
  text: 'Something changed since you looked. Nothing was brought in: this is how it stands now.',
};
const TOO_LATE = 'This form was open for too long. Please send it again.';
const NOT_READ: Record<UploadRefusal, string> = {
  'too large': 'This is more than 2 MB, so it was not read. Please send it in parts.',
  unreadable: 'What the browser sent could not be read. Please send it again.',
};

@Controller('s/:slug/desk/settings/bring-in')
export class BringInWeb {
  constructor(
    private readonly visits: Visits,
    private readonly bringIn: BringInService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.list(visit, reply, { notice: typeof done === 'string' ? NOTICES[done] : undefined });
  }

  @TakesUploads()
  @ShowsFormAgain()
  @Post()
  async begin(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    const refusal = uploadRefusal(request);
    const again = (problems: FieldProblem[], status: number = PROBLEMS.bad_input.status) =>
      this.list(visit, reply, { sent: { answers: { what: 'diary', ...answers }, problems }, status });
    if (refusal !== null)
      return again([{ field: 'file', message: NOT_READ[refusal] }], PROBLEMS.too_large.status);
    if (hasRunOut(request))
      return again([{ field: 'text', message: TOO_LATE }], PROBLEMS.form_expired.status);
    const read = readSent(answers);
    if ('problem' in read) return again([read.problem]);
    const { what, source, guessed } = read;
    const id = await this.bringIn.begin(visit.studio.id, what, source, guessed);
    return seeOther(reply, `/s/${slug}/desk/settings/bring-in/draft/${id}`);
  }

  @Get('draft/:id')
  async draft(
    @Param('slug') slug: string,
    @Param('id', aim) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const checked = await this.bringIn.check(visit.studio.id, visit.account, id);
    return page(reply, DraftPage({ visit, checked }));
  }

  @Post('draft/:id')
  async choose(
    @Param('slug') slug: string,
    @Param('id', aim) id: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.bringIn.choose(visit.studio.id, id, (draft) => chosen(draft, body ?? {}));
    return seeOther(reply, `/s/${slug}/desk/settings/bring-in/draft/${id}`);
  }

  @Post('draft/:id/confirm')
  async confirm(
    @Param('slug') slug: string,
    @Param('id', aim) id: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const done = await this.bringIn.confirm(visit.studio.id, visit.account, id, text(body?.seen));
    if (done !== null) return seeOther(reply, `/s/${slug}/desk/settings/bring-in?done=in`);
    const checked = await this.bringIn.check(visit.studio.id, visit.account, id);
    return page(reply, DraftPage({ visit, checked, notice: OUTDATED }), PROBLEMS.changed_meanwhile.status);
  }

  @Post('draft/:id/drop')
  async drop(
    @Param('slug') slug: string,
    @Param('id', aim) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.bringIn.drop(visit.studio.id, id);
    return seeOther(reply, `/s/${slug}/desk/settings/bring-in?done=dropped`);
  }

  @Post(':id/undo')
  async undo(
    @Param('slug') slug: string,
    @Param('id', aim) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const lines = await this.bringIn.undo(visit.studio.id, visit.account, id);
    if (lines.length === 0) return seeOther(reply, `/s/${slug}/desk/settings/bring-in?done=undone`);
    const notice: Notice = { tone: 'bad', text: 'Nothing was undone: see below.' };
    return this.list(visit, reply, { notice, touched: { id, lines }, status: PROBLEMS.wrong_state.status });
  }

  private async list(
    visit: StaffVisit,
    reply: FastifyReply,
    shown: {
      sent?: Sent;
      notice?: Notice | undefined;
      touched?: { id: string; lines: Touched[] };
      status?: number;
    },
  ): Promise<string> {
    const found = await this.bringIn.all(visit.studio.id);
    const { status = 200, ...props } = shown;
    return page(reply, BringInPage({ visit, ...found, ...props }), status);
  }
}

/** The text that was pasted, or that of the file, or what is wrong with both. */
function readSent(
  answers: Answers,
): { what: What; source: string; guessed: boolean } | { problem: FieldProblem } {
  const what = WHATS.find((one) => one === answers.what);
  const [pasted, file] = [text(answers.text), uploadedFile(answers, 'file')];
  if (!what) return { problem: { field: 'what', message: 'Please say what it is.' } };
  if (pasted.trim() === '' && !file)
    return { problem: { field: 'text', message: 'Please paste the lines, or choose a file.' } };
  if (pasted.trim() !== '' && file)
    return { problem: { field: 'text', message: 'Please paste the lines or choose a file, not both.' } };
  if (!file) return { what, source: pasted, guessed: false };
  const said = ENCODINGS.find((one) => one === answers.encoding) ?? null;
  const read = textOfBytes(file.bytes, said);
  return read.ok
    ? { what, source: read.text, guessed: read.guessed }
    : { problem: { field: 'file', message: read.why } };
}
