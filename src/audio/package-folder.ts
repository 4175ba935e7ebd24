import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * The package's own folder: the nearest one upward that holds package.json, from the source and from the bundle alike.
 */
export function packageRoot(from = dirname(fileURLToPath(import.meta.url))): string {
  const parent = dirname(from);
  return existsSync(join(from, 'package.json')) || parent === from ? from : packageRoot(parent);
}

export const soundsFolder = (): string => join(packageRoot(), 'sounds');
export const childEntry = (): string => join(packageRoot(), 'dist', 'audio', 'child.js');
