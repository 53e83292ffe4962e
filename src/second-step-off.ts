// `npm run second-step-off -- STUDIO ADDRESS`: for an owner who has neither phone nor recovery codes, but has the machine.
// STUDIO is what stands after /s/ in the studio's address, ADDRESS the one they sign in with.
import 'reflect-metadata';
import { OwnAccountService } from './accounts/own-account.service.js';
import { AppModule } from './app.module.js';
import { counted } from './lib/words.js';
import { alreadyOpen, openHouse } from './platform/house.js';

const log = (line: string) => console.log(line);
const [slug, email] = process.argv.slice(2);

try {
  if (!slug || !email)
    throw new Error('Please name studio and e-mail address: npm run second-step-off -- STUDIO ADDRESS');
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
    const studio = await house.platform.db.studioAt(slug);
    if (!studio) throw new Error(`There is no studio at /s/${slug} here.`);
    const done = await house.app.get(OwnAccountService).turnOffAtMachine(studio.studioId, email);
    if (!done) throw new Error(`Nobody works at ${slug} by the address ${email}. Nothing was changed.`);
    const who = `${done.account.name} (${done.account.email})`;
    if (!done.wasOn) log(`${who} is asked for no code as it is. Nothing was changed.`);
    else {
      log(`The second step of ${who} is off: the password, or a mailed link, is enough to come in.`);
      log(
        `Their recovery codes work no more, and they are signed out (${counted(done.sessions, 'device')}).`,
      );
      log(
        'The log of the studio has a line about it. Please turn the second step on again under "Your account".',
      );
    }
  } finally {
    await house.close();
  }
} catch (error) {
  console.error((error as Error).message);
  process.exitCode = 1;
}
