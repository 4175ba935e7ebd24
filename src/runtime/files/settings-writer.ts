/** Writes what a screen changed into the player's settings file; everything else in it stays as it stands. */
import { join } from 'node:path';
import { fileMishap, isMishap } from '../../common/mishap.ts';
import { replaceFile } from '../../disk/whole-file.ts';
import type { WrittenValue } from '../../plan/file/yaml-edit.ts';
import { SETTINGS_FILES, findSettings } from './settings.ts';
import type { Settings } from './settings-defaults.ts';

/** What the screens change. */
export type KeptSettings = Pick<Settings, 'volume'>;

/** A group's values one by one: `valuesOf(['volume'], { click: 85 })` is `[[['volume', 'click'], 85]]`. */
const valuesOf = (path: readonly string[], written: unknown): readonly WrittenValue[] =>
  typeof written === 'object' && written !== null
    ? Object.entries(written).flatMap(([name, value]) => valuesOf([...path, name], value))
    : [[path, written as string | number]];

const notKept = (why: string): string => `The levels could not be kept: ${why}`;

/** A sentence when it could not be kept. A file that cannot be read as YAML is not touched. */
export async function keepSettings(folder: string, { volume }: KeptSettings): Promise<string | null> {
  const [{ SETTINGS, writtenAs }, { withValues }] = await Promise.all([
    import('./settings-table.ts'),
    import('../../plan/file/yaml-edit.ts'),
  ]);
  const file = findSettings(folder) ?? { path: join(folder, SETTINGS_FILES[0]), text: '' };
  if (isMishap(file)) return notKept(file.sentence);
  const text = withValues(file.text, valuesOf([SETTINGS.volume.name], writtenAs('volume', volume)));
  if (text === null) return notKept(`${file.path} has mistakes in it.`);
  try {
    replaceFile(file.path, text);
    return null;
  } catch (error) {
    return notKept(fileMishap(error, file.path, 'written').sentence);
  }
}
