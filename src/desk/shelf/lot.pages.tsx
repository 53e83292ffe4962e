import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { type Fact, Facts } from '../../platform/html/kit/facts.js';
import { TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import type { BottleView } from '../../stock/shelf-views.service.js';
import { AmountField } from './amounts.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { Family, HeldFor, Ledger } from './ledger.pages.js';
import { CLASS_WORDS, endInWords, markOf, oneOf, peroxideInWords } from './words.calc.js';
import { type BottlePageProps, Act } from './lot-act.pages.js';
import { LiveActs, Correct } from './lot-acts.pages.js';

export function BottlePage({ visit, view, formKey, notice, sent }: BottlePageProps) {
  const { item, lot, today } = view;
  const mark = markOf(lot, today);
  const props = { visit, view, formKey, sent };
  return (
    <ShelfFrame visit={visit} title={lot.label} at="" notice={notice} errors={sent?.errors}>
      <p class="big-figure">{formatQuantity(lot.onHand, item.unit, 'exact')}</p>
      {mark && (
        <p>
          <Tag tone={mark.tone}>{mark.words}</Tag> {lot.state === 'suspect' && lot.stateNote}
        </p>
      )}
      <p>{endInWords(lot, today)}</p>
      <Act {...props} act="count" label="Count" button={`That is in the ${oneOf(item)}`}>
        <AmountField name="count-quantity" label="How much is in it?" unit={item.unit} />
        <TextField
          name="count-reason"
          label="Why is it other than it stood?"
          hint="Needed only where it is far from what stood here."
          width="full"
          optional
        />
      </Act>
      {lot.state !== 'gone' && <LiveActs {...props} />}
      <h2>What is known of it</h2>
      <Facts items={factsOf(visit, view)} />
      <HeldFor visit={visit} view={view} />
      <Ledger visit={visit} view={view} />
      <Family visit={visit} view={view} />
      <Correct {...props} />
    </ShelfFrame>
  );
}

function factsOf(visit: StaffVisit, { item, lot, today }: BottleView): Fact[] {
  const told = (term: string, detail: string | null): Fact[] => (detail ? [{ term, detail }] : []);
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit);
  return [
    { term: 'What it is', detail: <a href={shelfPath(visit, `/items/${item.id}`)}>{item.name}</a> },
    { term: 'Usable', detail: endInWords(lot, today) },
    { term: 'Set aside of it', detail: amount(lot.reserved) },
    ...told('Like', item.kind === 'collodion' ? CLASS_WORDS[lot.class] : null),
    ...told('Speed', lot.speedFactor === null ? null : `${lot.speedFactor} times the reference`),
    ...told('Colour', lot.colour),
    ...told('Came', lot.receivedOn && dayInWords(lot.receivedOn)),
    ...told('Opened', lot.openedOn && dayInWords(lot.openedOn)),
    ...told('Peroxides', peroxideInWords(item, lot, today)),
    ...told('Not poured', item.heel > 0n ? `the last ${amount(item.heel)}` : null),
    ...told('On its label', item.hazardNote),
    ...told('Keep it', item.storage),
    ...told('Note', lot.note),
  ];
}
