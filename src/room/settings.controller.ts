// The JSON door of the settings: what stands, what a change would do, and making it.
import { Body, Controller, Get, Param, Put, Query, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { readInput, within } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import {
  changeBody,
  changeQuery,
  changeSent,
  previewAnswer,
  settingsAnswer,
  toPreviewAnswer,
  toSettingsAnswer,
} from './settings-api.schemas.js';
import { SettingsService } from './settings.service.js';

@Controller('api/v1/s/:slug/settings')
export class SettingsController {
  constructor(
    private readonly visits: Visits,
    private readonly settings: SettingsService,
  ) {}

  @Describe({
    summary: 'The rhythm, closures, kinds, people, light and booking of the studio',
    staff: true,
    answer: settingsAnswer,
  })
  @Get()
  async all(@Param('slug') slug: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request);
    return toSettingsAnswer(await this.settings.all(studioId));
  }

  @Describe({
    summary:
      'Preview a change of the settings (preview=true), or make it with what the preview gave as `seen`',
    staff: true,
    query: changeQuery,
    body: changeBody,
    answer: previewAnswer,
    problems: ['bad_input'],
  })
  @Put()
  async change(
    @Param('slug') slug: string,
    @Query() query: unknown,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    const { preview } = readInput(changeQuery, query);
    const { change, seen } = readInput(changeSent, body);
    return within('change', async () => {
      if (preview === 'true') return toPreviewAnswer(await this.settings.preview(studioId, change), false);
      const done = await this.settings.confirm(studioId, account, change, seen);
      return toPreviewAnswer(done.preview, done.ok);
    });
  }
}
