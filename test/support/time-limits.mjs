// Each test and each of its beginnings and ends has its time, as jest gives it: the one named with it, or the one of
// jest.config.mjs. The runner itself would wait for ever. Also keeps NODE_OPTIONS of jest from programs that tests start.
import { addEventHandler } from 'jest-circus';

const USUAL = process.env.PLATEDAY_DEEP ? 600_000 : 30_000;

delete process.env.NODE_OPTIONS;

addEventHandler(({ name, timeout }, { currentDescribeBlock }) => {
  const added = { add_test: 'children', add_hook: 'hooks' }[name];
  const one = added && currentDescribeBlock[added].at(-1);
  if (one?.fn) one.fn = limited(one.fn, timeout ?? USUAL);
});

function limited(act, limit) {
  return async () => {
    let timer;
    const late = new Promise((_, reject) => {
      const error = new Error(`It took longer than ${limit / 1000} seconds.`);
      timer = setTimeout(() => reject(error), limit);
    });
    try {
      await Promise.race([act(), late]);
    } finally {
      clearTimeout(timer);
    }
  };
}
