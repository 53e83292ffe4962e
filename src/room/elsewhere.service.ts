// What an outside calendar would close if it were put in use, looked at before it is; and putting it in use as it was seen.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { blockingOf, type Choice } from '../outside/blocking.calc.js';
import { choiceForm, type OutsideCalendar } from '../outside/outside.schemas.js';
import { OutsideService } from '../outside/outside.service.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Diff, diffOf, type Touched, touchedBy } from './preview.calc.js';
import { RulesStore } from './rules.store.js';
import { SettingsService } from './settings.service.js';

export interface ElsewherePreview {
  calendar: OutsideCalendar;
  choice: Choice;
  /** Places that close, and that open again where the calendar is in use already. */
  diff: Diff;
  /** Sittings and teaching days that stay, and want to be looked at. */
  touched: Touched[];
  /** Stands for all of it; to be sent along when it is confirmed. */
  seen: string;
}

@Injectable()
export class ElsewhereService {
  private readonly rulesStore = new RulesStore();

  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly outside: OutsideService,
    private readonly settings: SettingsService,
  ) {}

  /** What it would do; without a choice, what it was last chosen to do. @throws AppError not_found, bad_input */
  preview(studioId: string, id: string, input: unknown | null): Promise<ElsewherePreview> {
    const choice = input === null ? null : readInput(choiceForm, input);
    return this.db.inStudio(studioId, async (tx) => this.look(tx, await this.studios.load(tx), id, choice));
  }

  /** Puts it in use as it was seen; where that is otherwise by now, nothing is done. @throws AppError not_found, bad_input */
  confirm(
    studioId: string,
    who: { name: string },
    id: string,
    input: unknown,
    seen: string,
  ): Promise<{ ok: boolean; preview: ElsewherePreview }> {
    const choice = readInput(choiceForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      await this.rulesStore.lock(tx);
      const studio = await this.studios.load(tx);
      const preview = await this.look(tx, studio, id, choice);
      if (preview.seen !== seen) return { ok: false, preview };
      await this.outside.decide(tx, studio, who, id, choice);
      return { ok: true, preview };
    });
  }

  private async look(tx: Tx, studio: Studio, id: string, chosen: Choice | null): Promise<ElsewherePreview> {
    const calendar = await this.outside.byId(tx, id);
    const choice = chosen ?? calendar.choice;
    const rules = await this.rulesStore.load(tx);
    const times = blockingOf(calendar.busy, choice, studio.zone);
    const others = rules.elsewhere.filter((one) => one.calendarId !== id);
    const before = { rules, booking: studio };
    const after = { rules: { ...rules, elsewhere: [...others, { calendarId: id, times }] }, booking: studio };
    const room = await this.settings.circumstances(tx, studio);
    const diff = diffOf(before, after, room, null);
    const touched = [...touchedBy(before, after, room), ...touchedBy(before, after, room, 'teaching')].filter(
      (one) => one.reason === 'elsewhere',
    );
    const told = touched.map(({ occupancy }) => [occupancy.id, occupancy.sequence]);
    const text = JSON.stringify([id, choice, times, calendar.state, diff, told]);
    const seen = createHash('sha256').update(text).digest('base64url').slice(0, 27);
    return { calendar, choice, diff, touched, seen };
  }
}
