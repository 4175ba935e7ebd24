/** A WAV file of the player's as a click: what may be one, where it begins, and how loud it is made. */
import { readBounded } from '../../disk/bounded-file.ts';
import { type Sound, decodeWav } from '../file/wav.ts';

/**
 * The program's own sounds: a wood block, two sticks, a struck plate, a small drum, a short plain tone. Each has a
 * file for the first beat and groups, and one for the rest.
 */
export const VOICES: readonly string[] = ['wood', 'stick', 'bell', 'drum', 'tone'];

export const LONGEST_SECONDS = 2;
const LARGEST_BYTES = 4_000_000;

/**
 * The sound begins where it is first heard, and is as loud as the others: otherwise its beat would come late or shout.
 */
function prepare(sound: Sound): Sound | string {
  const peak = sound.samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);
  if (!(peak > 0.001) || !Number.isFinite(peak)) return 'it is silent';
  const start = sound.samples.findIndex((x) => Math.abs(x) > peak * 0.05);
  if (sound.samples.length - start > LONGEST_SECONDS * sound.rate)
    return `it is longer than ${LONGEST_SECONDS} seconds`;
  return { rate: sound.rate, samples: sound.samples.slice(start).map((x) => (x * 0.9) / peak) };
}

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EFTYPE: 'it is not an ordinary file',
  EFBIG: `it is larger than ${LARGEST_BYTES / 1e6} MB`,
};

export function readSound(path: string): Sound | string {
  try {
    return decodeWav(readBounded(path, LARGEST_BYTES));
  } catch (error) {
    return WHY[(error as NodeJS.ErrnoException).code ?? ''] ?? 'it cannot be read';
  }
}

/** One sentence: what cannot be a click, why, and what would be right. */
export const notASound = (path: string, why: string): string =>
  `Click sound ${JSON.stringify(path)}: ${why}; give a WAV file of at most ${LONGEST_SECONDS} seconds, ` +
  `or one of ${VOICES.join(', ')}.`;

/** Reads the player's own click sound, or says in one sentence why it cannot be one. */
export function readOwnSound(path: string): Sound | string {
  const read = readSound(path);
  const ready = typeof read === 'string' ? read : prepare(read);
  return typeof ready === 'string' ? notASound(path, ready) : ready;
}
