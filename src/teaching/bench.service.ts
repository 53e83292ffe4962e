// The owner sets the bench of one teaching day: counts, seconds, hands, the weather. Nobody who has signed up is touched
// by it; turns that are kept are told to be laid again.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { benchSettings } from './bench.schemas.js';
import { courseStations } from './course.schemas.js';
import { SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { stands } from './states.calc.js';
import type { Session } from './teaching.schemas.js';

const benchBody = z.object({ stations: courseStations, bench: benchSettings });

@Injectable()
export class BenchService {
  private readonly sessions = new SessionsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly seats: SeatsService,
  ) {}

  /** @throws AppError bad_input, not_found, wrong_state once the day is over */
  async save(
    studioId: string,
    who: { name: string },
    sessionId: string,
    input: unknown,
    check: (course: Session['course']) => void = () => {},
  ): Promise<void> {
    const said = readInput(benchBody, input);
    await this.db.inStudio(studioId, async (tx) => {
      const { session } = await this.seats.lock(tx, sessionId);
      if (!stands(session.state)) throw new AppError('wrong_state', 'This day is over, or called off.');
      check(session.course);
      await this.sessions.save(tx, { ...session, course: { ...session.course, ...said } });
      const about = { aboutKind: 'teaching', aboutId: sessionId, event: 'bench', note: '' };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }
}
