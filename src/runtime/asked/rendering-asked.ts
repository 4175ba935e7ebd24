/** What `render` writes: the cycle of one line as it is played in practice, some times over. */
import { extname } from 'node:path';
import { type Rendering, lengthOf, renderMidi, renderWav } from '../../audio/file/rendering.ts';
import type { SampleFormat } from '../../audio/file/wav.ts';
import type { Span } from '../../music/sound/sound-commands.ts';
import type { FrameRate, Seconds } from '../../common/units.ts';
import { harmless } from '../../common/harmless-text.ts';
import { climbNow } from '../../practice/line/line-state.ts';
import { barsOfRepetitions, cycle, flows, runOn } from '../../practice/line/repetition-cycle.ts';
import { type Opening, type Practice, openPractice } from '../../practice/line/line-on-stand.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import type { Settings } from '../files/settings.ts';
import { Trouble } from '../../common/trouble.ts';

export interface RenderAsk {
  readonly opening: Opening;
  /** Bars of each repetition; null leaves them to the exercise. */
  readonly bars: number | null;
  readonly times: number;
  readonly drone: boolean;
  /** Whether the pattern is heard, softly. */
  readonly model: boolean;
  readonly volume: Settings['volume'];
}

/** Count-in, repetition and breath, as many times as asked. A file waits for no mark: each cycle follows the last. */
export function renderingOf(ask: RenderAsk): Rendering {
  const { opening, bars, times } = ask;
  const exercise = { ...opening.exercise, noMark: 'repeat' as const, bars: bars ?? opening.exercise.bars };
  let practice: Practice = { ...openPractice({ ...opening, exercise }), model: ask.model };
  const spans: Span[] = [];
  for (let i = 0; i < times; i++) {
    const { bpm } = climbNow(practice);
    const chain = i > 0 && flows(practice) ? runOn(practice, bpm, 1) : cycle(practice, bpm);
    spans.push(...chain.spans);
    const barsBegun = practice.barsBegun + barsOfRepetitions(chain.spans);
    practice = { ...practice, serial: chain.serial, barsBegun };
  }
  return { spans, drone: ask.drone ? practice.drone : null, volume: ask.volume };
}

export interface FileAsk {
  readonly path: string;
  readonly rate: FrameRate;
  readonly format: SampleFormat;
  /** Lets the last sound die away after the last bar; without it the file can be looped. */
  readonly tail: boolean;
  readonly force: boolean;
}

const isMidi = (path: string): boolean => ['.mid', '.midi'].includes(extname(path).toLowerCase());

function write(rendering: Rendering, { path, rate, format, tail, force }: FileAsk): void {
  if (isMidi(path)) renderMidi(path, rendering, { force });
  else renderWav(path, rendering, { rate, format, tail, force });
}

/** A day: nobody listens longer, and a mistyped number would fill the disk. */
const LONGEST: Seconds = 86_400;

/** Writes the file and returns its length. Throws Trouble where it cannot be written. */
export function renderFile(rendering: Rendering, file: FileAsk): Seconds {
  const shown = harmless(file.path, 200);
  if (!isMidi(file.path) && extname(file.path).toLowerCase() !== '.wav') {
    throw new Trouble(`--out '${shown}': the name must end in .wav or .mid.`);
  }
  if (lengthOf(rendering) > LONGEST)
    throw new Trouble('That would be longer than a day; ask for fewer bars or repetitions.');
  try {
    write(rendering, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      throw new Trouble(`${shown} is already there; --force replaces it.`);
    if (error instanceof RangeError) throw new Trouble(`${shown} cannot be written: ${error.message}.`);
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw new Trouble(`${shown} cannot be written: ${reasonOf(error, 'write')}.`);
  }
  return lengthOf(rendering);
}
