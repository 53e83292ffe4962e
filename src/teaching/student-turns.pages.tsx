// The own turns of who signed up, once the owner keeps them. The others of the day are told by their first name only.
import { Card } from '../platform/html/kit/facts.js';
import { useWords } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import { timetableOf } from './rota-timetable.calc.js';
import { timetableRows } from './rota-words.calc.js';
import type { Student } from './teaching.schemas.js';
import type { Turns } from './turns.schemas.js';

export interface OwnTurnsProps {
  kept: Turns;
  /** Laid for other people or another bench than the day has now. */
  stale: boolean;
  students: readonly Pick<Student, 'id' | 'name'>[];
  names: ReadonlyMap<string, string>;
}

/** Nothing for students that the kept turns do not know yet. */
export function OwnTurns({ kept: { bench, rota, told }, stale, students, names }: OwnTurnsProps) {
  const words = useWords();
  const { turns } = words.student;
  const known = new Set(bench.students.map(({ id }) => id));
  const own = students.filter(({ id }) => known.has(id) && !told.gone.includes(id));
  if (own.length === 0) return null;
  const nameOf = (id: string) =>
    own.find((one) => one.id === id)?.name ?? names.get(id)?.split(' ')[0] ?? turns.somebody;
  return (
    <Card title={turns.title}>
      <p>{stale ? turns.stale : turns.kept}</p>
      {own.map(({ id, name }) => (
        <Table
          key={id}
          caption={name}
          columns={[{ head: turns.when }, { head: turns.what }]}
          rows={timetableRows(timetableOf(bench, rota, id), nameOf, words)}
          empty={turns.none(name)}
          steady
        />
      ))}
    </Card>
  );
}
