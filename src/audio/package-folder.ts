/** Where the program itself lies: what it brings along is found from here, in the sources as in the bundle. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The nearest folder upward that holds package.json, `routines/` and `sounds/`. Throws where there is none. */
export function packageRoot(from = dirname(fileURLToPath(import.meta.url))): string {
  if (existsSync(join(from, 'package.json'))) return from;
  const above = dirname(from);
  if (above === from) throw new Error('package.json is missing above the program');
  return packageRoot(above);
}

export const soundsFolder = (): string => join(packageRoot(), 'sounds');
export const childEntry = (): string => join(packageRoot(), 'dist', 'audio', 'child.js');
