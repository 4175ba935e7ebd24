/** The player's settings file: settings.yaml (or .json) in the data folder, written by hand, all of it optional. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HARD, type Syllables } from '../../music/tongue/syllables.ts';
import type { Gain, Hertz, Milliseconds } from '../../common/units.ts';
import { type FileTrouble, troubleLine } from '../../plan/file/place-in-file.ts';
import type { OwnKeys } from '../../ui/keys.ts';
import { DAY_START } from '../clock.ts';
import { reasonOf } from './data-folder.ts';

export interface Settings {
  /** The player's own keys, by action. */
  readonly keys: OwnKeys;
  readonly volume: { readonly click: Gain; readonly drone: Gain };
  /** How long after the click the player's taps arrive, measured or set; positive is late. */
  readonly tapOffset: Milliseconds;
  readonly a4: Hertz;
  /** Short name of an instrument, see `music/pitch/instruments`; null leaves it to the routine. */
  readonly instrument: string | null;
  /** The tongue's syllables: t-k, d-g, or the player's own pair. */
  readonly syllables: Syllables;
  /** Accidentals as letters a terminal surely has: 'Bb' instead of 'B♭'. */
  readonly plainLetters: boolean;
  /** Sound level at the player's ear in dB(A), as they measured it; null when they did not. */
  readonly level: number | null;
  /** Minutes after midnight at which the player's day starts. */
  readonly dayStart: number;
  /** Sound device by name; null is the system's default. */
  readonly device: string | null;
  /** 'safe' holds more sound ready, for a machine with both hands full. */
  readonly latency: 'low' | 'safe';
}

export const DEFAULT_SETTINGS: Settings = {
  keys: {},
  volume: { click: 0.8, drone: 0.4 },
  tapOffset: 0,
  a4: 440,
  instrument: null,
  syllables: HARD,
  plainLetters: false,
  level: null,
  dayStart: DAY_START,
  device: null,
  latency: 'low',
};

export interface ReadSettings {
  readonly settings: Settings;
  /** One sentence for each mistake; what it is about keeps its default. */
  readonly troubles: readonly string[];
}

/** In this order; the first that is there counts. */
const NAMES = ['settings.yaml', 'settings.yml', 'settings.json'] as const;

type Found = { readonly name: string; readonly text: string } | { readonly trouble: string };

function find(folder: string): Found | null {
  for (const name of NAMES) {
    try {
      return { name, text: readFileSync(join(folder, name), 'utf8') };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') continue;
      return { trouble: `${join(folder, name)} cannot be read: ${reasonOf(error)}.` };
    }
  }
  return null;
}

const untouched = (troubles: readonly string[]): ReadSettings => ({ settings: DEFAULT_SETTINGS, troubles });

/** Reads the settings of a data folder; without a file they are the defaults. */
export async function readSettings(folder: string): Promise<ReadSettings> {
  const found = find(folder);
  if (!found) return untouched([]);
  if ('trouble' in found) return untouched([found.trouble]);
  return parseSettings(found.text, found.name);
}

const inWords = (troubles: readonly FileTrouble[]): readonly string[] => troubles.map(troubleLine);

/** YAML, and with it JSON. The parser is loaded only here: most players have no settings file. */
export async function parseSettings(text: string, file: string): Promise<ReadSettings> {
  const [{ readYaml }, { checkSettings }] = await Promise.all([
    import('../../plan/file/yaml-places.ts'),
    import('./settings-check.ts'),
  ]);
  const yaml = readYaml(text, file);
  if ('troubles' in yaml) return untouched(inWords(yaml.troubles));
  const { settings, mistakes } = checkSettings(yaml.value);
  const troubles = mistakes.map(({ path, key, sentence }) => ({
    file,
    ...yaml.place(path, key ? 'key' : 'value'),
    sentence,
  }));
  return { settings, troubles: inWords(troubles) };
}
