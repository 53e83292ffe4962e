// From which bottle each need of a sitting is set aside, and with one tap from another.
import { formatQuantity } from '../../lib/quantity-text.js';
import { Form } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { SetAside } from '../../stock/stock.schemas.js';

export interface SetAsideProps {
  setAside: SetAside[];
  /** Where a choice is sent. */
  action: string;
  formToken: string;
}

const ASKED = { fresh: ' (a fresh one)', any: '', old: ' (an old one)' };

export function SetAsideTable({ setAside, action, formToken }: SetAsideProps) {
  const byName = [...setAside].sort((a, b) => (a.item.name < b.item.name ? -1 : 1));
  return (
    <Table
      caption="Set aside for this sitting"
      columns={[{ head: 'What' }, { head: 'How much' }, { head: 'From' }, { head: 'Or from' }]}
      rows={byName.map((one) => [
        `${one.item.name}${ASKED[one.class]}`,
        formatQuantity(one.quantity, one.item.unit),
        `${fromInWords(one)}${one.lotId !== null && one.lotId === one.chosenLotId ? ', as you chose' : ''}`,
        isFirst(byName, one) ? <Others key="others" one={one} action={action} formToken={formToken} /> : '',
      ])}
      empty="Nothing is set aside for this sitting."
    />
  );
}

const fromInWords = ({ lotLabel, item }: SetAside) =>
  lotLabel ?? (item.ripenDays !== null ? 'to be mixed' : 'to be ordered');

/** A need that is taken from several bottles has its choice once. */
const isFirst = (all: SetAside[], one: SetAside) =>
  all.find(({ item, class: asked }) => item.id === one.item.id && asked === one.class) === one;

function Others({ one, action, formToken }: { one: SetAside; action: string; formToken: string }) {
  const others = one.couldGive.filter(({ lotId }) => lotId !== one.lotId);
  if (others.length === 0 && one.chosenLotId === null) return <>no other</>;
  return (
    <Form action={action} csrf={formToken}>
      <input type="hidden" name="itemId" value={one.item.id} />
      <input type="hidden" name="neededOn" value={one.neededOn.toString()} />
      <input type="hidden" name="class" value={one.class} />
      {others.map(({ lotId, label }) => (
        <button key={lotId} type="submit" class="plain" name="lotId" value={lotId}>
          {label}
          <span class="unseen"> for {one.item.name}</span>
        </button>
      ))}
      {one.chosenLotId !== null && (
        <button type="submit" class="plain" name="lotId" value="">
          let the rule choose<span class="unseen"> {one.item.name}</span>
        </button>
      )}
    </Form>
  );
}
