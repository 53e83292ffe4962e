// A studio whose people wait and are offered places, for tests: one house for many studios, each with the same morning.
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import type { Message } from '../../src/platform/mailer.js';
import { ListService } from '../../src/sittings/list.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { DEFAULT_WAITING_RULES, type Mode } from '../../src/waiting/rules.schemas.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import type { TestHouse } from './house.js';
import { rowsOf } from './rows.js';
import { type Asking, askForSitting, type Founding, foundTestStudio } from './studio.js';

/** A Friday over eight weeks ahead: offers made on the first morning are open until Monday 7 December, 18:00. */
export const START = '2027-04-02T09:30';
export const OTHER = '2027-04-02T11:15';

export type Asked = Awaited<ReturnType<typeof askForSitting>>;
let count = 0;

/** Founds a studio of its own on the morning of 25 November 2026, and forgets what was sent before. */
export async function offering(house: TestHouse, { shelf }: Pick<Founding, 'shelf'> = {}) {
  house.clock.set('2026-11-25T10:00:00Z');
  const desk = `desk-${++count}@sandpiper-loft.example`;
  const studio = await foundTestStudio(house, {
    slug: `loft-${count}`,
    email: desk,
    ...(shelf && { shelf }),
  });
  house.mail.sent.splice(0);
  const offers = house.app.get(OffersService);

  const rows = <T extends pg.QueryResultRow>(sql: string, values: unknown[] = []) =>
    rowsOf<T>(house, studio.id, sql, values);

  /** What this studio sent since the last look, in order; the queue works for all of them. */
  async function sent(): Promise<Message[]> {
    await house.work();
    return house.mail.sent.splice(0).filter((message) => message.replyTo === desk);
  }

  return {
    studio,
    desk,
    offers,
    rows,
    sent,
    letters: async () => (await sent()).map((message) => `${message.to.name}: ${message.subject}`),
    async waiter(asking: Asking = {}): Promise<Asked> {
      const one = await askForSitting(house, studio, asking);
      await house.app.get(ListService).wait(studio.id, studio.owner, one.sittingId);
      house.clock.forward({ minutes: 1 });
      return one;
    },
    offer: (one: Asked, start = START) =>
      offers.make(studio.id, studio.owner, one.sittingId, Temporal.PlainDateTime.from(start)),
    accept: (one: Asked) => offers.accept(studio.id, { token: one.token }),
    refuse: (one: Asked) => offers.refuse(studio.id, { token: one.token }),
    setMode: (mode: Mode) =>
      house.app.get(WaitingService).saveRules(studio.id, studio.owner, { ...DEFAULT_WAITING_RULES, mode }),
    /** "offered, tentative at 2027-04-02 09:30:00, 5 set aside". */
    async stands({ sittingId }: Asked): Promise<string> {
      const [one] = await rows<{ state: string; place: string | null; tentative: boolean; kept: string }>(
        `select s.state, o.wall_start::text as place, o.tentative,
           (select count(*) from reservation r where r.held_for = s.sitting_id)::text as kept
         from sitting s left join occupancy o on o.held_for = s.sitting_id and o.holds where s.sitting_id = $1`,
        [sittingId],
      );
      if (!one?.place) return `${one?.state}, ${one?.kept} set aside`;
      return `${one.state}, ${one.tentative ? 'tentative' : 'firm'} at ${one.place}, ${one.kept} set aside`;
    },
  };
}
export type Offering = Awaited<ReturnType<typeof offering>>;
