// The web process, with the job worker in it (WORKER=0 leaves it out).
import 'reflect-metadata';
import { AppModule } from './app.module.js';
import { ClaimService } from './desk/set-up/claim.service.js';
import { alreadyOpen, closeOnSignal, openHouse } from './platform/house.js';

const log = (line: string) => console.log(line);

try {
  const open = await alreadyOpen(process.env, 'plateday');
  if (open) {
    log(`Plateday is open already: ${open}`);
    process.exit(0);
  }
  const worker = process.env.WORKER !== '0';
  const house = await openHouse({
    env: process.env,
    database: 'plateday',
    root: AppModule.with,
    web: true,
    worker,
    log,
  });
  closeOnSignal(house, log);
  log(`Plateday is open: ${house.base}`);
  const setUpAt = await house.app.get(ClaimService).address();
  if (setUpAt) log(`There is no studio yet. Set yours up here; whoever has this address can: ${setUpAt}`);
} catch (error) {
  console.error((error as Error).message);
  process.exit(1);
}
