// The shelf as it stands: what runs out soon, and each item with its bottles, batches and boxes.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { ending, type Promised, type Standing } from '../../stock/levels.calc.js';
import type { WholeShelf } from '../../stock/shelf-views.service.js';
import { type Item, type ItemKind, itemKind, type Lot } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { shortDay } from '../words.calc.js';
import { Levels } from './amounts.pages.js';
import { ShelfCautions } from './cautions.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { endInWords, KIND_WORDS, markOf, oneOf, peroxideInWords } from './words.calc.js';

interface ShelfPageProps {
  visit: StaffVisit;
  shelf: WholeShelf;
  /** Of which kind only. */
  kind?: ItemKind | undefined;
  notice?: Notice | undefined;
}

export function ShelfPage({ visit, shelf, kind, notice }: ShelfPageProps) {
  const { standings, today } = shelf;
  const order = (item: Item) => itemKind.options.indexOf(item.kind);
  const shown = standings
    .filter(({ item }) => kind === undefined || item.kind === kind)
    .sort((a, b) => order(a.item) - order(b.item));
  return (
    <ShelfFrame visit={visit} title="Shelf" at="" notice={notice}>
      <p class="actions">
        <a class="button primary" href={shelfPath(visit, '/receive')}>
          Something has come
        </a>
        {visit.account.role === 'owner' && (
          <a class="button quiet" href={shelfPath(visit, '/items/new')}>
            Keep something new
          </a>
        )}
      </p>
      <Kinds visit={visit} standings={standings} kind={kind} />
      <EndingSoon visit={visit} shelf={shelf} shown={shown} />
      <ShelfCautions pairs={shelf.cautions} />
      {standings.length === 0 && <p class="empty">Nothing is kept on the shelf yet.</p>}
      {shown.map((standing) => (
        <Kept
          key={standing.item.id}
          visit={visit}
          standing={standing}
          today={today}
          open={kind !== undefined}
        />
      ))}
    </ShelfFrame>
  );
}

interface KeptProps {
  visit: StaffVisit;
  standing: Standing;
  today: Temporal.PlainDate;
  /** Whether its bottles are in sight at once. */
  open: boolean;
}

function Kept({ visit, standing, today, open }: KeptProps) {
  const { item, live, unusable, promised } = standing;
  const one = oneOf(item);
  const many = one === 'box' ? 'boxes' : `${one}s`;
  return (
    <section class="kept">
      <h2>
        <a href={shelfPath(visit, `/items/${item.id}`)}>{item.name}</a>
      </h2>
      <Levels {...standing} />
      {promised && <p>{promisedInWords(promised, item)}</p>}
      {live.length === 0 && <p class="empty">None on the shelf.</p>}
      {live.length > 0 && (
        <details open={open}>
          <summary>{counted(live.length, one, many)}</summary>
          <Bottles visit={visit} item={item} lots={live} today={today} />
        </details>
      )}
      {unusable.length > 0 && (
        <details>
          <summary>{counted(unusable.length, 'that cannot be used', 'that cannot be used')}</summary>
          <Bottles visit={visit} item={item} lots={unusable} today={today} />
        </details>
      )}
    </section>
  );
}

function Kinds({
  visit,
  standings,
  kind,
}: {
  visit: StaffVisit;
  standings: Standing[];
  kind: ItemKind | undefined;
}) {
  const there = itemKind.options.filter((one) => standings.some(({ item }) => item.kind === one));
  if (there.length < 2) return null;
  return (
    <nav class="actions" aria-label="Kinds of things">
      <a href={shelfPath(visit)} aria-current={kind === undefined ? 'true' : undefined}>
        All
      </a>
      {there.map((one) => (
        <a key={one} href={shelfPath(visit, `?kind=${one}`)} aria-current={one === kind ? 'true' : undefined}>
          {KIND_WORDS[one]}
        </a>
      ))}
    </nav>
  );
}

/** Bottles, but also what the law or good sense wants renewed: eyewash, extinguisher, the first-aid course. */
function EndingSoon({ visit, shelf, shown }: { visit: StaffVisit; shelf: WholeShelf; shown: Standing[] }) {
  const { lots, today } = shelf;
  const soon = ending(lots, today).filter((lot) => shown.some(({ item }) => item.id === lot.itemId));
  if (soon.length === 0) return null;
  return (
    <Card title="Runs out soon, or has">
      <ul class="bottles">
        {soon.map((lot) => {
          const item = shown.find((one) => one.item.id === lot.itemId)?.item;
          return item && <Bottle key={lot.id} visit={visit} item={item} lot={lot} today={today} />;
        })}
      </ul>
    </Card>
  );
}

interface BottlesProps {
  visit: StaffVisit;
  item: Item;
  lots: Lot[];
  today: Temporal.PlainDate;
}

export function Bottles({ visit, item, lots, today }: BottlesProps) {
  if (lots.length === 0) return null;
  return (
    <ul class="bottles">
      {lots.map((lot) => (
        <Bottle key={lot.id} visit={visit} item={item} lot={lot} today={today} />
      ))}
    </ul>
  );
}

function Bottle({ visit, item, lot, today }: Omit<BottlesProps, 'lots'> & { lot: Lot }) {
  const mark = markOf(lot, today);
  const peroxide = peroxideInWords(item, lot, today);
  return (
    <li>
      <a href={shelfPath(visit, `/bottles/${lot.id}`)}>{lot.label}</a>
      <strong>{formatQuantity(lot.onHand, item.unit)}</strong>
      <span class="small">
        {lot.reserved > 0n && `${formatQuantity(lot.reserved, item.unit)} set aside, `}
        {endInWords(lot, today)}
        {peroxide && `; ${peroxide}`}
        {lot.state === 'suspect' && lot.stateNote !== '' && `; ${lot.stateNote}`}
      </span>
      {mark && <Tag tone={mark.tone}>{mark.words}</Tag>}
    </li>
  );
}

/** "Still to be mixed for given places: 250 mL, the first for Friday 14 May, by Friday 7 May 2027." */
export function promisedInWords({ quantity, action, by, late, neededOn }: Promised, { unit }: Item): string {
  const amount = formatQuantity(quantity, unit, 'up');
  if (action === null || by === null) return `${amount} more are promised, and cannot be had.`;
  const first = `the first for ${shortDay(neededOn)}, by ${dayInWords(by)}${late ? ', which is past' : ''}`;
  return `Still to be ${action === 'mix' ? 'mixed' : 'ordered'} for given places: ${amount}, ${first}.`;
}
