// Loaded before everything else in the processes of jest, by NODE_OPTIONS of the npm script "jest", and in those that tests
// start of TypeScript files.
import { register } from 'node:module';

register('./read-typescript.mjs', import.meta.url);
