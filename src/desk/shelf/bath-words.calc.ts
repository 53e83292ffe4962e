// Silver baths in the owner's words.
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted } from '../../lib/words.js';
import type { BathEvent, BathState, EventKind } from '../../stock/baths.schemas.js';
import { shortDay } from '../words.calc.js';

/** Milligrams in a litre as "90.4 g/L". */
export const strengthInWords = (mgPerLitre: number): string => `${(mgPerLitre / 1000).toFixed(1)}\u00a0g/L`;
export const gramsPerLitre = (mgPerLitre: number): number => Math.round(mgPerLitre / 100) / 10;

export const STATE_WORDS: Record<BathState, string> = {
  working: 'working',
  sunning: 'in the sun',
  resting: 'resting',
  filtering: 'being filtered',
  suspect: 'suspect',
  retired: 'retired',
};

export const STATE_TONES: Record<BathState, 'good' | 'warn' | 'bad' | undefined> = {
  working: 'good',
  sunning: undefined,
  resting: undefined,
  filtering: undefined,
  suspect: 'bad',
  retired: undefined,
};

export const KIND_WORDS: Record<EventKind, string> = {
  made: 'entered',
  measured: 'measured',
  'topped up': 'topped up',
  poured: 'plates poured',
  sunned: 'sunned',
  filtered: 'filtered',
  rested: 'rested',
  state: 'now',
  acidity: 'acidity',
  note: 'note',
  'taken back': 'taken back',
};

/** What a line tells: "90.4 g/L by hydrometer, 1.073 at 18.5 °C, 1.8 L in it". */
export function lineInWords(event: BathEvent): string {
  const litre = (volume: bigint) => formatQuantity(volume, 'uL');
  const parts: (string | false)[] = [
    event.strength !== null && strengthInWords(event.strength),
    event.method !== null && `by ${event.method}`,
    event.density !== null && `${event.density} at ${event.temperature ?? '?'}\u00a0°C`,
    event.kind === 'topped up' && event.crystals !== null && event.crystals > 0n
      ? `${formatQuantity(event.crystals, 'mg')} of crystals`
      : false,
    event.volume !== null && event.volume > 0n
      ? event.kind === 'topped up'
        ? `${litre(event.volume)} of water`
        : `${litre(event.volume)} in it`
      : false,
    event.plates !== null && counted(event.plates, 'plate'),
    event.area !== null && `${Math.round(Number(event.area) / 1e8)}\u00a0cm²`,
    event.ph !== null && `pH ${event.ph}`,
    event.state !== null && STATE_WORDS[event.state],
    event.until !== null && `until ${shortDay(event.until)}`,
    event.note !== '' && event.note,
  ];
  return parts.filter(Boolean).join(', ');
}
