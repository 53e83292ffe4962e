// The doors at which somebody changes the language of their letters and calendar, on their own page.
import { Body, Controller, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { seeOther } from '../platform/http.js';
import { LetterLanguage } from './letter-language.service.js';

@Controller('s/:slug')
export class LanguageWeb {
  constructor(
    private readonly visits: Visits,
    private readonly languages: LetterLanguage,
  ) {}

  @Post('place/:token/language')
  async ofSitting(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: { language?: unknown } | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const language = await this.languages.setOwn(studio.id, 'sitting', token, body?.language);
    return seeOther(reply, `/s/${slug}/place/${token}?done=language&lang=${language}`);
  }

  @Post('student/:token/language')
  async ofTeaching(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: { language?: unknown } | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const language = await this.languages.setOwn(studio.id, 'teaching', token, body?.language);
    return seeOther(reply, `/s/${slug}/student/${token}?done=language&lang=${language}`);
  }
}
