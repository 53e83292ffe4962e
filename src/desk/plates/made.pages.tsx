// Plates that were typed in, as they stand on the day sheet: their numbers and what came of them.
import { WEATHER_WORDS } from '../../daylight/words.calc.js';
import type { Made } from '../../plates/made.schemas.js';

/** Nothing where no plate was typed in. */
export function MadePlates({ made, title }: { made: readonly Made[]; title: string }) {
  if (made.length === 0) return null;
  return (
    <>
      <p>
        <strong>{title}</strong>
      </p>
      <ul>
        {made.map((one) => (
          <li key={one.id}>{madeInWords(one)}</li>
        ))}
      </ul>
    </>
  );
}

/** "118: kept, 6 s, clear sky. Fine." */
export function madeInWords({ number, keeper, seconds, sky, result }: Made): string {
  const words = [
    keeper ? 'kept' : 'not kept',
    seconds === null ? '' : `${seconds} s`,
    sky === null ? '' : WEATHER_WORDS[sky].toLowerCase(),
    result,
  ];
  return `${number}: ${words.filter((one) => one !== '').join(', ')}`;
}
