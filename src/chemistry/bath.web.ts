// The public bath calculator: works from its address alone, so a result can be kept and sent.
import { Controller, Get, Query, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { page } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { BathPage } from './bath.pages.js';
import { FIRST_BATH, readBathForm } from './bath-form.schemas.js';

@Controller('chemistry/bath')
export class BathWeb {
  @Get()
  calculator(
    @Query() sent: Record<string, unknown>,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): string {
    if (Object.keys(sent).length === 0)
      return page(reply, BathPage({ answers: FIRST_BATH, errors: [], found: null }));
    const answers = { ...FIRST_BATH, ...sent };
    const read = readBathForm(answers);
    if (read.ok) return page(reply, BathPage({ answers, errors: [], found: read }));
    const status = new AppError('bad_input').status;
    return page(reply, BathPage({ answers, errors: read.problems, found: null }), status);
  }
}
