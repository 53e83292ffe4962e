// Jest runs ESM through swc; NODE_OPTIONS=--experimental-vm-modules is set by the npm scripts.
const swc = ['@swc/jest', {}];
export default {
  testEnvironment: 'node',
  roots: ['<rootDir>/test'],
  testMatch: ['**/*.spec.ts', '**/*.spec.tsx'],
  transform: { '^.+\\.tsx?$': swc },
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  moduleNameMapper: { '^(\\.{1,2}/.*)\\.js$': '$1' },
  testTimeout: 30_000,
};
