// What plates take out of one bath, by its own measurements and the usual figures: behind "how was this reckoned?".
import { type LearnedLoss, USUAL_LOSS_AREA } from '../../chemistry/bath-loss.calc.js';
import { type BathLoss, DEFAULT_LOSS } from '../../chemistry/bath-strength.calc.js';
import { plateAreaUm2, UM2_PER_SQUARE_INCH } from '../../chemistry/plate-sizes.calc.js';
import { counted } from '../../lib/words.js';
import { Table } from '../../platform/html/kit/table.js';
import type { PlateSize } from '../../stock/stock.schemas.js';

export function OwnLoss({ loss, size }: { loss: LearnedLoss; size: PlateSize | undefined }) {
  const inches = size ? Number(plateAreaUm2(size.widthMm, size.heightMm)) / Number(UM2_PER_SQUARE_INCH) : 1;
  const row = (name: string, { filmMg, dragOutUl }: BathLoss) => [
    name,
    `${rounded((filmMg * inches) / 1000)} g`,
    `${rounded((dragOutUl * inches) / 1000)} mL`,
  ];
  const plates = Math.round(USUAL_LOSS_AREA / inches);
  return (
    <details>
      <summary>What one plate takes</summary>
      <Table
        caption={size ? `Out of the bath, for ${size.name}` : 'Out of the bath, for a square inch'}
        columns={[
          { head: 'By' },
          { head: 'Silver nitrate in the film', figures: true },
          { head: 'Bath carried off', figures: true },
        ]}
        rows={[
          row('The usual figures', DEFAULT_LOSS.likely),
          ...(loss.own ? [row('Its own measurements', loss.own)] : []),
          row('Reckoned with', loss.loss.likely),
        ]}
      />
      <p class="small">
        {loss.own
          ? `Its own are told by ${counted(loss.runs, 'stretch', 'stretches')} between two measurements with nothing added in them. `
          : 'Its own are not known yet: they want two measurements with plates and nothing added between them. '}
        The usual figures count as {counted(plates, 'plate')} of its own, and so still weigh{' '}
        {Math.round(loss.usualWeight * 100)} %. Silver lost to filters and spills counts as if films had taken
        it.
      </p>
    </details>
  );
}

const rounded = (value: number): string => String(Number(value.toPrecision(3)));
