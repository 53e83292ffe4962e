// The public chemistry calculator: works from its address alone, so a result can be kept and sent.
import { Controller, Get, Query, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { page } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { estimateFor } from './asked.calc.js';
import { ChemistryPage } from './chemistry.pages.js';
import { FIRST_ANSWERS, readEstimateForm } from './estimate-form.schemas.js';

@Controller('chemistry')
export class ChemistryWeb {
  @Get()
  calculator(
    @Query() sent: Record<string, unknown>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): string {
    if (Object.keys(sent).length === 0)
      return page(reply, ChemistryPage({ answers: FIRST_ANSWERS, errors: [], found: null }));
    const read = readEstimateForm(sent);
    if (!read.ok)
      return page(
        reply,
        ChemistryPage({ answers: sent, errors: read.problems, found: null }),
        new AppError('bad_input').status,
      );
    const found = { asked: read.asked, estimate: estimateFor(read.asked) };
    return page(reply, ChemistryPage({ answers: sent, errors: [], found }));
  }
}
