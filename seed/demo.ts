// `npm run demo`: an open house with the invented studio Kittiwake Yard in it. `-- --fresh` starts over.
import 'reflect-metadata';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppModule } from '../src/app.module.js';
import { alreadyOpen, closeOnSignal, openHouse } from '../src/platform/house.js';
import { ASSISTANT, OWNER, STUDIO } from './kittiwake-yard.js';
import { demoLinks } from './links.js';
import { isLoaded, loadKittiwakeYard } from './load.js';
import { StoryClock } from './story-clock.js';

const log = (line: string) => console.log(line);
const fresh = process.argv.includes('--fresh');
const clock = new StoryClock();

try {
  const open = await alreadyOpen(process.env, 'plateday_demo');
  if (open) {
    log(`The demo is open already: ${open}`);
    if (fresh) log('Close it first (Ctrl-C where it runs) to start over.');
    process.exit(fresh ? 1 : 0);
  }
  const house = await openHouse({
    env: process.env,
    database: 'plateday_demo',
    root: AppModule.with,
    clock,
    web: true,
    worker: true,
    fresh,
    log,
    async prepare({ app, platform }) {
      if (await isLoaded(app, platform)) return;
      log(`Loading the demo studio, ${STUDIO.name} ...`);
      await loadKittiwakeYard(app, platform, clock);
    },
  });
  closeOnSignal(house, log);
  const { config } = house.platform;
  const mailFolder = config.smtpUrl
    ? `the mail server ${new URL(config.smtpUrl).host}`
    : join(config.home, 'mail');
  const links = await demoLinks(house.app, house.platform, house.base, mailFolder);
  const file = join(config.home, 'demo-links.json');
  writeFileSync(file, `${JSON.stringify(links, null, 2)}\n`, { mode: 0o600 });
  log(`
${STUDIO.name} is open.

  As anyone      ${links.publicPage}
  As the owner   ${links.ownerSignIn}
                 ${OWNER.email}   ${OWNER.password}
  As assistant   ${links.assistantSignIn}
                 ${ASSISTANT.email}   ${ASSISTANT.password}
  As a sitter    ${links.sitterPage}
  As a student   ${links.studentPage}

  Owner's calendar   ${links.ownerFeed}
  Sitter's calendar  ${links.sitterFeed}
  Student's calendar ${links.studentFeed}
  For the assistant  ${links.assistantFeed}
  Teaching days      ${links.workshopsFeed}
  Mail goes to       ${links.mailFolder}

All links are in ${file}. Ctrl-C closes; the data stays.`);
} catch (error) {
  console.error((error as Error).message);
  process.exit(1);
}
