// The doors of the words of letters: all of them, one in a language, keeping words, and going back to older ones or ours.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { letterWith } from '../../reminders/wordings.calc.js';
import { type OwnWording, slugOf, WORDED_KINDS, type WordedKind } from '../../reminders/wordings.schemas.js';
import { WordingsService } from '../../reminders/wordings.service.js';
import { isLanguage } from '../../words/asked-language.js';
import type { Language } from '../../words/languages.js';
import type { Notice } from '../frame.pages.js';
import { WordingPage, type WordingProps, WordingsPage } from './wordings.pages.js';

const DONE = new Map<unknown, Notice>([
  ['kept', { tone: 'good', text: 'They are kept. Letters written from now on have them; older ones stay.' }],
  ['back', { tone: 'good', text: 'It has those words again.' }],
]);
const MEANWHILE: Notice = {
  tone: 'warn',
  text: 'Somebody else has kept other words meanwhile, the first of the versions below. Keep yours again to put them in their place.',
};

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/mail/words')
export class WordingsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly wordings: WordingsService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, WordingsPage({ visit, all: await this.wordings.all(visit.studio.id) }));
  }

  @Get(':kind/:language')
  async one(
    @Param() params: Record<string, string>,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(params.slug ?? '', request, reply, ['owner']);
    return this.show(visit, reply, whichOf(params), { notice: DONE.get(done) });
  }

  /** Keeps the words, or shows how they read. */
  @Post(':kind/:language')
  async keep(
    @Param() params: Record<string, string>,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(params.slug ?? '', request, reply, ['owner']);
    const which = whichOf(params);
    const values = body ?? {};
    try {
      if (values.do === 'look') {
        const own = this.wordings.check(which.kind, values);
        return await this.show(visit, reply, which, { values }, own);
      }
      await this.wordings.keep(visit.studio.id, visit.account, which.kind, which.language, values);
      return seeOther(reply, `${pathOf(visit, which)}?done=kept`);
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      if (error.code === 'changed_meanwhile')
        return this.show(visit, reply, which, { values, notice: MEANWHILE, status: error.status });
      if (error.code !== 'bad_input') throw error;
      return this.show(visit, reply, which, { values, errors: error.fields, status: error.status });
    }
  }

  @Post(':kind/:language/back')
  async back(
    @Param() params: Record<string, string>,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(params.slug ?? '', request, reply, ['owner']);
    const which = whichOf(params);
    await this.wordings.goBack(visit.studio.id, visit.account, which.kind, which.language, body ?? {});
    return seeOther(reply, `${pathOf(visit, which)}?done=back`);
  }

  /** @param typed the words to show it with; without them those in force */
  private async show(
    visit: StaffVisit,
    reply: FastifyReply,
    which: { kind: WordedKind; language: Language },
    { status = 200, ...shown }: Partial<WordingProps> & { status?: number },
    typed?: OwnWording,
  ): Promise<string> {
    const { kind, language } = which;
    const worded = await this.wordings.of(visit.studio.id, kind, language);
    const [newest] = worded.versions;
    const kept = newest && newest.body !== '' ? newest : null;
    const front = `/s/${visit.studio.slug}`;
    const wrong = (shown.errors ?? []).length > 0;
    const letter = wrong ? null : letterWith(worded.example, language, typed ?? kept, front);
    const { subject, body } = kept ?? worded.ours;
    const props = { visit, ...which, worded, letter, values: { subject, body } };
    return page(reply, WordingPage({ ...props, ...shown }), status);
  }
}

function whichOf({ kind, language }: Record<string, string>): { kind: WordedKind; language: Language } {
  const known = WORDED_KINDS.find((one) => slugOf(one) === kind);
  if (!known || !isLanguage(language)) throw new AppError('not_found', 'There is no such letter.');
  return { kind: known, language };
}

const pathOf = ({ studio }: StaffVisit, { kind, language }: { kind: WordedKind; language: Language }) =>
  `/s/${studio.slug}/desk/mail/words/${slugOf(kind)}/${language}`;
