// The jobs of teaching: offers that run out, places that came free, days that are over.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Jobs } from '../platform/jobs/registry.js';
import { TeachingRequestsService } from './requests.service.js';
import { SessionsService } from './sessions.service.js';

@Injectable()
export class TeachingJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly requests: TeachingRequestsService,
    private readonly sessions: SessionsService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('teaching.lapsed', ({ studioId, offerId }) => this.requests.lapse(studioId, offerId));
    this.jobs.handle('teaching.freed', ({ studioId, sessionId }) =>
      this.requests.passOn(studioId, sessionId),
    );
    this.jobs.handle('teaching.ended', ({ studioId, sessionId }) =>
      this.sessions.forget(studioId, sessionId),
    );
  }
}
