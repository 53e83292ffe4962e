// Tests run in plain Node, not each file in a world of its own: what they import is read once for all files of a
// process. The npm script "jest" sets the Node options that this takes.
export default {
  runner: 'jest-light-runner',
  roots: ['<rootDir>/test'],
  testMatch: ['**/*.spec.ts', '**/*.spec.tsx'],
  transform: {},
  globalSetup: '<rootDir>/test/support/global-setup.mjs',
  testSequencer: '<rootDir>/test/support/longest-first.mjs',
  setupFilesAfterEnv: ['<rootDir>/test/support/time-limits.mjs'],
  maxWorkers: 2,
};
