// The public bath calculator: works from its address alone, so a result can be kept and sent.
import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Config } from '../platform/config.js';
import { page } from '../platform/http.js';
import { spokenTo } from '../platform/language.js';
import { AppError } from '../platform/problems.js';
import { BathPage } from './bath.pages.js';
import { FIRST_BATH, readBathForm } from './bath-form.schemas.js';

@Controller('chemistry/bath')
export class BathWeb {
  constructor(private readonly config: Config) {}

  @Get()
  calculator(
    @Query() { lang: _, ...sent }: Record<string, unknown>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): string {
    const spoken = spokenTo(this.config, request, reply);
    if (Object.keys(sent).length === 0)
      return page(reply, BathPage({ answers: FIRST_BATH, errors: [], found: null, spoken }));
    const answers = { ...FIRST_BATH, ...sent };
    const read = readBathForm(answers);
    if (read.ok) return page(reply, BathPage({ answers, errors: [], found: read, spoken }));
    const status = new AppError('bad_input').status;
    return page(reply, BathPage({ answers, errors: read.problems, found: null, spoken }), status);
  }
}
