// Names the folder of this test run. Nothing is started here: runs of unit tests need no database,
// and the first createTestDatabase() starts the server (see postgres.ts).
import { randomBytes } from 'node:crypto';
import { readFileSync, statfsSync } from 'node:fs';
import { freemem, tmpdir } from 'node:os';
import { join } from 'node:path';

const IN_MEMORY = '/dev/shm';
/** A run's databases and their log need less than half of it. */
const BYTES_NEEDED = 4e9;

export default function globalSetup() {
  process.env.PLATEDAY_TEST_RUN ??= join(
    process.env.TMPDIR || !hasRoomInMemory() ? tmpdir() : IN_MEMORY,
    `plateday-test-${process.pid}-${randomBytes(4).toString('hex')}`,
  );
}

/** A new database is seven hundred files: on a disk that takes half a second, in memory none. */
function hasRoomInMemory() {
  try {
    const mounts = readFileSync('/proc/mounts', 'utf8').split('\n');
    const options = mounts.map((line) => line.split(' ')).find(([, at]) => at === IN_MEMORY)?.[3];
    const { bavail, bsize } = statfsSync(IN_MEMORY);
    // PostgreSQL's programs may have to be copied there, and started.
    const usable = options?.split(',').includes('rw') && !options.includes('noexec');
    return usable && bavail * bsize > BYTES_NEEDED && freemem() > 2 * BYTES_NEEDED;
  } catch {
    return false; // not Linux
  }
}
