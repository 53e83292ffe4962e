// The jobs that letters come from.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Db } from '../platform/db/db.js';
import { Shared } from '../platform/db/shared.js';
import type { Tx } from '../platform/db/tx.js';
import { type JobName, type JobPayload, Jobs } from '../platform/jobs/registry.js';
import { Composing } from './composing.service.js';
import { Reminding } from './reminding.service.js';
import { Sending } from './sending.service.js';
import { Surprises } from './surprises.service.js';
import { TeachingLetters } from './teaching-letters.service.js';

@Injectable()
export class RemindersJobs implements OnModuleInit {
  constructor(
    private readonly db: Db,
    private readonly jobs: Jobs,
    private readonly composing: Composing,
    private readonly reminding: Reminding,
    private readonly sending: Sending,
    private readonly surprises: Surprises,
    private readonly teaching: TeachingLetters,
  ) {}

  onModuleInit(): void {
    this.share(
      'place.changed',
      async (tx, change) => {
        await Promise.all([
          this.composing.aboutChange(tx, change),
          this.reminding.replan(tx, change.sittingId),
        ]);
      },
      ({ sittingId }) => sittingId,
    );
    this.jobs.handle('details.corrected', ({ studioId, sittingId }) =>
      this.db.inStudio(studioId, (tx) => this.reminding.replan(tx, sittingId)),
    );
    this.jobs.handle('journey.told', ({ studioId, contactId }) =>
      this.db.inStudio(studioId, (tx) => this.reminding.replanAllOf(tx, contactId)),
    );
    this.share(
      'reminder.due',
      (tx, { reminderId }) => this.reminding.due(tx, reminderId),
      ({ reminderId }) => reminderId,
    );
    this.share(
      'teaching.changed',
      async (tx, change) => {
        await Promise.all([
          this.teaching.aboutChange(tx, change),
          this.reminding.replanSignUp(tx, change.signUpId),
        ]);
      },
      ({ signUpId }) => signUpId,
    );
    this.jobs.handle('sign-in.asked', ({ studioId, linkId }) =>
      this.db.inStudio(studioId, (tx) => this.composing.signIn(tx, linkId)),
    );
    this.jobs.handle('surprise.over', ({ studioId, sittingId }) =>
      this.db.inStudio(studioId, (tx) => this.surprises.release(tx, sittingId)),
    );
    this.jobs.handle('mail.send', ({ studioId, mailId }) => this.sending.send(studioId, mailId), true);
  }
  /** Of these there are many at once. */
  private share<N extends JobName>(
    name: N,
    act: (tx: Tx, payload: JobPayload<N>) => Promise<void>,
    subjectOf: (payload: JobPayload<N>) => string,
  ): void {
    const shared = new Shared(this.db, act, subjectOf);
    this.jobs.handle(name, (payload) => shared.do(payload.studioId, payload), true);
  }
}
