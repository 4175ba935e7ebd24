import { realpathSync } from 'node:fs';
import { sep } from 'node:path';

/** Whether a path lies in a folder once all links are followed. What is missing does: reading it says so. */
export function isInside(path: string, folder: string): boolean {
  try {
    const whole = realpathSync(folder);
    return realpathSync(path).startsWith(whole.endsWith(sep) ? whole : whole + sep);
  } catch {
    return true;
  }
}
