/** Writes what a screen changed into the player's settings file; everything else in it stays as it stands. */
import { accessSync } from 'node:fs';
import { join } from 'node:path';
import { fileMishap, isMishap } from '../../common/mishap.ts';
import { changeFile } from '../own/file-changed-once.ts';
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
  const values = valuesOf([SETTINGS.volume.name], writtenAs('volume', volume));
  let isSound = true;
  try {
    // A data folder that is away is not made anew for its levels.
    accessSync(folder);
    // What an editor writes meanwhile is read again, and stays.
    changeFile(file.path, (text) => {
      const after = withValues(text, values);
      isSound = after !== null;
      return after;
    });
    return isSound ? null : notKept(`${file.path} has mistakes in it.`);
  } catch (error) {
    return notKept(fileMishap(error, file.path, 'written').sentence);
  }
}
