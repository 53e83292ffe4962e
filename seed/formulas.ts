// How the demo studio mixes what it uses: five formulas of the library, and the chemicals for them that were not
// on its shelf yet. Amounts are invented.
import type { INestApplicationContext } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../src/accounts/accounts.schemas.js';
import type { SubstanceKey } from '../src/chemistry/substances.calc.js';
import { wallToInstant } from '../src/lib/zoned-time.js';
import { FormulaViews } from '../src/stock/formula-views.service.js';
import { FormulasService } from '../src/stock/formulas.service.js';
import { ShelfService } from '../src/stock/shelf.service.js';
import { STUDIO } from './kittiwake-yard.js';

/** By the name of what is mixed; '' for something new. The jar of cadmium bromide is of tetrahydrate. */
const TAKEN = [
  { starterKey: 'collodion-estabrooke-p29', made: 'Iodised collodion', bromide: 'tetrahydrate' },
  { starterKey: 'developer-towler-1', made: 'Iron developer' },
  { starterKey: 'fixer-hypo-20-percent', made: 'Hypo fixer' },
  { starterKey: 'varnish-sandarac', made: 'Sandarac varnish' },
  { starterKey: 'bath-9-percent', made: '' },
];

const BOUGHT: { substance: SubstanceKey; label: string; quantity: string }[] = [
  { substance: 'gun-cotton', label: 'Gun-cotton, tin', quantity: '38 g' },
  { substance: 'cadmium iodide', label: 'Cadmium iodide, jar', quantity: '24 g' },
  { substance: 'acetic acid, dilute', label: 'Acetic acid for the developer', quantity: '900 ml' },
  { substance: 'sodium thiosulfate pentahydrate', label: 'Hypo, tub', quantity: '4.2 kg' },
  { substance: 'gum sandarac', label: 'Sandarac, paper bag', quantity: '140 g' },
  { substance: 'lavender oil', label: 'Oil of lavender', quantity: '95 ml' },
];

interface Setting {
  studioId: string;
  owner: Account;
  today: Temporal.PlainDate;
}

/** An hour after the shelf's first things were entered. */
export function formulaHistory(
  app: INestApplicationContext,
  { studioId, owner, today }: Setting,
): { at: Temporal.Instant; act: () => Promise<void> }[] {
  const wall = today.subtract({ weeks: 31 }).toPlainDateTime({ hour: 10 });
  const answer = wallToInstant(STUDIO.zone, wall);
  if (!answer.ok) throw new Error('Clocks do not change in the morning there.');
  const items = async () => (await app.get(FormulaViews).list(studioId)).items;
  const act = async () => {
    for (const { made, ...taken } of TAKEN) {
      const item = (await items()).find(({ name }) => name === made);
      if (made !== '' && !item) throw new Error(`The demo's shelf keeps no ${made}.`);
      await app.get(FormulasService).take(studioId, owner, { ...taken, itemId: item?.id ?? '' });
    }
    for (const { substance, label, quantity } of BOUGHT) {
      const item = (await items()).find((one) => one.substance === substance);
      await app.get(ShelfService).receive(studioId, owner, { itemId: item?.id, quantity, label });
    }
  };
  return [{ at: answer.instant, act }];
}
