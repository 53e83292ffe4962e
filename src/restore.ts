// `npm run restore -- FILE`: puts a studio back from its copy into an empty installation. `-- --check FILE` only looks
// whether the copy is whole.
import 'reflect-metadata';
import { readFile } from 'node:fs/promises';
import { AppModule } from './app.module.js';
import { RestoreService } from './backup/restore.service.js';
import { counted } from './lib/words.js';
import { keepSecret } from './platform/config.js';
import { alreadyOpen, openHouse } from './platform/house.js';

const log = (line: string) => console.log(line);
const only = process.argv.includes('--check');
const file = process.argv.slice(2).find((one) => !one.startsWith('--'));

try {
  if (!file) throw new Error('Please name the file: npm run restore -- FILE');
  const bytes = await readFile(file).catch(() => {
    throw new Error(`There is no file ${file} that can be read.`);
  });
  if (await alreadyOpen(process.env, 'plateday'))
    throw new Error('Plateday is open. Please close it first (Ctrl-C where it runs).');
  const house = await openHouse({
    env: process.env,
    database: 'plateday',
    root: AppModule.with,
    web: false,
    worker: false,
    log,
  });
  try {
    const restores = house.app.get(RestoreService);
    const checked = await restores.check(bytes);
    const { studio, madeAt, tables } = checked.manifest;
    const rows = tables.reduce((sum, one) => sum + one.rows, 0);
    log(
      `The copy is whole: ${studio.name}, made ${madeAt}, ${counted(rows, 'row')} in ${counted(tables.length, 'table')}.`,
    );
    if (!only) {
      await restores.restore(checked);
      if (checked.secret) keepSecret(house.platform.config.home, checked.secret);
      log(
        checked.secret
          ? 'It is back, and every link of before is good. Start Plateday with npm start.'
          : 'It is back. Start Plateday with the SECRET_KEY it had, so that links can be shown again.',
      );
    }
  } finally {
    await house.close();
  }
} catch (error) {
  console.error((error as Error).message);
  process.exitCode = 1;
}
