// The light of a sitting in sentences, for the day sheet.
import type { HoldStill } from '../room/openings.calc.js';
import type { DullPlan } from './day-facts.calc.js';

const whole = (seconds: number) => Math.max(1, Math.round(seconds));

/** "They hold still for 6 to 9 s under a clear sky, for up to 34 s under a dull one." Whole seconds, at least one. */
export function holdStillInWords({ clear, dull }: HoldStill): string {
  const [from, to] = [whole(clear.from), whole(clear.to)];
  const span = from === to ? `about ${from}` : `${from} to ${to}`;
  return `They hold still for ${span}\u00a0s under a clear sky, for up to ${whole(dull.to)}\u00a0s under a dull one.`;
}

/** "If the sky is dull: open the lens by 2 stops or take a wider one; ..." */
export function dullInWords({ asks, holds, stops, smaller, fewer }: DullPlan): string {
  const stopsInWords = stops === 1 ? 'one stop' : `${stops} stops`;
  const ways = [
    ...(smaller ? [`take a smaller plate (${smaller})`] : []),
    `open the lens by ${stopsInWords} or take a wider one`,
    ...(fewer ? ['make one plate and no more'] : []),
  ];
  return `If the sky is dull, that is up to ${asks}\u00a0s and they hold ${holds}\u00a0s: ${ways.join('; ')}.`;
}
