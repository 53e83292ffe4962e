// Each import rule of .dependency-cruiser.cjs bites: its fixture tree breaks it in the lines marked
// "refused" and nowhere else. The rules then have to hold for the real src.
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, relative } from 'node:path';
import { cruise, type ICruiseOptions, type ICruiseResult, type IFlattenedRuleSet } from 'dependency-cruiser';

const root = join(import.meta.dirname, '../..');
const fixtures = join(import.meta.dirname, 'fixtures/imports');
const { forbidden, options } = createRequire(import.meta.url)(join(root, '.dependency-cruiser.cjs')) as {
  forbidden: NonNullable<IFlattenedRuleSet['forbidden']>;
  options: ICruiseOptions;
};
const ruleNames = [...new Set(forbidden.map((rule) => rule.name ?? ''))].sort();

/** Every import under `folder`/src that a rule refuses: "file: specifier: rules". */
async function refusals(folder: string): Promise<string[]> {
  const asked = { ...options, baseDir: folder, validate: true, ruleSet: { forbidden } };
  const { modules } = (await cruise(['src'], asked)).output as ICruiseResult;
  expect(modules.length).toBeGreaterThan(0);
  return modules
    .flatMap(({ source, dependencies }) =>
      dependencies
        .filter(({ valid }) => !valid)
        .map((to) => `${source}: ${to.module}: ${to.rules?.map((rule) => rule.name)}`),
    )
    .sort();
}

/** The lines of a fixture tree that its author marked as breaking `rule`. */
function marked(folder: string, rule: string): string[] {
  return readdirSync(join(folder, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .flatMap((entry) => {
      const file = join(entry.parentPath, entry.name);
      const found = readFileSync(file, 'utf8').matchAll(/from '(?:node:)?(.+)'; \/\/ refused$/gm);
      return [...found].map(([, specifier]) => `${relative(folder, file)}: ${specifier}: ${rule}`);
    })
    .sort();
}

describe('import rules', () => {
  it('have one fixture tree each', () => {
    expect(readdirSync(fixtures).sort()).toEqual(ruleNames);
  });

  it.each(ruleNames)('%s refuses the marked lines of its fixture and no other line', async (rule) => {
    const folder = join(fixtures, rule);
    const expected = marked(folder, rule);
    expect(expected).not.toEqual([]);
    expect(await refusals(folder)).toEqual(expected);
  });

  it('hold for the program itself', async () => {
    expect(await refusals(root)).toEqual([]);
  });

  it('give every feature folder its place in the order', () => {
    const ordered = forbidden.filter((rule) => rule.name === 'feature-order').map((rule) => rule.from.path);
    const folders = readdirSync(join(root, 'src'), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && !['platform', 'words', 'lib'].includes(entry.name))
      .map((entry) => `^src/(${entry.name})/`);
    expect(ordered).toEqual(expect.arrayContaining(folders));
  });
});
