// Undoing what the desk did last with a sign-up, as long as nobody was told: the letters that wait are dropped in the
// same transaction.
import { Injectable } from '@nestjs/common';
import type { Account } from '../../accounts/accounts.schemas.js';
import { Db } from '../../platform/db/db.js';
import { AppError } from '../../platform/problems.js';
import { TelephoneService } from '../../reminders/telephone.service.js';
import { TeachingUndo } from '../../teaching/undo.service.js';

@Injectable()
export class TeachingUndoActs {
  constructor(
    private readonly db: Db,
    private readonly undo: TeachingUndo,
    private readonly telephone: TelephoneService,
  ) {}

  /** @throws AppError wrong_state when somebody was told or something happened since, place_taken, short_of_stock */
  async takeBack(studioId: string, who: Account, signUpId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const turn = await this.undo.undo(tx, who, signUpId);
      if (!(await this.telephone.drop(tx, signUpId, turn)))
        throw new AppError('wrong_state', 'They have been told by now, so it cannot be undone.');
    });
  }
}
