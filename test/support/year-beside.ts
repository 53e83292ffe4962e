// A process of a house that lives the year of one studio beside others; see year-lived.ts.
import { once } from 'node:events';
import { openTestHouse } from './house.js';
import { type Errand, liveAndJudge } from './year-lived.js';

const [errand] = (await once(process, 'message')) as [Errand];
const { now, url, adminUrl, plot } = errand;
const house = await openTestHouse({ now, pool: 12, database: { url, adminUrl, drop: async () => {} } });
const lived = await liveAndJudge(house, plot);
await house.close();
process.send?.(lived, () => process.disconnect());
