// Deletes what nobody can use any more. How long it is kept is an assumption: a form may lie open for weeks, the owner
// may ask what became of a link for some days, and who began to ask may want to sleep on it.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { DRAFTS_KEPT_DAYS, forgetDrafts } from '../platform/drafts.js';
import { forgetAnswers } from '../platform/idempotency.js';
import { enqueueNight } from '../platform/jobs/night.js';
import { Jobs } from '../platform/jobs/registry.js';
import { LinksStore } from './links.store.js';

const ANSWERS_KEPT_DAYS = 30;
const SIGN_IN_LINKS_KEPT_DAYS = 7;

@Injectable()
export class SweepService {
  private readonly links = new LinksStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
  ) {}

  /** Sweeps a studio, has its copy made, its outside calendars read and its owner's next letter seen to, and its next night. */
  async night(studioId: string): Promise<void> {
    const daysAgo = (days: number) => this.clock.now().subtract({ hours: 24 * days });
    await this.db.inStudio(studioId, async (tx) => {
      await forgetAnswers(tx, daysAgo(ANSWERS_KEPT_DAYS));
      await forgetDrafts(tx, daysAgo(DRAFTS_KEPT_DAYS));
      await this.links.deleteExpired(tx, 'sign-in', daysAgo(SIGN_IN_LINKS_KEPT_DAYS));
      await this.jobs.enqueue(tx, 'keep to rules', {}, { key: 'keep to rules' });
      await this.jobs.enqueue(tx, 'copy', {}, { key: 'copy' });
      await this.jobs.enqueue(tx, 'day.letter', {}, { key: 'next' });
      await this.jobs.enqueue(tx, 'outside.due', {}, { key: 'outside' });
      await enqueueNight(tx, this.jobs, this.clock);
    });
  }
}
