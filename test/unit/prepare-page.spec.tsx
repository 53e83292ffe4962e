// The page of preparation: what its first line says of the two weeks to come.
import { expect, it } from '@jest/globals';
import { PreparePage } from '../../src/desk/prepare.pages.js';
import type { DueTask } from '../../src/stock/due.calc.js';
import type { Preparation } from '../../src/stock/preparation.service.js';
import { day, text, visitOf } from '../support/desk-props.js';

const found = {
  tasks: [],
  sizes: [],
  days: [],
  ahead: [],
  today: day('2026-11-25'),
} as unknown as Preparation;
const mix: DueTask = {
  key: 'mix',
  by: day('2026-11-28'),
  what: 'Mix developer',
  why: 'First needed on Friday.',
  path: '/shelf',
};
const page = (due: DueTask[]) => text(PreparePage({ visit: visitOf('owner'), found, due }));

it('says that nothing is left only where nothing is to be mixed, ordered or looked after either', () => {
  expect(page([])).toContain('Nothing is left to do in the next two weeks.');
  for (const due of [mix, { ...mix, alarm: true as const }]) {
    const words = page([due]);
    expect(words).not.toContain('Nothing is left');
    expect(words).toContain('No task is left in the next two weeks but what stands below.');
    expect(words).toContain('Mix developer');
  }
});
