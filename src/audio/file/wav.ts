/**
 * WAV files (RIFF WAVE, PCM and IEEE float), read and written. Source: Microsoft/IBM Multimedia Programming Interface,
 * RIFF WAVE, from memory.
 */
import type { FrameRate } from '../../common/units.ts';

export type SampleFormat = '16' | '24' | 'float';

export interface Sound {
  readonly rate: FrameRate;
  /** One channel, -1 to 1. */
  readonly samples: Float32Array;
}

const BYTES: Readonly<Record<SampleFormat, number>> = { '16': 2, '24': 3, float: 4 };

/** A chunk of a RIFF file: name, length, body. */
const chunk = (name: string, body: Buffer, length = body.length): Buffer => {
  const head = Buffer.alloc(8);
  head.write(name, 0, 'latin1');
  head.writeUInt32LE(length, 4);
  return Buffer.concat([head, body]);
};

function formatChunk(rate: FrameRate, format: SampleFormat): Buffer {
  const bytes = BYTES[format];
  // What is not PCM carries the length of an extension, here none.
  const body = Buffer.alloc(format === 'float' ? 18 : 16);
  body.writeUInt16LE(format === 'float' ? 3 : 1, 0);
  body.writeUInt16LE(1, 2);
  body.writeUInt32LE(rate, 4);
  body.writeUInt32LE(rate * bytes, 8);
  body.writeUInt16LE(bytes, 12);
  body.writeUInt16LE(bytes * 8, 14);
  return chunk('fmt ', body);
}

/** What is not PCM also says how many frames there are. */
function factChunk(frames: number): Buffer {
  const body = Buffer.alloc(4);
  body.writeUInt32LE(frames);
  return chunk('fact', body);
}

/**
 * All that comes before the samples of a mono file of so many frames. Throws RangeError beyond the 4 GB that the
 * format can hold.
 */
export function wavHeader(frames: number, rate: FrameRate, format: SampleFormat): Buffer {
  const data = frames * BYTES[format];
  if (data + 100 > 0xffffffff) throw new RangeError('a WAV file cannot be longer than 4 GB');
  const parts = [
    formatChunk(rate, format),
    ...(format === 'float' ? [factChunk(frames)] : []),
    chunk('data', Buffer.alloc(0), data),
  ];
  const length = parts.reduce((sum, part) => sum + part.length, 0);
  return chunk('RIFF', Buffer.concat([Buffer.from('WAVE', 'latin1'), ...parts]), 4 + length + data + (data % 2));
}

const scaled = (x: number, top: number): number => Math.round(x > 1 ? top : x < -1 ? -top : x * top);

function encode24(samples: Float32Array): Uint8Array {
  const out = new Uint8Array(samples.length * 3);
  samples.forEach((x, i) => {
    const v = scaled(x, 0x7fffff);
    out[i * 3] = v;
    out[i * 3 + 1] = v >> 8;
    out[i * 3 + 2] = v >> 16;
  });
  return out;
}

/**
 * Samples as bytes of the given format, in the little-endian order of the file and of every machine that Node runs on.
 */
export function encodeSamples(samples: Float32Array, format: SampleFormat): Uint8Array {
  if (format === '24') return encode24(samples);
  if (format === 'float') return new Uint8Array(samples.slice().buffer);
  const out = new Int16Array(samples.length);
  for (let i = 0; i < samples.length; i++) out[i] = scaled(samples[i] as number, 0x7fff);
  return new Uint8Array(out.buffer);
}

export const encodeWav = (sound: Sound, format: SampleFormat): Buffer => {
  const data = encodeSamples(sound.samples, format);
  const pad = new Uint8Array(data.length % 2);
  return Buffer.concat([wavHeader(sound.samples.length, sound.rate, format), data, pad]);
};

interface Chunks {
  readonly fmt: Buffer | null;
  readonly data: Buffer | null;
}

function findChunks(file: Buffer): Chunks {
  let fmt: Buffer | null = null;
  let data: Buffer | null = null;
  for (let at = 12; at + 8 <= file.length;) {
    const name = file.toString('latin1', at, at + 4);
    const size = file.readUInt32LE(at + 4);
    const body = file.subarray(at + 8, at + 8 + size);
    if (name === 'fmt ') fmt = body;
    if (name === 'data') data = body;
    at += 8 + size + (size % 2);
  }
  return { fmt, data };
}

type Reader = (data: Buffer, at: number) => number;
const READERS: Readonly<Record<string, Reader>> = {
  '1/8': (d, at) => (d.readUInt8(at) - 128) / 128,
  '1/16': (d, at) => d.readInt16LE(at) / 0x8000,
  '1/24': (d, at) => d.readIntLE(at, 3) / 0x800000,
  '1/32': (d, at) => d.readInt32LE(at) / 0x80000000,
  '3/32': (d, at) => d.readFloatLE(at),
  '3/64': (d, at) => d.readDoubleLE(at),
};

/** How a file's samples are written. */
export interface SampleCoding {
  readonly rate: FrameRate;
  readonly channels: number;
  /** Of one sample. */
  readonly bytes: number;
  readonly read: Reader;
}

/** What a format chunk says, or what is wrong with it. */
export function codingOf(fmt: Buffer): SampleCoding | string {
  if (fmt.length < 16) return 'it is a WAV file without sound in it';
  const tag = fmt.readUInt16LE(0);
  const coding = tag === 0xfffe && fmt.length >= 26 ? fmt.readUInt16LE(24) : tag;
  const [channels, rate, bits] = [fmt.readUInt16LE(2), fmt.readUInt32LE(4), fmt.readUInt16LE(14)];
  const read = READERS[`${coding}/${bits}`];
  if (!read) return `its coding (format ${coding}, ${bits} bit) is not PCM or float`;
  if (channels < 1 || channels > 32 || rate < 8000 || rate > 384_000)
    return `it has ${channels} channels at ${rate} Hz`;
  return { rate, channels, bytes: bits / 8, read };
}

/** Reads a WAV file, channels mixed into one. Returns what is wrong with it, without a full stop, where it is none. */
export function decodeWav(file: Buffer): Sound | string {
  if (file.length < 12 || file.toString('latin1', 0, 4) !== 'RIFF' || file.toString('latin1', 8, 12) !== 'WAVE') {
    return 'it is not a WAV file';
  }
  const { fmt, data } = findChunks(file);
  if (!fmt || !data) return 'it is a WAV file without sound in it';
  const coding = codingOf(fmt);
  return typeof coding === 'string' ? coding : { rate: coding.rate, samples: mixDown(data, coding) };
}

/** Whole frames only; channels mixed into one. */
export function mixDown(data: Buffer, { channels, bytes, read }: Omit<SampleCoding, 'rate'>): Float32Array {
  const frames = Math.floor(data.length / (channels * bytes));
  const samples = new Float32Array(frames);
  for (let i = 0; i < frames; i++) {
    let sum = 0;
    for (let c = 0; c < channels; c++) sum += read(data, (i * channels + c) * bytes);
    samples[i] = sum / channels;
  }
  return samples;
}
