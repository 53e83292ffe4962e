// The thread in which HiGHS solves a plan, so that the web process goes on answering. Plain JavaScript, so that
// the same file runs from the source and from the build. Takes programs one by one; its owner ends it.
import { parentPort } from 'node:worker_threads';
import loadHighs from 'highs';

/** Up to so many columns a program is solved as it is. */
const SMALL = 3000;
/** Points that a column of a large program may be dearer than the relaxed optimum and still be looked at first. */
const NEAR = 40;

const highs = await loadHighs();
const { optimal, empty } = highs.constants.modelStatus;

let milp;
/** When the search has to stop, by performance.now(). */
let stopAt = 0;

parentPort.on('message', (asked) => {
  milp = asked.milp;
  stopAt = performance.now() + asked.seconds * 1000;
  parentPort.postMessage(milp.columns <= SMALL ? whole(milp) : byPrices());
});

/** All points are whole, so nothing better is left once the bound is less than one above. */
function whole(program) {
  const { status, values, bound } = run(program, program.integer, { mip_rel_gap: 0, mip_abs_gap: 0.99 });
  return { proven: status === optimal || status === empty, bound, values };
}

/**
 * A large program: first with fractions allowed, which bounds what can be had and prices every column. A column that
 * would cost more than lies between that bound and a plan in hand is in no better plan (reduced cost fixing), so the
 * program of the near columns alone often proves the whole; if not, the bound still tells how far off it may be.
 */
function byPrices() {
  const relaxed = run(milp, undefined, {});
  if (relaxed.status !== optimal) return { proven: false, bound: null, values: new Float64Array(0) };
  const first = amongNear(relaxed, NEAR);
  if (first.proven || !first.exact) return first;
  const wanted = relaxed.bound - first.total;
  const second = amongNear(relaxed, wanted);
  if (second === null) return first;
  return { ...(second.total >= first.total ? second : first), bound: Math.min(first.bound, second.bound) };
}

/** The best plan of the columns that cost at most so much; null when these are too many. */
function amongNear(relaxed, most) {
  const kept = [];
  for (let at = 0; at < milp.columns; at++) if (relaxed.dual[at] >= -most) kept.push(at);
  if (most !== NEAR && kept.length > SMALL) return null;
  const part = whole(columnsOf(kept));
  const values = new Float64Array(milp.columns);
  let total = 0;
  kept.forEach((at, position) => {
    values[at] = Math.round(part.values[position] ?? 0);
    total += values[at] * milp.cost[at];
  });
  // what the left-out columns could bring is at most the relaxed bound less their price
  const bound = Math.min(relaxed.bound, Math.max(part.bound, relaxed.bound - most));
  return { proven: bound < total + 1, exact: part.proven, bound, total, values };
}

function columnsOf(kept) {
  const starts = [0];
  const indices = [];
  const values = [];
  for (const at of kept) {
    for (let entry = milp.starts[at]; entry < milp.starts[at + 1]; entry++) {
      indices.push(milp.indices[entry]);
      values.push(milp.values[entry]);
    }
    starts.push(indices.length);
  }
  return {
    ...milp,
    columns: kept.length,
    cost: Float64Array.from(kept, (at) => milp.cost[at]),
    integer: Int32Array.from(kept, (at) => milp.integer[at]),
    starts: Int32Array.from(starts),
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
  };
}

function run(program, integrality, options) {
  const { columns: numCols, rows: numRows, starts, indices, values } = program;
  const model = {
    numCols,
    numRows,
    sense: highs.constants.objectiveSense.maximize,
    colCost: program.cost,
    colLower: new Float64Array(numCols),
    colUpper: new Float64Array(numCols).fill(1),
    rowLower: program.rowLower,
    rowUpper: program.rowUpper,
    matrix: { format: 'csc', numRows, numCols, starts, indices, values },
    ...(integrality && { integrality }),
  };
  return highs.withModel(model, (native) => {
    native.options.set({
      output_flag: false,
      time_limit: Math.max(0.05, (stopAt - performance.now()) / 1000),
      random_seed: 1,
      ...options,
    });
    native.run();
    const { colValue, colDual } = native.getSolution();
    return {
      status: native.getModelStatus(),
      bound: integrality ? native.info.get('mip_dual_bound') : native.getObjectiveValue(),
      values: Float64Array.from(colValue ?? []),
      dual: Float64Array.from(colDual ?? []),
    };
  });
}
