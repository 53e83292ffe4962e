// What a contact tells of their journey on their own page; it holds for all that they come for.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import type { ToldJourney } from '../people/own-journey.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { Jobs } from '../platform/jobs/registry.js';
import { StudiosService } from '../studios/studios.service.js';
import { SittingViews } from './views.service.js';

@Injectable()
export class OwnJourneyService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly views: SittingViews,
  ) {}

  /**
   * @param check is asked about what stands there before it is overwritten
   * @throws AppError not_found, link_expired
   */
  async tell(
    studioId: string,
    token: string,
    journey: ToldJourney,
    check: (stands: ToldJourney) => void = () => {},
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'details');
      const { subjectId } = await this.links.open(tx, 'place', token);
      const { contact } = await this.views.byId(tx, await this.studios.load(tx), subjectId);
      check(contact);
      const shown = await this.people.setJourney(tx, contact.id, journey);
      const about = { who: 'contact', aboutKind: 'sitting', aboutId: subjectId, event: 'journey' };
      await recordHistory(tx, this.clock, about);
      await this.jobs.enqueue(tx, 'journey.told', { contactId: contact.id }, { key: contact.id });
      if (shown) await this.studios.raiseCalendarCounter(tx);
    });
  }
}
