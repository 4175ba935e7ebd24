/** Writes what a screen changed into the player's settings file; everything else in it stays as it stands. */
import { accessSync } from 'node:fs';
import { join } from 'node:path';
import { fileMishap, isMishap } from '../../common/mishap.ts';
import { changeFile } from '../own/file-changed-once.ts';
import type { WrittenValue } from '../../plan/file/yaml-edit.ts';
import type { ChangedSettings } from '../../practice/settings.ts';
import { SETTINGS_FILES, findSettings } from './settings.ts';
import type { Settings } from './settings-defaults.ts';

type Scalar = string | number | readonly string[] | null;

const isGroup = (written: unknown): written is Readonly<Record<string, unknown>> =>
  typeof written === 'object' && written !== null && !Array.isArray(written);

/** A group's values one by one: `valuesOf(['volume'], { click: 85 })` is `[[['volume', 'click'], 85]]`. */
const valuesOf = (path: readonly string[], written: unknown): readonly WrittenValue[] =>
  isGroup(written)
    ? Object.entries(written).flatMap(([name, value]) => valuesOf([...path, name], value))
    : [[path, written as Scalar]];

const notKept = (what: string, why: string): string => `The ${what} could not be kept: ${why}`;

/** What was called otherwise before keeps its old name in a file that has it. */
const OLD_SOUND_DELAY = /^["']?tap offset["']?\s*:/m;

type Table = typeof import('./settings-table.ts');

function nameOf(field: keyof Settings, { SETTINGS }: Table, text: string): string {
  return field === 'tapOffset' && OLD_SOUND_DELAY.test(text) ? 'tap offset' : SETTINGS[field].name;
}

/** What is no setting any more leaves the file. */
function valueIn(field: keyof Settings, changed: ChangedSettings, { writtenAs }: Table): unknown {
  const value = changed[field];
  return value === null || value === undefined ? null : writtenAs(field, value);
}

/** Keys that are the program's own again. */
const keysGone = ({ keys }: ChangedSettings, before: ChangedSettings): readonly WrittenValue[] =>
  keys === undefined
    ? []
    : Object.keys(before.keys ?? {})
        .filter((action) => !Object.hasOwn(keys, action))
        .map((action) => [['keys', action], null] as const);

/**
 * A sentence when it could not be kept. A file that cannot be read as YAML is not touched.
 * @param before what it was, to take out of the file what is no more
 */
export async function keepSettings(
  folder: string,
  changed: ChangedSettings,
  before: ChangedSettings = {},
): Promise<string | null> {
  const [table, { withValues }] = await Promise.all([
    import('./settings-table.ts'),
    import('../../plan/file/yaml-edit.ts'),
  ]);
  const fields = Object.keys(changed) as (keyof Settings)[];
  const what = fields.every((field) => field === 'volume') ? 'levels' : 'settings';
  const file = findSettings(folder) ?? { path: join(folder, SETTINGS_FILES[0]), text: '' };
  if (isMishap(file)) return notKept(what, file.sentence);
  const valuesFor = (text: string): readonly WrittenValue[] =>
    fields.flatMap((field) => valuesOf([nameOf(field, table, text)], valueIn(field, changed, table)));
  let isSound = true;
  try {
    // A data folder that is away is not made anew for its levels.
    accessSync(folder);
    // What an editor writes meanwhile is read again, and stays.
    changeFile(file.path, (text) => {
      const after = withValues(text, [...valuesFor(text), ...keysGone(changed, before)]);
      isSound = after !== null;
      return after;
    });
    return isSound ? null : notKept(what, `${file.path} has mistakes in it.`);
  } catch (error) {
    return notKept(what, fileMishap(error, file.path, 'written').sentence);
  }
}
