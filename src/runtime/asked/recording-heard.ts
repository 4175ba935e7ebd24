/** A recording, heard: an exercise against its notes, or whatever tones it holds. Nothing of the sound is kept. */
import { type WavBlocks, openWav } from '../../audio/file/wav-blocks.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';
import type { Hertz, Seconds } from '../../common/units.ts';
import { levelMeter } from '../../ear/band-levels.ts';
import { type ExerciseHeard, exerciseHeard } from '../../ear/exercise-heard.ts';
import { type ExpectedNote, expectedAt } from '../../ear/expected-notes.ts';
import { firstSound, loudness } from '../../ear/first-sound.ts';
import { onsetsIn } from '../../ear/onsets.ts';
import { type Reading, listener } from '../../ear/sound-readings.ts';
import { type ToneHeard, tonesHeard } from '../../ear/tones-heard.ts';

/** More is not read: nobody plays one thing for longer. */
export const LONGEST: Seconds = 600;

/** A rate above this is halved until it is not: no pitch of a wind instrument needs more. */
const FASTEST_RATE = 64_000;

/** At full scale the tops of the waves are cut off. */
const FULL = 0.999;

/** Sound in blocks at a rate that the ear takes. */
interface Source {
  readonly rate: number;
  readonly next: () => Float32Array;
  readonly rewind: () => void;
  readonly close: () => void;
  readonly seconds: Seconds;
  readonly cutOff: boolean;
}

/** Means of so many frames each. */
function thinned(block: Float32Array, by: number): Float32Array {
  if (by === 1) return block;
  const out = new Float32Array(Math.floor(block.length / by));
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let k = 0; k < by; k++) sum += block[i * by + k] as number;
    out[i] = sum / by;
  }
  return out;
}

function sourceOf(wav: WavBlocks): Source {
  let by = 1;
  while (wav.rate / by > FASTEST_RATE) by *= 2;
  const { rewind, close, cutOff } = wav;
  return {
    rate: wav.rate / by,
    next: () => thinned(wav.next(), by),
    rewind,
    close,
    cutOff,
    seconds: wav.frames / wav.rate,
  };
}

function opened(path: string): Source {
  const wav = openWav(path);
  if (typeof wav !== 'string') return sourceOf(wav);
  throw new Trouble(`${harmless(path, 200)} cannot be heard: ${wav}; give a WAV file.`);
}

/** Block by block from the beginning, until so many seconds are heard. */
function hearUntil(source: Source, end: Seconds, hear: (block: Float32Array) => void): void {
  source.rewind();
  let left = Math.ceil(end * source.rate);
  for (let block = source.next(); block.length > 0 && left > 0; block = source.next()) {
    hear(left < block.length ? block.subarray(0, left) : block);
    left -= block.length;
  }
}

export interface RecordingHeard {
  readonly seconds: Seconds;
  /** What the player should know of the recording, in sentences. */
  readonly remarks: readonly string[];
}

interface Opening {
  readonly first: Seconds | null;
  readonly remarks: readonly string[];
}

/** Looks at the level first: where playing begins, and whether it can be judged at all. */
function openingOf(source: Source): Opening {
  const meter = loudness(source.rate);
  hearUntil(source, LONGEST, meter.hear);
  const clipped = meter.peak() >= FULL;
  const remarks = [
    ...(source.cutOff ? ['The file ends before its header says so; what is there was heard.'] : []),
    ...(source.seconds > LONGEST
      ? [`Of ${Math.round(source.seconds / 60)} minutes the first ${LONGEST / 60} were heard.`]
      : []),
    ...(clipped ? ['It is too loud: the tops are cut off. Turn the recording down and play again.'] : []),
  ];
  return { first: firstSound(meter.levels()), remarks };
}

export interface HearExercise {
  readonly path: string;
  readonly notes: readonly ExpectedNote[];
  /** When the first beat is, from the beginning of the file; null looks for the first sound that lasts. */
  readonly start: Seconds | null;
}

const NOTHING = 'nothing sounds in it that lasts; look at the level of the recording';

/** What comes after the last note still belongs to it. */
const AFTER: Seconds = 0.3;

function using<T>(path: string, hear: (source: Source) => T): T {
  const source = opened(path);
  try {
    return hear(source);
  } finally {
    source.close();
  }
}

/** @throws Trouble for a file that cannot be heard, or is silent. */
export const hearExercise = ({
  path,
  notes,
  start,
}: HearExercise): RecordingHeard & { readonly heard: ExerciseHeard } =>
  using(path, (source) => {
    const { first, remarks } = openingOf(source);
    if (first === null) throw new Trouble(`${harmless(path, 200)} cannot be heard: ${NOTHING}.`);
    const begun = start ?? first - (notes[0]?.from ?? 0);
    const end = begun + (notes.at(-1)?.to ?? 0) + AFTER;
    const ear = listener(source.rate, (at) => expectedAt(notes, at - begun)?.hertz ?? null);
    const meter = levelMeter(source.rate);
    const readings: Reading[] = [];
    hearUntil(source, Math.min(end, LONGEST), (block) => {
      for (const reading of ear.hear(block)) readings.push(reading);
      meter.hear(block);
    });
    const heard = exerciseHeard(notes, { readings, onsets: onsetsIn(meter.levels()), start: begun });
    return { seconds: source.seconds, remarks, heard };
  });

/** Whatever tones there are. @throws Trouble like `hearExercise`. */
export const hearTones = (path: string, a4: Hertz): RecordingHeard & { readonly tones: readonly ToneHeard[] } =>
  using(path, (source) => {
    const { first, remarks } = openingOf(source);
    if (first === null) throw new Trouble(`${harmless(path, 200)} cannot be heard: ${NOTHING}.`);
    const ear = listener(source.rate, () => null);
    const readings: Reading[] = [];
    hearUntil(source, LONGEST, (block) => {
      for (const reading of ear.hear(block)) readings.push(reading);
    });
    return { seconds: source.seconds, remarks, tones: tonesHeard(readings, a4) };
  });
