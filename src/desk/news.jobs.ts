// The job of the owner's letter about the day ahead.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Jobs } from '../platform/jobs/registry.js';
import { NewsService } from './news.service.js';

@Injectable()
export class NewsJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly news: NewsService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('day.letter', ({ studioId, day }) => this.news.write(studioId, day));
  }
}
