/** The same score and the same mixer as in practice, into a file. */
import { existsSync, writeSync } from 'node:fs';
import { createFile, replaceFile } from '../../disk/whole-file.ts';
import { EXACT_ZERO, seconds } from '../../music/time/exact-seconds.ts';
import type { Drone, Span } from '../../music/sound/sound-commands.ts';
import { chainSpans, spanEnd } from '../../music/sound/timeline.ts';
import type { FrameRate, Frames, Gain, Seconds } from '../../common/units.ts';
import { encodeMidi } from './midi.ts';
import { type Kit, mix } from '../mix/mixer.ts';
import { EMPTY_SCORE, type Score } from '../mix/score.ts';
import { loadKit } from '../mix/click-voices.ts';
import { type SampleFormat, encodeSamples, wavHeader } from './wav.ts';

/** What is to be rendered: finite spans, and a drone under all of them. */
export interface Rendering {
  readonly spans: readonly Span[];
  readonly drone: Drone | null;
  readonly volume: { readonly click: Gain; readonly drone: Gain };
}

/** In which the last click and the drone die away. */
const TAIL: Seconds = 0.5;
const CHUNK: Seconds = 1;

const level = (to: Gain): Score['click'] => ({ at: -1, from: to, to });

/** How long the spans last. An endless one counts as none. */
export function lengthOf(rendering: Rendering): Seconds {
  const last = chainSpans(rendering.spans, EXACT_ZERO).at(-1);
  return last ? seconds(spanEnd(last) ?? last.start) : 0;
}

/** The score of a rendering; it begins at moment 0. */
function scoreOf(rendering: Rendering): Score {
  const end = lengthOf(rendering);
  return {
    ...EMPTY_SCORE,
    tracks: [{ chain: chainSpans(rendering.spans, EXACT_ZERO), audibleFrom: -Infinity, until: end }],
    drones: rendering.drone ? [{ drone: rendering.drone, from: 0, until: end }] : [],
    click: level(rendering.volume.click),
    drone: level(rendering.volume.drone),
  };
}

/** Its bars and nothing more, so that it can be looped; with a tail, what dies away after them too. */
const framesOf = (rendering: Rendering, rate: FrameRate, hasTail: boolean): Frames =>
  hasTail ? Math.ceil((lengthOf(rendering) + TAIL) * rate) : Math.round(lengthOf(rendering) * rate);

/** What dies away after the last bar: in a loop it sounds on into the first. */
const tailOf = (score: Score, kit: Kit, end: Frames): Float32Array =>
  mix(score, kit, end, Math.min(end, Math.ceil(TAIL * kit.rate)));

/** The sound in chunks of a second; memory does not grow with its length. */
function* renderChunks(rendering: Rendering, kit: Kit, hasTail: boolean): Generator<Float32Array> {
  const score = scoreOf(rendering);
  const total = framesOf(rendering, kit.rate, hasTail);
  const chunk = CHUNK * kit.rate;
  const before = hasTail ? new Float32Array(0) : tailOf(score, kit, total);
  for (let from = 0; from < total; from += chunk) {
    const sound = mix(score, kit, from, Math.min(chunk, total - from));
    yield from < before.length ? sound.map((x, i) => x + (before[from + i] ?? 0)) : sound;
  }
}

/** Without `force`, EEXIST is thrown where the file is there. An unfinished file never has the name. */
function writeFile(path: string, force: boolean, write: (file: number) => void): void {
  if (force) return replaceFile(path, write);
  // Before the work: a file that is there is said at once.
  if (existsSync(path)) throw Object.assign(new Error(`EEXIST: ${path}`), { code: 'EEXIST' });
  createFile(path, write);
}

/** The system may take a part of the bytes only. */
function writeAll(file: number, bytes: Uint8Array): number {
  for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
  return bytes.length;
}

/** Writes a WAV file. Throws what the file system throws. */
export function renderWav(
  path: string,
  rendering: Rendering,
  options: { rate: FrameRate; format: SampleFormat; force: boolean; tail: boolean },
): void {
  const kit = loadKit(options.rate);
  const header = wavHeader(framesOf(rendering, options.rate, options.tail), options.rate, options.format);
  writeFile(path, options.force, (file) => {
    let bytes = 0;
    writeAll(file, header);
    for (const chunk of renderChunks(rendering, kit, options.tail))
      bytes += writeAll(file, encodeSamples(chunk, options.format));
    if (bytes % 2 === 1) writeAll(file, new Uint8Array(1));
  });
}

/** Writes a Standard MIDI File. Throws what the file system throws. */
export function renderMidi(path: string, rendering: Rendering, options: { force: boolean }): void {
  const bytes = encodeMidi(rendering.spans, rendering.drone);
  writeFile(path, options.force, (file) => void writeAll(file, bytes));
}
