import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { DEFAULT_SETTINGS, type Settings } from '../../src/runtime/files/settings-defaults.ts';
import { SETTINGS, writtenAs } from '../../src/runtime/files/settings-table.ts';

const README = new URL('../../README.md', import.meta.url);

const FIELDS = Object.keys(SETTINGS) as readonly (keyof Settings)[];

/** What the setting is when nothing is written, as it would be written. */
function usual(field: keyof Settings): string {
  const value = DEFAULT_SETTINGS[field];
  if (field === 'instrument') return 'the routine’s';
  const written = value === null ? {} : writtenAs(field, value);
  const parts = typeof written === 'object' && written !== null ? Object.entries(written) : [['', written]];
  return parts.map(([name, of]) => `\`${name === '' ? '' : `${name}: `}${of}\``).join(', ');
}

const table = (): string =>
  [
    '| setting | what it is | without it |',
    '| --- | --- | --- |',
    ...FIELDS.map((field) => `| \`${SETTINGS[field].name}\` | ${SETTINGS[field].about} | ${usual(field)} |`),
  ].join('\n');

/** `UPDATE_README=1 npx vitest run … readme-settings` writes the table anew. */
it('the README has the settings as the program has them', () => {
  const text = readFileSync(README, 'utf8');
  const fresh = text.replace(
    /(<!-- settings:[^\n]*-->\n)[\s\S]*?(<!-- \/settings -->)/u,
    (_, from, to) => `${from}${table()}\n${to}`,
  );
  if (process.env['UPDATE_README']) writeFileSync(README, fresh);
  else expect(text).toBe(fresh);
  expect(fresh).toContain(table());
});
