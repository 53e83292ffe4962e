// A job process of its own, beside web processes that share its DATABASE_URL.
import 'reflect-metadata';
import { AppModule } from './app.module.js';
import { closeOnSignal, openHouse } from './platform/house.js';

const log = (line: string) => console.log(line);

try {
  if (!process.env.DATABASE_URL)
    throw new Error('A worker of its own needs DATABASE_URL; otherwise the web process does the jobs.');
  const house = await openHouse({
    env: process.env,
    database: 'plateday',
    root: AppModule.with,
    web: false,
    worker: true,
    log,
  });
  closeOnSignal(house, log);
  log('The worker is ready.');
} catch (error) {
  console.error((error as Error).message);
  process.exit(1);
}
