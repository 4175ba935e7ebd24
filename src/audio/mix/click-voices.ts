/** The click sounds: those of the program in `sounds/`, and the player's own WAV files. */
import { isAbsolute, join } from 'node:path';
import type { Layer } from '../../music/sound/click-strokes.ts';
import type { FrameRate, Seconds } from '../../common/units.ts';
import type { Kit } from './mixer.ts';
import { resample } from './resampling.ts';
import { soundsFolder } from '../package-folder.ts';
import { LONGEST_SECONDS, VOICES, readOwnSound, readSound } from './own-click-sound.ts';

/** A sound that begins at full height cracks; this rise is too short to be heard as one. */
const RISE: Seconds = 0.0001;

/** The samples raised from zero at the first to their own height. */
function fromZero(samples: Float32Array, rate: FrameRate): Float32Array {
  const rise = Math.ceil(RISE * rate);
  return samples.map((x, i) => (i < rise ? x * (0.5 - 0.5 * Math.cos((Math.PI * i) / rise)) : x));
}

const LONGEST_BUILT_IN = 0.15;
/** How far an own sound is raised for the first beat, as a ratio: a major third. */
const ACCENT = 1.26;

/** Whether a voice names a file of the player's rather than one of the program's sounds. */
export const isOwnSound = (voice: string): boolean => !VOICES.includes(voice);

/** What is wrong with a voice's name or file, as one sentence, or null. */
export function voiceProblem(voice: string): string | null {
  if (!isOwnSound(voice)) return null;
  const read = readOwnSound(voice);
  return typeof read === 'string' ? read : null;
}

interface Pair {
  readonly high: Float32Array;
  readonly low: Float32Array;
}

function ownPair(path: string, rate: FrameRate): Pair | null {
  // A relative path means nothing to another process.
  const sound = isAbsolute(path) ? readOwnSound(path) : null;
  if (sound === null || typeof sound === 'string') return null;
  const at = (from: FrameRate): Float32Array => fromZero(resample(sound.samples, from, rate), rate);
  return { high: at(sound.rate * ACCENT), low: at(sound.rate) };
}

function builtIn(name: string, rate: FrameRate): Float32Array {
  const sound = readSound(join(soundsFolder(), name));
  if (typeof sound === 'string') throw new Error(`sounds/${name}: ${sound}`);
  return fromZero(resample(sound.samples, sound.rate, rate), rate);
}

const builtInPair = (voice: string, rate: FrameRate): Pair => ({
  high: builtIn(`${voice}-high.wav`, rate),
  low: builtIn(`${voice}-low.wav`, rate),
});

/** The sounds at a rate, read from disk as they are first asked for. */
export function loadKit(rate: FrameRate): Kit {
  const pairs = new Map<string, Pair>();
  const pairOf = (voice: string): Pair => {
    const pair =
      pairs.get(voice) ?? (isOwnSound(voice) ? (ownPair(voice, rate) ?? pairOf('wood')) : builtInPair(voice, rate));
    pairs.set(voice, pair);
    return pair;
  };
  return {
    rate,
    click: (voice: string, layer: Layer) =>
      layer === 'bar' || layer === 'group' ? pairOf(voice).high : pairOf(voice).low,
    chime: builtIn('chime.wav', rate),
    // Only a sound of the player's own can be long; looking back for its tail costs time.
    get longest() {
      return Math.ceil(rate * ([...pairs.keys()].some(isOwnSound) ? LONGEST_SECONDS : LONGEST_BUILT_IN));
    },
  };
}
