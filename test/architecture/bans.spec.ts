// The bans and typed rules of eslint.config.mjs bite: ESLint refuses exactly the marked lines of the
// fixture tree, each by the rule named there.
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

const root = join(import.meta.dirname, '../..');
const folder = join(import.meta.dirname, 'fixtures/bans');

function refusals(): string[] {
  const program = join(root, 'node_modules/eslint/bin/eslint.js');
  const { stdout, stderr } = spawnSync(
    process.execPath,
    [program, '--config', join(root, 'eslint.config.mjs'), '--format', 'json', 'src'],
    { cwd: folder, encoding: 'utf8', env: { ...process.env, NODE_OPTIONS: '' } },
  );
  if (stdout === '') throw new Error(`ESLint said nothing. ${stderr}`);
  const files = JSON.parse(stdout) as {
    filePath: string;
    messages: { line: number; ruleId: string | null; message: string }[];
  }[];
  return files
    .flatMap(({ filePath, messages }) =>
      messages.map(({ line, ruleId, message }) => {
        const rule = ruleId?.replace('@typescript-eslint/', '') ?? message;
        return `${relative(folder, filePath)}:${line} ${rule}`;
      }),
    )
    .sort();
}

function marked(): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) =>
      readFileSync(join(folder, name), 'utf8')
        .split('\n')
        .flatMap((line, at) => {
          const rule = / \/\/ refused by (.+)$/.exec(line)?.[1];
          return rule ? [`${name}:${at + 1} ${rule}`] : [];
        }),
    )
    .sort();
}

it('ESLint refuses the marked lines, by the rule named there, and no other line', () => {
  expect(marked().length).toBeGreaterThan(30);
  expect(refusals()).toEqual(marked());
});
