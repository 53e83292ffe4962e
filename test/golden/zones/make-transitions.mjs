// Writes transitions.txt from a zoneinfo folder with the zdump program, so that lib/zoned-time.ts can be
// compared with another reader of another compilation of the IANA data. Run after updating moment-timezone:
//   node test/golden/zones/make-transitions.mjs /usr/share/zoneinfo "Debian tzdata 2026f-0+deb12u1"
// from a machine whose tzdata package has the same version.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import moment from 'moment-timezone';

const [folder = '/usr/share/zoneinfo', source = 'unnamed source'] = process.argv.slice(2);
const version = /^# version (\S+)/.exec(readFileSync(join(folder, 'tzdata.zi'), 'utf8'))?.[1];
const zones = moment.tz.names().sort();
const missing = zones.filter((zone) => !existsSync(join(folder, zone)));
if (missing.length > 0) throw new Error(`not in ${folder}: ${missing.join(' ')}`);

const alike = new Map();
for (const zone of zones) {
  const printed = execFileSync('zdump', ['-i', '-c', '2026,2031', join(folder, zone)], { encoding: 'utf8' });
  const lines = printed.trim().split('\n').slice(1).join('\n');
  alike.set(lines, [...(alike.get(lines) ?? []), zone]);
}
const groups = [...alike].map(([lines, names]) => `= ${names.join(' ')}\n${lines}\n`);
const head = `# version ${version}\n# ${source}: zdump -i -c 2026,2031 (local date and time after the change, offset, letters, dst)\n`;
writeFileSync(new URL('transitions.txt', import.meta.url), `${head}\n${groups.join('\n')}`);
