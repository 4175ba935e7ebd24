/** WAV files read in blocks: the same samples as all at once, and what strange files come to. */
import { closeSync, ftruncateSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeWav, wavHeader } from '../../src/audio/file/wav.ts';
import { openWav } from '../../src/audio/file/wav-blocks.ts';
import { itWith } from '../programs.ts';
import { tone } from '../ear/tones.ts';
import { hearTones } from '../../src/runtime/asked/recording-heard.ts';
import { run, scratch } from './programs.ts';

const SAMPLES = new Float32Array(100_001).map((_, i) => Math.sin(i / 9) / 2);

function file(bytes: Buffer): string {
  const path = join(scratch(), 'take.wav');
  writeFileSync(path, bytes);
  return path;
}

function allOf(path: string): Float32Array {
  const wav = openWav(path);
  if (typeof wav === 'string') throw new Error(wav);
  const parts: number[] = [];
  for (let block = wav.next(); block.length > 0; block = wav.next()) parts.push(...block);
  wav.close();
  return Float32Array.from(parts);
}

const head = (bits: number, rate: number): Buffer => {
  const header = Buffer.from(wavHeader(rate, rate, '16'));
  header.writeUInt32LE((rate * bits) / 8, 28);
  header.writeUInt16LE(bits / 8, 32);
  header.writeUInt16LE(bits, 34);
  return header;
};

describe('a WAV file in blocks', () => {
  it.each(['16', '24', 'float'] as const)('of format %s is what was written', (format) => {
    const read = allOf(file(encodeWav({ rate: 48_000, samples: SAMPLES }, format)));
    expect(read.length).toBe(SAMPLES.length);
    read.forEach((x, i) => Math.abs(x - (SAMPLES[i] ?? 0)) > 1 / 32_000 && expect([i, x]).toBeNull());
  });

  it('can be read from its beginning again', () => {
    const wav = openWav(file(encodeWav({ rate: 48_000, samples: SAMPLES }, '16')));
    if (typeof wav === 'string') throw new Error(wav);
    const first = wav.next();
    wav.next();
    wav.rewind();
    expect(wav.next()).toEqual(first);
    wav.close();
  });

  it('whose header lies of its length is read as far as it goes', () => {
    const bytes = encodeWav({ rate: 48_000, samples: SAMPLES }, '16');
    const cut = openWav(file(bytes.subarray(0, 20_044)));
    expect(cut).toMatchObject({ frames: 10_000, cutOff: true });
    bytes.writeUInt32LE(0, 40);
    expect(openWav(file(bytes))).toMatchObject({ frames: SAMPLES.length, cutOff: false });
    bytes.writeUInt32LE(0xffffffff, 40);
    expect(openWav(file(bytes))).toMatchObject({ frames: SAMPLES.length, cutOff: false });
  });

  it('that is none says why', () => {
    expect(openWav(file(Buffer.from('RIFFxxxxWAVE')))).toBe('it is a WAV file without sound in it');
    expect(openWav(file(Buffer.from('hello')))).toBe('it is not a WAV file');
    expect(openWav(file(Buffer.alloc(0)))).toBe('it is not a WAV file');
    const many = Buffer.concat([Buffer.from('RIFFxxxxWAVE'), Buffer.alloc(80_000)]);
    expect(openWav(file(many))).toBe('it is a WAV file without sound in it');
    const odd = Buffer.concat([head(16, 48_000), Buffer.alloc(100)]);
    odd.writeUInt16LE(85, 20);
    expect(openWav(file(odd))).toBe('its coding (format 85, 16 bit) is not PCM or float');
  });
});

const TONE = tone({ hertz: 466.16, seconds: 2, harmonics: [1, 0.5, 0.3], gain: 0.4 });

describe('a recording', () => {
  it('of three hours is heard for ten minutes, and never held whole', () => {
    const path = join(scratch(), 'long.wav');
    const fd = openSync(path, 'w');
    const frames = 3 * 3600 * 48_000;
    const sound = encodeWav({ rate: 48_000, samples: TONE }, '16').subarray(44);
    writeSync(fd, Buffer.concat([wavHeader(frames, 48_000, '16'), sound]));
    ftruncateSync(fd, 44 + 2 * frames);
    closeSync(fd);
    const before = process.memoryUsage().arrayBuffers;
    const { tones, remarks } = hearTones(path, 440);
    expect(tones.map(({ concert }) => concert)).toEqual([70]);
    expect(remarks).toEqual(['Of 180 minutes the first 10 were heard.']);
    // All of it would be 1 GB of the file, or 2 GB of samples.
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(300e6);
  });

  it('of 8 bits is heard', () => {
    const bytes = Buffer.from(TONE.map((x) => Math.round(128 + 127 * x)));
    const { tones } = hearTones(file(Buffer.concat([head(8, 48_000), bytes])), 440);
    expect(tones.map(({ concert, heard }) => [concert, Math.abs(heard.cents) < 1])).toEqual([[70, true]]);
  });

  itWith('sox')('at 192 kHz, in two channels, as sox writes it', () => {
    const path = join(scratch(), 'fast.wav');
    run('sox', ['-n', '-r', '192000', '-b', '24', '-c', '2', path, 'synth', '2', 'sine', '440', 'vol', '0.3']);
    const { tones } = hearTones(path, 440);
    expect(tones.map(({ concert, heard }) => [concert, Math.abs(heard.cents) < 0.5])).toEqual([[69, true]]);
  });

  it('that is too loud is heard, and said to be', () => {
    const loud = TONE.map((x) => Math.max(-1, Math.min(1, 5 * x)));
    const { remarks } = hearTones(file(encodeWav({ rate: 48_000, samples: loud }, '16')), 440);
    expect(remarks.join()).toContain('too loud');
  });
});
