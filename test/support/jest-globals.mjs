// What tests import from '@jest/globals': the functions that the runner has set for all.
export const { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest, test } = globalThis;
