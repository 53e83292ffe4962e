// Signing in through the API: an e-mail address and a password for a bearer token.
import { Body, Controller, Delete, HttpCode, Param, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { apiSignIn, sessionAnswer } from './accounts.schemas.js';
import { AccountsService } from './accounts.service.js';
import { Visits } from './visits.service.js';

@Controller('api/v1/s/:slug/sessions')
export class AccountsController {
  constructor(
    private readonly studios: StudiosService,
    private readonly accounts: AccountsService,
    private readonly visits: Visits,
  ) {}

  @Describe({
    summary: 'Sign in; the token goes with later requests as "Authorization: Bearer ..."',
    body: apiSignIn,
    answer: sessionAnswer,
    problems: ['bad_input', 'wrong_sign_in', 'code_needed'],
  })
  @Post()
  async signIn(@Param('slug') slug: string, @Body() body: unknown): Promise<z.output<typeof sessionAnswer>> {
    const { email, password, code } = readInput(apiSignIn, body);
    const studioId = await this.studios.idAt(slug);
    const secret = await this.accounts.signIn(studioId, email, password, 'a program');
    if (!(await this.accounts.awaitsCode(studioId, secret))) return { token: secret };
    if (!code) throw new AppError('code_needed');
    return { token: await this.accounts.giveCode(studioId, secret, code, 'a program') };
  }

  @Describe({ summary: 'Sign out: the token of this request ends', staff: true, status: 204 })
  @Delete('current')
  @HttpCode(204)
  async signOut(@Param('slug') slug: string, @Req() request: FastifyRequest): Promise<void> {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    await this.accounts.signOut(studioId, request.headers.authorization?.slice('Bearer '.length) ?? '');
  }
}
