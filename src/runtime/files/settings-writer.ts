/** Writes one setting into the player's settings file and leaves everything else in it as it stands, comments too. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Gain } from '../../common/units.ts';

export interface KeptSettings {
  readonly volume: { readonly click: Gain; readonly drone: Gain };
}

const NAMES = ['settings.yaml', 'settings.yml', 'settings.json'] as const;

interface Found {
  readonly path: string;
  readonly text: string;
}

/** The file that counts, or the one that is to be made. */
function findFile(folder: string): Found {
  for (const name of NAMES) {
    const path = join(folder, name);
    try {
      return { path, text: readFileSync(path, 'utf8') };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  return { path: join(folder, NAMES[0]), text: '' };
}

/** A sentence when it could not be kept. A file that cannot be read as YAML is not touched. */
export async function keepSettings(folder: string, { volume }: KeptSettings): Promise<string | null> {
  const { isMap, parseDocument } = await import('yaml');
  try {
    const { path, text } = findFile(folder);
    const document = parseDocument(text);
    if (document.errors.length > 0 || (document.contents !== null && !isMap(document.contents))) {
      return 'The volume could not be kept: settings.yaml has mistakes in it.';
    }
    document.setIn(['volume'], document.createNode({ click: volume.click, drone: volume.drone }));
    // A new file beside it, then its name: a power cut leaves the one or the other, never half of one.
    const next = path.endsWith('.json') ? `${JSON.stringify(document.toJS(), null, 2)}\n` : document.toString();
    writeFileSync(`${path}.new`, next);
    renameSync(`${path}.new`, path);
    return null;
  } catch {
    return 'The volume could not be kept: settings.yaml cannot be written.';
  }
}
