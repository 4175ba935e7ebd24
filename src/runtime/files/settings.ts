/** The player's settings file: settings.yaml (or .json) in the data folder, written by hand, all of it optional. */
import { basename, join } from 'node:path';
import { type Mishap, fileMishap, isMishap } from '../../common/mishap.ts';
import { readBounded } from '../../disk/bounded-file.ts';
import { inOrder, troubleLine } from '../../plan/file/place-in-file.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings-defaults.ts';

export { DEFAULT_SETTINGS, type Settings } from './settings-defaults.ts';

export interface ReadSettings {
  readonly settings: Settings;
  /** One sentence for each mistake; what it is about keeps its default. */
  readonly troubles: readonly string[];
}

/** In this order; the first that is there counts. */
export const SETTINGS_FILES = ['settings.yaml', 'settings.yml', 'settings.json'] as const;

const MOST_BYTES = 1_000_000;

export interface SettingsFile {
  readonly path: string;
  readonly text: string;
}

/** The file that counts; null when there is none. */
export function findSettings(folder: string): SettingsFile | Mishap | null {
  for (const name of SETTINGS_FILES) {
    const path = join(folder, name);
    try {
      return { path, text: readBounded(path, MOST_BYTES).toString('utf8') };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') return fileMishap(error, path, 'read');
    }
  }
  return null;
}

const untouched = (troubles: readonly string[]): ReadSettings => ({ settings: DEFAULT_SETTINGS, troubles });

/** Reads the settings of a data folder; without a file they are the defaults. */
export async function readSettings(folder: string): Promise<ReadSettings> {
  const found = findSettings(folder);
  if (found === null) return untouched([]);
  return isMishap(found) ? untouched([found.sentence]) : parseSettings(found.text, basename(found.path));
}

/** YAML, and with it JSON. The libraries are loaded only here: most players have no settings file. */
export async function parseSettings(text: string, file: string): Promise<ReadSettings> {
  const [{ readYaml }, { checkSettings }] = await Promise.all([
    import('../../plan/file/yaml-places.ts'),
    import('./settings-check.ts'),
  ]);
  const yaml = readYaml(text, file);
  if ('troubles' in yaml) return untouched(yaml.troubles.map(troubleLine));
  const { settings, mistakes } = checkSettings(yaml.value);
  const troubles = mistakes.map(({ path, at, sentence }) => ({ file, ...yaml.place(path, at), sentence }));
  return { settings, troubles: inOrder(troubles).map(troubleLine) };
}
