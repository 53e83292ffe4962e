// The front door of an installation: leads to the studio when there is just one.
import { Controller, Get, Res } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { page } from '../platform/http.js';
import { StudiosService } from './studios.service.js';
import { FrontDoorPage } from './studios.pages.js';

@Controller()
export class StudiosWeb {
  constructor(private readonly studios: StudiosService) {}

  @Get()
  async frontDoor(@Res({ passthrough: true }) reply: FastifyReply): Promise<string> {
    const only = await this.studios.onlySlug();
    if (only === null) return page(reply, FrontDoorPage({ empty: !(await this.studios.any()) }));
    reply.status(302).header('location', `/s/${only}`);
    return '';
  }
}
