// Which statements are kept prepared: those asked often, each under a name of its own, and not without end.
import { expect, it } from '@jest/globals';
import { Prepared } from '../../src/platform/db/prepared.js';

const often = (prepared: Prepared, sql: string) =>
  Array.from({ length: 20 }, () => prepared.nameOf(sql)).at(-1);

it('keeps a statement once it was asked twenty times, under the same name from then on', () => {
  const prepared = new Prepared();
  const names = Array.from({ length: 21 }, () => prepared.nameOf('select 1 from a'));
  expect(names.slice(0, 19).every((name) => name === null)).toBe(true);
  expect(names[19]).toMatch(/^often 1\.\d+$/);
  expect(names[20]).toBe(names[19]);
});

it('keeps nothing that is no look at rows and no change of them', () => {
  for (const sql of ['savepoint part', 'declare one cursor for select 1', 'fetch 2 from one'])
    expect(often(new Prepared(), sql)).toBeNull();
});

it('gives each its own name, and none any more once there are two hundred', () => {
  const prepared = new Prepared();
  const names = Array.from({ length: 300 }, (_, n) => often(prepared, `select ${n} from b`));
  const given = names.filter((name) => name !== null);
  expect(new Set(given).size).toBe(given.length);
  expect(given).toHaveLength(200);
  expect(names.at(-1)).toBeNull();
});

it('gives other names once all are prepared anew', () => {
  const prepared = new Prepared();
  const before = often(prepared, 'select 1 from c');
  prepared.anew();
  expect(prepared.nameOf('select 1 from c')).toBeNull();
  const after = often(prepared, 'select 1 from c');
  expect(after).not.toBeNull();
  expect(after).not.toBe(before);
});
