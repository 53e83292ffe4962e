// The yardstick of what a worker sends: nodemailer alone, as it comes, in a process of its own. It composes a letter and hands
// it to the same mail server over as many connections, again and again; no database, no promise kept.
import { once } from 'node:events';
import { createTransport } from 'nodemailer';
import { LETTERS_AT_ONCE, type Message, toMailOptions } from '../../src/platform/mailer.js';

export interface Errand {
  url: string;
  letter: Message;
  count: number;
  /** Only the last is told: the engine is still compiling before. */
  runs: number;
}

const [{ url, letter, count, runs }] = (await once(process, 'message')) as [Errand];
const transport = createTransport({ url, pool: true, maxConnections: LETTERS_AT_ONCE } as object);
let rate = 0;
for (let run = 0; run < runs; run++) {
  const began = performance.now();
  let left = count;
  const lane = async () => {
    while (left-- > 0)
      await transport.sendMail(toMailOptions({ ...letter, messageId: `<${run}.${left}@alone.example>` }));
  };
  await Promise.all(Array.from({ length: 2 * LETTERS_AT_ONCE }, lane));
  rate = (count * 1_000) / (performance.now() - began);
}
transport.close();
process.send?.(rate, () => process.disconnect());
