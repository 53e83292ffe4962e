// The demo's first class has its turns laid and kept, so that its students see them.
import type { INestApplicationContext } from '@nestjs/common';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { TurnsService } from '../src/teaching/turns.service.js';

/** @throws Error where they do not fit: the demo shows a day that does */
export async function keepTurns(
  app: INestApplicationContext,
  o: { studioId: string; owner: Account; sessionId: string },
): Promise<void> {
  const turns = app.get(TurnsService);
  const { shown, basis } = await turns.view(o.studioId, o.sessionId);
  if (!shown?.rota.fits) throw new Error('The turns of the demo’s class do not fit.');
  if (!(await turns.keep(o.studioId, o.owner, o.sessionId, undefined, basis ?? '')))
    throw new Error('The demo’s class changed while its turns were laid.');
}
