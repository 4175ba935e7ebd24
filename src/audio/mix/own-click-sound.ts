/** A WAV file of the player's as a click: what may be one, where it begins, and how loud it is made. */
import { readFileSync, statSync } from 'node:fs';
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

export function readSound(path: string): Sound | string {
  try {
    if (statSync(path).size > LARGEST_BYTES) return `it is larger than ${LARGEST_BYTES / 1e6} MB`;
    return decodeWav(readFileSync(path));
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? 'there is no such file' : 'it cannot be read';
  }
}

/** Reads the player's own click sound, or says in one sentence why it cannot be one. */
export function readOwnSound(path: string): Sound | string {
  const read = readSound(path);
  const ready = typeof read === 'string' ? read : prepare(read);
  if (typeof ready !== 'string') return ready;
  return (
    `Click sound ${JSON.stringify(path)}: ${ready}; give a WAV file of at most ${LONGEST_SECONDS} seconds, ` +
    `or one of ${VOICES.join(', ')}.`
  );
}
