// The doors that belong to no feature: is the house open, what does the API offer, what do problems mean.
import { Controller, Get, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { Config } from './config.js';
import { Db } from './db/db.js';
import { page } from './http.js';
import { ProblemListPage } from './html/problem-page.js';
import { Describe, openApi } from './openapi.js';
import { AppError } from './problems.js';

/** Whoever asks for our health asks every few seconds, and waits no longer than a visitor would. */
const HEALTH_MS = 2_000;

@Controller()
export class DoorsController {
  constructor(
    private readonly config: Config,
    private readonly db: Db,
  ) {}

  /** @throws AppError busy when the database does not answer in time */
  @Get('healthz')
  async health(): Promise<{ open: true }> {
    if (!(await this.db.answers(HEALTH_MS))) throw new AppError('busy');
    return { open: true };
  }

  @Describe({ summary: 'This description', answer: z.looseObject({ openapi: z.string() }) })
  @Get('api/openapi.json')
  openApi(): object {
    return openApi(this.config.publicUrl);
  }

  @Get('problems')
  problems(@Res({ passthrough: true }) reply: FastifyReply): string {
    return page(reply, ProblemListPage());
  }
}
