// The web process, with the job worker in it (WORKER=0 leaves it out).
import 'reflect-metadata';
import { AppModule } from './app.module.js';
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
} catch (error) {
  console.error((error as Error).message);
  process.exit(1);
}
