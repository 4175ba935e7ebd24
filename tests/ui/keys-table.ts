/** The table of keys as the README has it. */
import { keySign } from '../../src/ui/components/foot-line.ts';
import { KEYS, type KeyRow } from '../../src/ui/keys.ts';

const ALL = new Set(KEYS.flatMap(({ places }) => places)).size;

const row = ({ keys, help, places }: KeyRow): string =>
  `| ${keys.map((key) => `\`${keySign(key)}\``).join(' ')} | ${help} | ` +
  `${places.length === ALL ? 'everywhere' : places.join(', ')} |`;

/** Markdown, a row for each key. */
export const keysTable = (rows: readonly KeyRow[] = KEYS): string =>
  ['| key | what it does | where |', '| --- | --- | --- |', ...rows.map(row)].join('\n');
