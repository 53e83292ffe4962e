// `npm run bench`: prints each ratio, and ends with 1 when one passes its limit.
import { Temporal } from 'temporal-polyfill';
import { sunAt, sunTimes } from '../../src/daylight/sun.calc.js';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { daysOf, type RoomFacts } from '../../src/room/days.calc.js';
import { readPlan } from '../../src/waiting/planner.calc.js';
import { buildModel } from '../../src/waiting/planner-model.calc.js';
import { SolverService } from '../../src/waiting/solver.service.js';
import { feedTimes } from './feeds.js';
import { fullList } from './full-plan.js';
import { fullYears } from './full-years.js';
import { lightYear, MOST_OF_A_PICTURE } from './light-year.js';
import { LEAST_LETTERS, LEAST_OF_ALONE, LEAST_OF_TWO, mailRates } from './mails.js';
import { type Ratio, ratio } from './ratio.js';
import { MOST_OF_A_DAY, planningTheDay, planningTheRest } from './rota-rest.js';
import { rotaTimes } from './rota.js';
import { lookingAhead, MOST, settingAside } from './shelf-ahead.js';

const { facts, range, fridays } = fullYears(Temporal.PlainDate.from('2027-01-01'));
const { booking } = facts;
const { reckoning, drawing } = lightYear(booking, range.from);
const HALF_HOUR = 1_800_000;

/** The sun of the same days and nothing else, as the daylight door tells it: rise and set, window, each half hour. */
const plainSun = () =>
  fridays.map((date) => {
    const times = sunTimes(booking, date);
    const from = times.solarNoon.epochMilliseconds - 24 * HALF_HOUR;
    const heights = Array.from({ length: 48 }, (_, half) => {
      return sunAt(booking, Temporal.Instant.fromEpochMilliseconds(from + half * HALF_HOUR)).altitude;
    });
    return { times, window: lightWindow(booking, date, booking.lightFloorDegrees), heights };
  });
const windowsAlone = () => fridays.map((date) => lightWindow(booking, date, booking.lightFloorDegrees));
const openings = (of: RoomFacts) => () => daysOf(of, range, { plates: 1, sitters: 1, kind: null });

const results: Ratio[] = [
  await ratio(
    'openings of 24 months, empty room : plain sun of its days',
    plainSun,
    openings({ ...facts, holding: [] }),
    4,
  ),
  await ratio('openings of 24 months, half full : plain sun of its days', plainSun, openings(facts), 4),
  await ratio('openings of 24 months, half full : light windows alone', windowsAlone, openings(facts), null),
  await ratio('a year of light drawn : its windows reckoned', reckoning, drawing, MOST_OF_A_PICTURE),
  await ratio(
    '200 items, 18 months, 1,000 sessions ahead, ingredients and days : setting their needs aside',
    settingAside,
    lookingAhead,
    MOST,
  ),
  await ratio(
    'the rest of a day of 12 by 6 at noon planned anew : the whole day',
    planningTheDay,
    planningTheRest,
    MOST_OF_A_DAY,
    { counted: 5, warming: 2 },
  ),
];

const feeds = await feedTimes();
results.push(...feeds.ratios);
const { late } = feeds;
const isLate = late.ms > late.most;
console.log(
  `${late.ms.toFixed(1).padStart(7)}  milliseconds at worst that others wait for ${late.name}  ${isLate ? 'ABOVE' : 'within'} ${late.most}`,
);

/** Seconds from the list to its plan, of which the solver may search four. */
const MOST_SECONDS = 5;
const began = performance.now();
const problem = fullList(500, 40, 1);
const model = buildModel(problem);
const plan = readPlan(problem, model, await new SolverService().solve(model.milp));
const seconds = (performance.now() - began) / 1000;
const tooSlow = seconds > MOST_SECONDS;
console.log(
  `${seconds.toFixed(2).padStart(7)}  seconds for a plan of 500 people and 120 places; ${plan.given.length} placed, gap ${(100 * plan.gap).toFixed(2)} %  ${tooSlow ? 'ABOVE' : 'within'} ${MOST_SECONDS}`,
);

const rotas = rotaTimes();
for (const { name, seconds: took, most } of rotas)
  console.log(
    `${took.toFixed(2).padStart(7)}  seconds for ${name}  ${took > most ? 'ABOVE' : 'within'} ${most}`,
  );

for (const { name, ratio: found, yardstickMs, subjectMs, most } of results) {
  const judged = most === null ? '' : found <= most ? `within ${most}` : `ABOVE ${most}`;
  console.log(
    `${found.toFixed(2).padStart(7)}  ${name}  (${subjectMs.toFixed(2)} ms : ${yardstickMs.toFixed(2)} ms) ${judged}`,
  );
}
const mails = await mailRates();
console.log(
  `${mails.letters.toFixed(0).padStart(7)}  letters a second by one worker  ${mails.letters < LEAST_LETTERS ? 'BELOW' : 'above'} ${LEAST_LETTERS} (told only)`,
);
const rates = [
  {
    name: 'letters by one worker : by nodemailer alone',
    found: mails.letters / mails.alone,
    inSecond: `${mails.letters.toFixed(0)} : ${mails.alone.toFixed(0)}`,
    least: LEAST_OF_ALONE,
  },
  {
    name: 'letters by two workers : by one, where the mail server takes 50 ms for each',
    found: mails.two / mails.one,
    inSecond: `${mails.two.toFixed(0)} : ${mails.one.toFixed(0)}`,
    least: LEAST_OF_TWO,
  },
];
for (const { name, found, inSecond, least } of rates)
  console.log(
    `${found.toFixed(2).padStart(7)}  ${name}  (${inSecond} a second) ${found < least ? 'BELOW' : 'above'} ${least}`,
  );
const rotaTooSlow = rotas.some(({ seconds: took, most }) => took > most);
process.exitCode =
  isLate ||
  tooSlow ||
  rates.some(({ found, least }) => found < least) ||
  rotaTooSlow ||
  results.some(({ ratio: found, most }) => most !== null && found > most)
    ? 1
    : 0;
