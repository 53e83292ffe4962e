import type { StaffVisit } from '../../accounts/visits.service.js';
import { substanceOf } from '../../chemistry/substances.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup } from '../../platform/html/kit/choices.js';
import { type Fact, Facts } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import { WITH_A_USUAL } from '../../stock/usual.calc.js';
import { onTheWay } from '../../stock/levels.calc.js';
import type { ItemView } from '../../stock/shelf-views.service.js';
import { type Item } from '../../stock/stock.schemas.js';
import type { Supplier } from '../../stock/suppliers.schemas.js';
import type { Notice } from '../frame.pages.js';
import { Levels } from './amounts.pages.js';
import { Hazards } from './cautions.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { ItemAheadSection } from './item-ahead.pages.js';
import { Bottles, promisedInWords } from './overview.pages.js';
import { KIND_WORDS, oneOf } from './words.calc.js';
import { type SentItem, Settings, answersOf } from './item-settings.pages.js';

interface ItemPageProps {
  visit: StaffVisit;
  view: ItemView;
  notice?: Notice | undefined;
  sent?: SentItem | undefined;
}

export function ItemPage({ visit, view, notice, sent }: ItemPageProps) {
  const { standing, horizon, today, gone, orders } = view;
  const { item } = standing;
  const one = oneOf(item);
  return (
    <ShelfFrame visit={visit} title={item.name} at="" notice={notice} errors={sent?.errors}>
      <Levels {...standing} />
      {standing.promised && <p>{promisedInWords(standing.promised, item)}</p>}
      {orders.length > 0 && (
        <p>
          On its way: {formatQuantity(onTheWay(orders), item.unit)}, the next expected on{' '}
          {orders[0] && dayInWords(orders[0].expectedOn)}.
        </p>
      )}
      <p class="actions">
        <a class="button primary" href={shelfPath(visit, `/receive?item=${item.id}`)}>
          A {one} has come
        </a>
      </p>
      <h2>On the shelf</h2>
      <Bottles visit={visit} item={item} lots={[...standing.live, ...standing.unusable]} today={today} />
      {standing.live.length + standing.unusable.length === 0 && <p class="empty">None.</p>}
      {gone.length > 0 && (
        <details>
          <summary>{counted(gone.length, `${one} that is gone`, `that are gone`)}</summary>
          <Bottles visit={visit} item={item} lots={gone} today={today} />
        </details>
      )}
      <ItemAheadSection visit={visit} horizon={horizon} itemId={item.id} />
      <h2>How it is bought and kept</h2>
      <Facts items={factsOf(item, view.suppliers)} />
      {item.formulaId !== null && (
        <p class="alone">
          <a href={shelfPath(visit, `/formulas/${item.formulaId}`)}>How it is mixed</a>
        </p>
      )}
      {(item.kind === 'chemical' || item.hCodes.length > 0 || item.hazardNote !== '') && (
        <Hazards ingredients={[{ name: item.name, substance: item.substance, item }]} />
      )}
      {visit.account.role === 'owner' && (
        <details open={sent !== undefined}>
          <summary>Change this</summary>
          <Form
            action={shelfPath(visit, `/items/${item.id}`)}
            csrf={visit.formToken}
            label="How it is bought and kept"
            shown={answersOf(item)}
            values={sent?.values ?? answersOf(item)}
            errors={sent?.errors ?? []}
          >
            <Settings unit={item.unit} suppliers={view.suppliers} />
            {WITH_A_USUAL.includes(item.kind) && (
              <CheckboxGroup
                name="usual"
                label="Which one serves?"
                hint="Of several that could, one is the usual. To change it, tick another one’s."
                options={[{ value: 'yes', label: 'The usual one: sittings are reckoned with it' }]}
                values={item.usual ? ['yes'] : []}
              />
            )}
            <CheckboxGroup
              name="archived"
              label="Still kept?"
              options={[{ value: 'yes', label: 'Not kept any more: nothing is asked for of it' }]}
              values={item.archived ? ['yes'] : []}
            />
            <Button>Save</Button>
          </Form>
        </details>
      )}
    </ShelfFrame>
  );
}

function factsOf(item: Item, suppliers: Supplier[]): Fact[] {
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit);
  const told = (term: string, detail: string | null): Fact[] => (detail ? [{ term, detail }] : []);
  const days = (count: number | null) => (count === null ? null : counted(count, 'day'));
  return [
    { term: 'Kind', detail: [KIND_WORDS[item.kind], item.surface].filter(Boolean).join(', ') },
    ...told('Supplier', suppliers.find(({ id }) => id === item.supplierId)?.name ?? null),
    ...told('From order to arrival', days(item.leadDays ?? item.supplierLeadDays)),
    ...told(
      'Pack',
      item.packQuantity === null ? null : `${amount(item.packQuantity)}, at least ${item.leastPacks}`,
    ),
    ...told('Mixed here', item.ripenDays === null ? null : `ready after ${days(item.ripenDays)}`),
    { term: 'Keeps', detail: days(item.lifeDays) ?? 'does not run out' },
    ...told('Once opened', days(item.openedLifeDays)),
    ...told('Heel', item.heel > 0n ? amount(item.heel) : null),
    ...told('Least pour', item.leastPour > 0n ? amount(item.leastPour) : null),
    ...told('Most kept', item.mostOnHand === null ? null : amount(item.mostOnHand)),
    ...told('Substance', substanceOf(item.substance)?.name ?? item.substance),
    ...told('Keep it', item.storage),
    ...told('Transport', item.noPost ? 'cannot go by post or air' : null),
  ];
}
