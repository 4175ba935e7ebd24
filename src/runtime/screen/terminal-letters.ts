/** Which letters a terminal has, by what it says of itself. */
import type { Lettering } from '../../music/page/strip.ts';

/** Terminals that have no more than ASCII, or whose font has not the signs: the console of Linux, and none at all. */
const BARE: readonly string[] = ['linux', 'dumb'];

/** The first that is set and not empty decides (POSIX, Base Definitions 8.2). */
const localeOf = (env: NodeJS.ProcessEnv): string => env['LC_ALL'] || env['LC_CTYPE'] || env['LANG'] || '';

/**
 * `plain` is what the settings say. Windows has no locale of this kind, and its terminals know Unicode.
 *
 * `letteringFor(false, { LANG: 'de_DE.ISO-8859-1' }, 'linux')` is 'plain'.
 */
export function letteringFor(plain: boolean, env: NodeJS.ProcessEnv, platform: NodeJS.Platform): Lettering {
  if (plain || BARE.includes(env['TERM'] ?? '')) return 'plain';
  return platform === 'win32' || /utf-?8/i.test(localeOf(env)) ? 'signs' : 'plain';
}
