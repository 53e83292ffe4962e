// Names the folder of this test run. Nothing is started here: runs of unit tests need no database,
// and the first createTestDatabase() starts the server (see postgres.ts).
import { randomBytes } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export default function globalSetup() {
  process.env.PLATEDAY_TEST_RUN ??= join(
    tmpdir(),
    `plateday-test-${process.pid}-${randomBytes(4).toString('hex')}`,
  );
}
