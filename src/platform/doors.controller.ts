// The doors that belong to no feature: is the house open, what does the API offer, what do problems mean.
import { Controller, Get, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { Config } from './config.js';
import { page } from './http.js';
import { ProblemListPage } from './html/problem-page.js';
import { Describe, openApi } from './openapi.js';

@Controller()
export class DoorsController {
  constructor(private readonly config: Config) {}

  @Get('healthz')
  health(): { open: true } {
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
