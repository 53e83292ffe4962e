// A class that the demo studio has taught: who came, one of them late and one not at all, what they made and used. All
// names are invented.
import type { INestApplicationContext } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import type { Random } from '../src/platform/clock.js';
import type { Attendance } from '../src/teaching/after.schemas.js';
import { AfterService } from '../src/teaching/after.service.js';
import { SessionsService } from '../src/teaching/sessions.service.js';
import { SignUpsService } from '../src/teaching/sign-ups.service.js';
import { TeachingViews } from '../src/teaching/views.service.js';
import { STUDIO } from './kittiwake-yard.js';
import type { Sizes } from './shelf.js';
import { agree, course } from './teaching.js';

const WEEKS_AGO = 5;

/** Half plates, made and kept; nothing of who did not come. */
const CAME: { name: string; how: Attendance; made: [number, number] | null }[] = [
  { name: 'Ingrid Faa', how: 'present', made: [6, 3] },
  { name: 'Piers Sandsend', how: 'late', made: [5, 2] },
  { name: 'Odile Marr', how: 'present', made: [6, 4] },
  { name: 'Hob Staithes', how: 'present', made: [5, 2] },
  { name: 'Tamsin Cobble', how: 'did_not_come', made: null },
];

interface Told {
  at: Temporal.Instant;
  act: () => Promise<void>;
}

/** From its being made to the evening after it. @param friday the Friday of this week */
export function pastClass(
  app: INestApplicationContext,
  random: Random,
  o: { studioId: string; owner: Account; sizes: Sizes; friday: Temporal.PlainDate },
): Told[] {
  const { studioId, owner, sizes, friday } = o;
  const day = friday.subtract({ weeks: WEEKS_AGO, days: 2 });
  const at = (date: Temporal.PlainDate, hour: number): Temporal.Instant => {
    const told = wallToInstant(STUDIO.zone, date.toPlainDateTime({ hour }));
    if (!told.ok) throw new Error(`There is no hour ${hour} on ${date}.`);
    return told.instant;
  };
  let sessionId = '';
  const make = async () => {
    const sessions = app.get(SessionsService);
    const template = await sessions.saveTemplate(studioId, owner, null, course(sizes));
    const start = day.toPlainDateTime(Temporal.PlainTime.from('09:30'));
    sessionId = (await sessions.make(studioId, owner, template.id, start)).id;
    await sessions.open(studioId, owner, sessionId);
  };
  const signUp = async (name: string) => {
    const email = `${name.split(' ')[0]?.toLowerCase()}@post.example`;
    const asked = { name, reachBy: 'email', email, students: [{ name }], oldEnough: true };
    await agree(app, studioId, await app.get(SignUpsService).signUp(studioId, sessionId, asked, random.id()));
  };
  const write = async () => {
    const { signUps } = await app.get(TeachingViews).session(studioId, sessionId);
    const students = signUps.flatMap((one) => one.students);
    const told = students.flatMap(({ id, name }) => {
      const one = CAME.find((came) => came.name === name);
      return one ? [{ id, ...one }] : [];
    });
    await app.get(AfterService).write(studioId, owner, sessionId, {
      attendance: new Map(told.map(({ id, how }) => [id, how])),
      plates: told.flatMap(({ id, made }) =>
        made ? [{ maker: id, plateSizeId: sizes.half, tries: made[0], keepers: made[1] }] : [],
      ),
      used: { collodion: 160_000n, developer: 900_000n, fixer: 2_000_000n },
      note: 'Everybody kept at least two.',
    });
  };
  return [
    { at: at(day.subtract({ weeks: 9 }), 9), act: make },
    ...CAME.map(({ name }, index) => ({
      at: at(day.subtract({ weeks: 8 }).add({ days: index }), 20),
      act: () => signUp(name),
    })),
    { at: at(day, 19), act: write },
  ];
}
