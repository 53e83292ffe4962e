// `npm run zones:rederive`: after an update of the zone data, moves the instants of all places ahead to where
// their wall times now are, and reports each that moved. `-- --demo` works on the demo's database.
import 'reflect-metadata';
import { AppModule } from './app.module.js';
import { openHouse } from './platform/house.js';
import type { Rederived } from './room/rederive.calc.js';
import { RederiveService } from './room/rederive.service.js';

const log = (line: string) => console.log(line);

const WORDS: Record<Rederived['outcome'], string> = {
  moved: 'keeps its hour; the instant moved',
  clash: 'clashes with a place booked before it: to be moved, see the desk',
  'clock gap': 'is at an hour that the clock skips or repeats: to be moved by hand',
};

try {
  const database = process.argv.includes('--demo') ? 'plateday_demo' : 'plateday';
  const house = await openHouse({
    env: process.env,
    database,
    root: AppModule.with,
    web: false,
    worker: false,
    log,
  });
  let count = 0;
  await house.app.get(RederiveService).all((studioId, changed) => {
    for (const { place, now, outcome } of changed)
      log(
        `${studioId} ${place.kind} ${place.wallStart} ${place.zone}: ${WORDS[outcome]} (${place.startsAt} -> ${now.startsAt})`,
      );
    count += changed.length;
  });
  log(count === 0 ? 'Nothing had to move.' : `${count} in all.`);
  await house.close();
} catch (error) {
  console.error((error as Error).message);
  process.exit(1);
}
