// The turns of every student on a teaching day's sheet, as they are kept.
import { timetableOf } from '../../teaching/rota-timetable.calc.js';
import type { TurnsService } from '../../teaching/turns.service.js';
import { TurnsTable } from './turns-table.pages.js';

export type KeptTurns = Awaited<ReturnType<TurnsService['kept']>>;

export function SheetTurns({ kept }: { kept: KeptTurns }) {
  if (!kept) return <p>No turns are kept for this day.</p>;
  const { bench, rota, told } = kept.kept;
  const nameOf = (id: string) => kept.names.get(id) ?? 'somebody';
  return (
    <>
      {kept.stale && <p>The turns were laid for other people or another bench: please lay them again.</p>}
      {bench.students
        .filter(({ id }) => !told.gone.includes(id))
        .map(({ id }) => (
          <TurnsTable key={id} name={nameOf(id)} lines={timetableOf(bench, rota, id)} nameOf={nameOf} />
        ))}
    </>
  );
}
