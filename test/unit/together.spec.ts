// Questions asked together: each gets its own answer, from a look that began after it came.
import fc from 'fast-check';
import { Together } from '../../src/platform/together.js';

it('answers each with its own, from a look that began after it was asked, and few looks for many', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.nat(4), { minLength: 1, maxLength: 40 }), async (pauses) => {
      let asked = 0;
      let looks = 0;
      let running = 0;
      const together = new Together<number, { of: number; seen: number }>(async (questions) => {
        looks += 1;
        running += 1;
        expect(running).toBe(1);
        const seen = asked; // what a look sees is what was there when it began
        await new Promise((done) => setImmediate(done));
        running -= 1;
        return questions.map((of) => ({ of, seen }));
      });
      const answers: Promise<void>[] = [];
      for (const [at, pause] of pauses.entries()) {
        asked += 1;
        const after = asked;
        answers.push(
          together.ask(at).then(({ of, seen }) => {
            expect(of).toBe(at);
            expect(seen).toBeGreaterThanOrEqual(after);
          }),
        );
        for (let turn = 0; turn < pause; turn += 1) await new Promise((done) => setImmediate(done));
      }
      await Promise.all(answers);
      if (pauses.every((pause) => pause === 0)) expect(looks).toBe(1);
    }),
    { numRuns: 50 },
  );
});

it('tells a failure to all who were asked together, and goes on with those who come after', async () => {
  let broken = true;
  const together = new Together<number, number>(async (questions) => {
    if (broken) throw new Error('away');
    return questions;
  });
  const first = await Promise.allSettled([1, 2, 3].map((one) => together.ask(one)));
  expect(first.map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected']);
  broken = false;
  expect(await together.ask(4)).toBe(4);
});
