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
  testTimeout: process.env.PLATEDAY_DEEP ? 600_000 : 30_000,
};
