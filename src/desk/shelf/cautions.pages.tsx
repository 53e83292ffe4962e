// What is said of danger on the shelf's pages and on the bench card: what must not come together, what substances
// may do, what goes into which waste. A statement that was not read in a published source is never told as one.
import { CHECK_THE_SHEET, type Hazard, hazardsOf, STATEMENTS } from '../../chemistry/hazards.calc.js';
import type { Pair } from '../../chemistry/incompatible.calc.js';
import { counted } from '../../lib/words.js';
import { Card } from '../../platform/html/kit/facts.js';
import { useWords } from '../../platform/html/kit/spoken.js';
import type { Item } from '../../stock/stock.schemas.js';

/** Nothing when nothing stands wrong. */
export function Apart({ pairs, title }: { pairs: Pair[]; title: string }) {
  if (pairs.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <PairList pairs={pairs} />
    </section>
  );
}

function PairList({ pairs }: { pairs: Pair[] }) {
  const { rules } = useWords().meeting;
  return (
    <ul>
      {pairs.map(({ rule, ones, others }) => (
        <li key={`${rule.one} ${rule.other}`}>
          <strong>
            {ones.join(', ')} with {others.join(', ')}:
          </strong>{' '}
          {rules[rule.told].effect} <span class="small">({rules[rule.told].source})</span>
        </li>
      ))}
    </ul>
  );
}

/** Of things standing on one shelf: what kills or explodes at once, the rest folded away. */
export function ShelfCautions({ pairs }: { pairs: Pair[] }) {
  const grave = pairs.filter(({ rule }) => rule.grave);
  const rest = pairs.filter(({ rule }) => !rule.grave);
  return (
    <>
      {grave.length > 0 && (
        <Card title="Must not stand together">
          <PairList pairs={grave} />
        </Card>
      )}
      {rest.length > 0 && (
        <details>
          <summary>{counted(rest.length, 'pair to keep apart', 'pairs to keep apart')}</summary>
          <PairList pairs={rest} />
        </details>
      )}
    </>
  );
}

/** An ingredient with what is known of it. */
export interface Ingredient {
  name: string;
  substance: string | null;
  /** The thing on the shelf, whose label the owner has copied. */
  item: Item | null;
}

export function Hazards({ ingredients }: { ingredients: Ingredient[] }) {
  const told = ingredients
    .map((one) => ({ ...one, words: [hazardsInWords(hazardsOf(one.substance)), onLabel(one)] }))
    .filter(({ words }) => words.some((one) => one !== ''));
  return (
    <section>
      <h2>What they may do</h2>
      {told.length === 0 ? (
        <p>Nothing is known here of these ingredients: {CHECK_THE_SHEET}.</p>
      ) : (
        <ul>
          {told.map(({ name, words }) => (
            <li key={name}>
              <strong>{name}:</strong> {words.join(' ').trim()}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** What the owner has copied from the bottle's own label, as far as it was not said already. */
function onLabel({ substance, item }: Ingredient): string {
  const known = new Set(hazardsOf(substance).flatMap((one) => (one.basis === 'seen' ? [one.code] : [])));
  const codes = (item?.hCodes ?? []).filter((code) => !known.has(code));
  const label = [...codes.map(labelInWords), item?.hazardNote ?? ''].filter((one) => one !== '');
  return label.length === 0 ? '' : `On your label: ${label.join('; ')}.`;
}

/** Statements that were read, by source; of the others the codes only, and where to look. */
export function hazardsInWords(hazards: Hazard[]): string {
  const seen = hazards.filter(({ basis }) => basis === 'seen');
  const sources = [...new Set(seen.map(({ source }) => source))];
  const read = sources.map((source) => {
    const own = seen.filter((one) => one.source === source);
    return `${own.map(({ code, statement }) => `${statement} (${code})`).join('; ')}. Read in: ${source}.`;
  });
  const memory = hazards.filter(({ basis }) => basis === 'from memory').map(({ code }) => code);
  const rest =
    memory.length === 0
      ? []
      : [
          `${seen.length > 0 ? 'Besides, from memory' : 'From memory'} ${memory.join(', ')}: ${CHECK_THE_SHEET}.`,
        ];
  return [...read, ...rest].join(' ');
}

/** "H225 Highly flammable liquid and vapour", for a code that the owner copied from a label. */
const labelInWords = (code: string): string =>
  STATEMENTS[code] === undefined ? code : `${code} ${STATEMENTS[code]}`;
