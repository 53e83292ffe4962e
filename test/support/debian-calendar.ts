// Debian's vdirsyncer and khal as somebody would use them: feeds are synchronised by HTTP into folders, then listed on a
// clock of the viewer's own. vdirsyncer gives each event of a web calendar an id of its own making, so that entries are
// told apart by when they start and what they say; khal goes by the zone data of the system.
import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';

const PROGRAMS = ['/usr/bin/vdirsyncer', '/usr/bin/khal'] as const;
const [VDIRSYNCER, KHAL] = PROGRAMS;
const run = promisify(execFile);

export const programsAreThere = () => PROGRAMS.every((program) => existsSync(program));

/** Fetches each feed, by name, into a folder of that name. */
export async function synchronise(folder: string, feeds: Record<string, string>): Promise<void> {
  const parts = Object.entries(feeds).map(([name, url]) => {
    mkdirSync(join(folder, 'calendars', name), { recursive: true });
    return `[pair ${name}]
a = "${name}_here"
b = "${name}_web"
collections = null
conflict_resolution = "b wins"
[storage ${name}_here]
type = "filesystem"
path = "${join(folder, 'calendars', name)}"
fileext = ".ics"
[storage ${name}_web]
type = "http"
url = "${url}"
`;
  });
  const config = join(folder, 'vdirsyncer.conf');
  writeFileSync(config, `[general]\nstatus_path = "${join(folder, 'status')}"\n${parts.join('')}`);
  for (const act of ['discover', 'sync']) await run(VDIRSYNCER, ['-c', config, act], { env: plainly() });
}

export interface Listed {
  feed: string;
  starts: string;
  ends: string;
  summary: string;
  description: string;
  location: string;
  status: string;
}

const FIELDS = [
  'calendar',
  'start-long-full',
  'end-long-full',
  'title',
  'description',
  'location',
  'status',
] as const;
const [RECORD, FIELD] = ['<<<', '|||'];

/** All entries between two dates as khal shows them to a viewer in a zone; times as "2027-03-28 09:30". */
export async function listed(
  folder: string,
  feeds: string[],
  { zone, from, until }: { zone: string; from: string; until: string },
): Promise<Listed[]> {
  const own = join(folder, zone.replace('/', '-'));
  const calendars = feeds.map((name) => `[[${name}]]\npath = ${join(folder, 'calendars', name)}\n`);
  const formats = ['dateformat', 'longdateformat'].map((name) => `${name} = %Y-%m-%d\n`);
  const times = ['datetimeformat', 'longdatetimeformat'].map((name) => `${name} = %Y-%m-%d %H:%M\n`);
  writeFileSync(
    `${own}.conf`,
    `[calendars]\n${calendars.join('')}[locale]\nlocal_timezone = ${zone}\ndefault_timezone = ${zone}
timeformat = %H:%M\n${formats.join('')}${times.join('')}[default]\ndefault_calendar = ${feeds[0]}
[sqlite]\npath = ${own}.db\n`,
  );
  const format = RECORD + FIELDS.map((field) => `{${field}}`).join(FIELD);
  const { stdout } = await run(
    KHAL,
    ['-c', `${own}.conf`, 'list', '--once', '--day-format', '', '--format', format, from, until],
    { env: plainly(), maxBuffer: 64 * 1024 * 1024 },
  );
  return stdout
    .split(RECORD)
    .slice(1)
    .map((record) => {
      const [feed, starts, ends, summary, description, location, status] = record
        .split(FIELD)
        .map((field) => field.trim());
      return { feed, starts, ends, summary, description, location, status } as Listed;
    });
}

/** What the system's own clock shows in a zone at each instant, by ISO text: "2027-03-28 09:30". */
export async function onSystemClock(zone: string, instants: string[]): Promise<Map<string, string>> {
  const texts = [...new Set(instants)];
  if (texts.length === 0) return new Map();
  const running = run('/usr/bin/date', ['-f', '-', '+%Y-%m-%d %H:%M'], { env: { TZ: zone, LC_ALL: 'C' } });
  running.child.stdin?.end(texts.map((text) => `${text}\n`).join(''));
  const shown = (await running).stdout.trimEnd().split('\n');
  return new Map(texts.map((text, at) => [text, shown[at] ?? '']));
}

/** Without colours, in UTF-8, and without what else a test's environment may say. */
const plainly = () => ({ PATH: '/usr/bin:/bin', HOME: '/nonexistent', LC_ALL: 'C.UTF-8', NO_COLOR: '1' });
