// The public chemistry calculator: works from its address alone, so a result can be kept and sent.
import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Config } from '../platform/config.js';
import { page } from '../platform/http.js';
import { spokenTo } from '../platform/language.js';
import { AppError } from '../platform/problems.js';
import { estimateFor } from './asked.calc.js';
import { ChemistryPage } from './chemistry.pages.js';
import { FIRST_ANSWERS, readEstimateForm } from './estimate-form.schemas.js';

@Controller('chemistry')
export class ChemistryWeb {
  constructor(private readonly config: Config) {}

  @Get()
  calculator(
    @Query() { lang: _, ...sent }: Record<string, unknown>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): string {
    const spoken = spokenTo(this.config, request, reply);
    if (Object.keys(sent).length === 0)
      return page(reply, ChemistryPage({ answers: FIRST_ANSWERS, errors: [], found: null, spoken }));
    const read = readEstimateForm(sent);
    if (!read.ok)
      return page(
        reply,
        ChemistryPage({ answers: sent, errors: read.problems, found: null, spoken }),
        new AppError('bad_input').status,
      );
    const found = { asked: read.asked, estimate: estimateFor(read.asked) };
    return page(reply, ChemistryPage({ answers: sent, errors: [], found, spoken }));
  }
}
