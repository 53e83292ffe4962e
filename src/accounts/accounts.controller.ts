// Signing in through the API: an e-mail address and a password for a bearer token.
import { Body, Controller, Delete, HttpCode, Param, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { readInput } from '../platform/input.js';
import { StudiosService } from '../studios/studios.service.js';
import { signInForm } from './accounts.schemas.js';
import { AccountsService } from './accounts.service.js';
import { Visits } from './visits.service.js';

@Controller('api/v1/s/:slug/sessions')
export class AccountsController {
  constructor(
    private readonly studios: StudiosService,
    private readonly accounts: AccountsService,
    private readonly visits: Visits,
  ) {}

  @Post()
  async signIn(@Param('slug') slug: string, @Body() body: unknown): Promise<{ token: string }> {
    const { email, password } = readInput(signInForm, body);
    return { token: await this.accounts.signIn(await this.studios.idAt(slug), email, password) };
  }

  @Delete('current')
  @HttpCode(204)
  async signOut(@Param('slug') slug: string, @Req() request: FastifyRequest): Promise<void> {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    await this.accounts.signOut(studioId, request.headers.authorization?.slice('Bearer '.length) ?? '');
  }
}
