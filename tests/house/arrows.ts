/**
 * The house's arrows: which folder of `src` may import which. The one table; the lint's configuration is made
 * from it (`npm run arrows`), and a test fails when that is out of date.
 */
export const ARROWS: Readonly<Record<string, readonly string[]>> = {
  common: [],
  disk: [],
  music: ['common'],
  ladder: ['common', 'music'],
  diary: ['common', 'music', 'ladder'],
  plan: ['common', 'music', 'ladder', 'diary'],
  practice: ['common', 'music', 'ladder', 'diary', 'plan', 'review'],
  journal: ['common', 'disk', 'music', 'ladder', 'diary'],
  audio: ['common', 'disk', 'music'],
  ear: ['common', 'music'],
  review: ['common', 'music', 'ladder', 'diary', 'plan', 'journal'],
  ui: ['common', 'music', 'ladder', 'diary', 'plan', 'practice', 'review'],
  runtime: [
    'common',
    'disk',
    'music',
    'ladder',
    'diary',
    'plan',
    'practice',
    'journal',
    'audio',
    'ear',
    'review',
    'ui',
  ],
  cli: [
    'common',
    'disk',
    'music',
    'ladder',
    'diary',
    'plan',
    'practice',
    'journal',
    'audio',
    'ear',
    'review',
    'ui',
    'runtime',
  ],
};

/** Pure: no Node module, no React, no clock, no random source; time and chance are arguments. */
export const PURE: readonly string[] = ['common', 'music', 'ladder', 'diary', 'plan', 'practice', 'ear', 'review'];

const OUTSIDE = ['node:*', 'fs', 'path', 'os', 'child_process', 'react', 'ink'];
const CLOCKS = ['Date', 'performance', 'setTimeout', 'setInterval', 'process', 'console'];

const forbidden = (folder: string): object => ({
  group: Object.keys(ARROWS)
    .filter((other) => other !== folder && !ARROWS[folder]?.includes(other))
    .map((other) => `**/${other}/**`),
  message: `${folder} may import ${ARROWS[folder]?.join(', ') || 'nothing'} only (DEVELOPERS.md, 'The house').`,
});

const pure = (folder: string): object => ({
  'no-restricted-globals': ['error', ...CLOCKS],
  'no-restricted-properties': ['error', { object: 'Math', property: 'random', message: 'chance is an argument' }],
  'no-restricted-imports': [
    'error',
    { patterns: [forbidden(folder), { group: OUTSIDE, message: `${folder} is pure: no Node module, no React.` }] },
  ],
});

const rulesOf = (folder: string): object =>
  PURE.includes(folder) ? pure(folder) : { 'no-restricted-imports': ['error', { patterns: [forbidden(folder)] }] };

/** What stands in `.oxlintrc.json`. */
export const lintConfiguration = (): object => ({
  $schema: './node_modules/oxlint/configuration_schema.json',
  plugins: ['typescript', 'react', 'import', 'unicorn'],
  categories: { correctness: 'error', suspicious: 'error' },
  rules: {
    'max-lines': ['error', { max: 350, skipBlankLines: false, skipComments: false }],
    'import/no-cycle': ['error', { ignoreTypes: false }],
    // Long sentences stand on two lines.
    'no-useless-concat': 'off',
    'react/react-in-jsx-scope': 'off',
    'import/no-unassigned-import': 'off',
    'unicorn/no-array-sort': 'off',
  },
  overrides: [
    ...Object.keys(ARROWS)
      .filter((folder) => folder !== 'cli')
      .map((folder) => ({ files: [`src/${folder}/**`], rules: rulesOf(folder) })),
    // A test's small helper stands where it is read.
    { files: ['tests/**'], rules: { 'unicorn/consistent-function-scoping': 'off' } },
  ],
});
