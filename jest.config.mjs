// Jest runs ESM through swc; the npm script "jest" sets the Node option that this takes.
export default {
  testEnvironment: 'node',
  roots: ['<rootDir>/test'],
  testMatch: ['**/*.spec.ts', '**/*.spec.tsx'],
  transform: { '^.+\\.tsx?$': ['@swc/jest', {}] },
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  moduleNameMapper: { '^(\\.{1,2}/.*)\\.js$': '$1' },
  globalSetup: '<rootDir>/test/support/global-setup.ts',
  maxWorkers: 2,
  // modules of a test file are never freed: a worker that holds much spends its time looking for rubbish
  workerIdleMemoryLimit: '1200MB',
  testTimeout: process.env.PLATEDAY_DEEP ? 600_000 : 30_000,
};
