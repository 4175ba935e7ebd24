/** A WAV file of any length, read in blocks: what is held of it is never more than one of them. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { reasonOf } from '../../common/file-reasons.ts';
import type { FrameRate, Frames } from '../../common/units.ts';
import { type SampleCoding, codingOf, mixDown } from './wav.ts';

export interface WavBlocks {
  readonly rate: FrameRate;
  /** As many as there are bytes for, whatever the header says. */
  readonly frames: Frames;
  /** Whether the header speaks of more sound than there is. */
  readonly cutOff: boolean;
  /** Channels mixed into one; empty at the end. */
  readonly next: () => Float32Array;
  /** From the first frame again. */
  readonly rewind: () => void;
  readonly close: () => void;
}

/** Frames of one block. */
const BLOCK: Frames = 32_768;
/** More chunks before the sound are no sound file of a sane program. */
const MOST_CHUNKS = 1000;
/** A format chunk is 16 to 40 bytes. */
const LONGEST_FORMAT = 64;

const HUGE = 0xffffffff;

function bytesAt(file: number, at: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  return bytes.subarray(0, readSync(file, bytes, 0, length, at));
}

interface Layout {
  readonly coding: SampleCoding;
  readonly from: number;
  readonly bytes: number;
  readonly said: number;
}

/** Walks the chunks without reading them. */
function layoutOf(file: number, size: number): Layout | string {
  const head = bytesAt(file, 0, 12);
  if (head.length < 12 || head.toString('latin1', 0, 4) !== 'RIFF' || head.toString('latin1', 8, 12) !== 'WAVE')
    return 'it is not a WAV file';
  let format: Buffer | null = null;
  for (let at = 12, count = 0; at + 8 <= size && count < MOST_CHUNKS; count++) {
    const chunk = bytesAt(file, at, 8);
    const [name, length] = [chunk.toString('latin1', 0, 4), chunk.readUInt32LE(4)];
    if (name === 'fmt ') format = bytesAt(file, at + 8, Math.min(length, LONGEST_FORMAT));
    if (name === 'data') {
      const coding = format === null ? 'it is a WAV file without sound in it' : codingOf(format);
      if (typeof coding === 'string') return coding;
      // A program that writes while it records may leave no length, or the greatest.
      const said = length === 0 ? size - at - 8 : length;
      return { coding, from: at + 8, bytes: Math.min(said, size - at - 8), said };
    }
    at += 8 + length + (length % 2);
  }
  return 'it is a WAV file without sound in it';
}

function blocksOf(file: number, { coding, from, bytes, said }: Layout): WavBlocks {
  const frameBytes = coding.channels * coding.bytes;
  const frames = Math.floor(bytes / frameBytes);
  let at = 0;
  const next = (): Float32Array => {
    const count = Math.min(BLOCK, frames - at);
    const data = count > 0 ? bytesAt(file, from + at * frameBytes, count * frameBytes) : Buffer.alloc(0);
    at += count;
    return mixDown(data, coding);
  };
  return {
    rate: coding.rate,
    frames,
    cutOff: said > bytes && said < HUGE - 100,
    next,
    rewind: () => void (at = 0),
    close: () => closeSync(file),
  };
}

/** Opens a file; what is wrong with it as a clause without a full stop. */
export function openWav(path: string): WavBlocks | string {
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch (error) {
    return reasonOf(error, 'read');
  }
  try {
    const stat = fstatSync(file);
    const layout = stat.isFile() ? layoutOf(file, stat.size) : 'it is no file';
    if (typeof layout !== 'string') return blocksOf(file, layout);
    closeSync(file);
    return layout;
  } catch (error) {
    closeSync(file);
    return reasonOf(error, 'read');
  }
}
