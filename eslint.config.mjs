// ESLint does what Biome cannot: rules that need types, our bans, and the length of files.
// Each ban is shown to bite by the marked lines in test/architecture/fixtures/bans.
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

const ban = (selector, message) => ({ selector, message });
const call = (object, ...names) =>
  `MemberExpression[object.name="${object}"][property.name=/^(${names.join('|')})$/]`;

/** Node's zone data is older than ours, and the computer's own zone is nobody's studio. */
const ZONES = [
  ban(
    ':matches(MemberExpression[property.name="ZonedDateTime"], TSQualifiedName[right.name="ZonedDateTime"])',
    'Zone arithmetic goes through lib/zoned-time.ts, whose zone data is newer than Node’s.',
  ),
  ban(
    'MemberExpression[property.name=/^toZonedDateTime/]',
    'Zone arithmetic goes through lib/zoned-time.ts, whose zone data is newer than Node’s.',
  ),
  ban(
    ':matches(MemberExpression[object.name="Intl"][property.name="DateTimeFormat"], TSQualifiedName[right.name="DateTimeFormat"])',
    'Intl.DateTimeFormat uses Node’s zone data; write dates from PlainDate and lib/zoned-time.ts.',
  ),
  ban(
    'MemberExpression[property.name=/^((get|set)(Date|Day|Month|Year|FullYear|Hours|Minutes|Seconds|Milliseconds)|getTimezoneOffset|toDateString|toTimeString)$/]',
    'This Date method speaks of the computer’s own zone; use Temporal.',
  ),
  ban(
    'MemberExpression[property.name=/^toLocale(Date|Time)?String$/]',
    'toLocaleString depends on the computer’s language and zone; numbers have Intl.NumberFormat, dates their words.',
  ),
  ban(
    ':matches(NewExpression[callee.name="Date"][arguments.length>1], NewExpression[callee.name="Date"] > Literal[value=/./]:first-child, MemberExpression[object.name="Date"][property.name="parse"])',
    'This reads a date in the computer’s own zone; use Temporal.',
  ),
];

/** Time and chance come in through Clock and Random, so that a test can simulate a year. */
const CLOCK_AND_CHANCE = [
  ban(
    `:matches(${call('Date', 'now')}, ${call('Temporal', 'Now')}, NewExpression[callee.name="Date"][arguments.length=0], CallExpression[callee.name="Date"])`,
    'Ask the injected Clock for the time (platform/clock.ts).',
  ),
  ban(
    `:matches(${call('Math', 'random')}, ${call('crypto', 'randomUUID', 'getRandomValues', 'randomBytes')})`,
    'Ask the injected Random for chance (platform/clock.ts).',
  ),
];

const PURE = [
  ban(call('performance', 'now', 'timeOrigin'), 'A calculation is handed the time; it never reads it.'),
];

const SQL_CLOCK =
  '/\\b(now|clock_timestamp|statement_timestamp|transaction_timestamp|timeofday)\\s*\\(|\\b(current_timestamp|current_date|current_time|localtimestamp|localtime)\\b|\\bat\\s+time\\s+zone\\b/i';
const SQL = [
  ban(
    `:matches(Literal[value=${SQL_CLOCK}], TemplateElement[value.raw=${SQL_CLOCK}])`,
    'SQL is handed instants and dates by the injected Clock; it reads no clock and converts no zone.',
  ),
];

const restrict = (...bans) => ({ 'no-restricted-syntax': ['error', ...bans.flat()] });
const lines = (max) => ({ 'max-lines': ['error', { max }] });

export default defineConfig(
  { ignores: ['dist/', 'coverage/', '.plateday/', 'test/architecture/fixtures/'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    files: ['{src,seed,test}/**/*.{ts,tsx}'],
    extends: [tseslint.configs.base],
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/no-unnecessary-condition': [
        'error',
        { allowConstantLoopConditions: 'only-allowed-literals' },
      ],
      '@typescript-eslint/return-await': ['error', 'error-handling-correctness-only'],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
    },
  },
  { files: ['src/**/*.{ts,tsx}'], rules: { ...lines(300), 'max-lines-per-function': ['error', 80] } },
  { files: ['test/**/*.{ts,tsx}'], rules: lines(400) },
  { files: ['src/**/*.{ts,tsx}'], rules: restrict(ZONES, CLOCK_AND_CHANCE) },
  { files: ['src/platform/clock.ts', 'src/platform/random.ts'], rules: restrict(ZONES) },
  { files: ['src/**/*.calc.ts', 'src/lib/**/*.ts'], rules: restrict(ZONES, CLOCK_AND_CHANCE, PURE) },
  {
    files: ['src/**/*.store.ts', 'src/platform/{db,jobs}/**/*.ts'],
    ignores: ['src/platform/db/migrate.ts'], // when a migration was applied is a fact of the real clock
    rules: restrict(ZONES, CLOCK_AND_CHANCE, SQL),
  },
);
