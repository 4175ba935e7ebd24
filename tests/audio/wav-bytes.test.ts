/**
 * The bytes of WAV files, against the layout of RIFF WAVE (Multimedia Programming Interface and Data Specifications
 * 1.0, and WAVEFORMATEXTENSIBLE; from memory) and against sox.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Sound, decodeWav, encodeSamples, encodeWav, wavHeader } from '../../src/audio/file/wav.ts';
import { itWith } from '../programs.ts';
import { run, scratch } from './programs.ts';

const two = (value: number): string => Buffer.from([value & 255, value >> 8]).toString('hex');
const four = (value: number): string => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes.toString('hex');
};
const word = (text: string): string => Buffer.from(text, 'latin1').toString('hex');

/** A file of chunks; the length of each stands before it, and an odd one is padded. */
function riff(...chunks: readonly (readonly [string, Buffer])[]): Buffer {
  const bodies = chunks.map(([name, body]) =>
    Buffer.concat([Buffer.from(word(name) + four(body.length), 'hex'), body, Buffer.alloc(body.length % 2)]),
  );
  const all = Buffer.concat([Buffer.from('WAVE'), ...bodies]);
  return Buffer.concat([Buffer.from(word('RIFF') + four(all.length), 'hex'), all]);
}

/** A format chunk: coding, channels, rate, bits of a sample. */
const fmt = (coding: number, channels: number, rate: number, bits: number): Buffer =>
  Buffer.from(
    two(coding) +
      two(channels) +
      four(rate) +
      four((rate * channels * bits) / 8) +
      two((channels * bits) / 8) +
      two(bits),
    'hex',
  );

const decoded = (file: Buffer): Sound => {
  const read = decodeWav(file);
  if (typeof read === 'string') throw new Error(read);
  return read;
};
const samplesOf = (coding: number, bits: number, hex: string, channels = 1): readonly number[] => [
  ...decoded(riff(['fmt ', fmt(coding, channels, 48_000, bits)], ['data', Buffer.from(hex, 'hex')])).samples,
];

describe('the header that is written', () => {
  it('of 16 bits is 44 bytes long: RIFF, WAVE, the format, the length of the data', () => {
    const header = wavHeader(1000, 44_100, '16').toString('hex');
    const format = four(16) + two(1) + two(1) + four(44_100) + four(88_200) + two(2) + two(16);
    expect(header).toBe(word('RIFF') + four(36 + 2000) + word('WAVEfmt ') + format + word('data') + four(2000));
  });

  it('of 24 bits counts the byte that makes an odd length even', () => {
    const header = wavHeader(7, 48_000, '24').toString('hex');
    const format = four(16) + two(1) + two(1) + four(48_000) + four(144_000) + two(3) + two(24);
    expect(header).toBe(word('RIFF') + four(36 + 22) + word('WAVEfmt ') + format + word('data') + four(21));
    const file = encodeWav({ rate: 48_000, samples: new Float32Array(7) }, '24');
    expect(file).toHaveLength(44 + 22);
    expect(file.readUInt32LE(4)).toBe(file.length - 8);
  });

  it('of floats says that there is no extension and how many frames there are', () => {
    const header = wavHeader(1000, 48_000, 'float').toString('hex');
    const format = four(18) + two(3) + two(1) + four(48_000) + four(192_000) + two(4) + two(32) + two(0);
    const fact = word('fact') + four(4) + four(1000);
    expect(header).toBe(word('RIFF') + four(50 + 4000) + word('WAVEfmt ') + format + fact + word('data') + four(4000));
  });

  it('cannot say more than 4 GB: at 24 bits, 1,431,655,731 frames, less than 100 bytes from it', () => {
    expect(() => wavHeader(1_431_655_731, 48_000, '24')).not.toThrow();
    expect(() => wavHeader(1_431_655_732, 48_000, '24')).toThrow('a WAV file cannot be longer than 4 GB');
  });

  itWith('sox')('of 16 bits is the one that sox writes', () => {
    const path = join(scratch(), 'sox.wav');
    run('sox', ['-n', '-r', '48000', '-c', '1', '-b', '16', path, 'synth', '0.1', 'sine', '1000']);
    expect(wavHeader(4800, 48_000, '16').toString('hex')).toBe(readFileSync(path).toString('hex', 0, 44));
  });
});

describe('the samples that are written', () => {
  const samples = Float32Array.of(0, 1, -1, 0.5, -0.25, 2, -2, 0.1);

  it('of 16 bits: full scale is 32767, and beyond it there is no more', () => {
    expect([...new Int16Array(encodeSamples(samples, '16').buffer)]).toEqual([
      0, 32_767, -32_767, 16_384, -8192, 32_767, -32_767, 3277,
    ]);
  });

  it('of 24 bits: full scale is 8388607, least byte first', () => {
    const bytes = Buffer.from(encodeSamples(samples, '24'));
    expect(Array.from({ length: 8 }, (_, i) => bytes.readIntLE(i * 3, 3))).toEqual([
      0, 8_388_607, -8_388_607, 4_194_304, -2_097_152, 8_388_607, -8_388_607, 838_861,
    ]);
  });

  it('of floats: as they are', () => {
    const bytes = Buffer.from(encodeSamples(samples.subarray(1), 'float'));
    expect(bytes).toHaveLength(28);
    expect(Array.from({ length: 7 }, (_, i) => bytes.readFloatLE(i * 4))).toEqual([...samples.subarray(1)]);
  });
});

const extended = (length: number): Buffer =>
  Buffer.concat([
    fmt(0xfffe, 1, 44_100, 24),
    Buffer.from(`1600${two(24)}${four(4)}${two(1)}`, 'hex'),
    Buffer.alloc(14),
  ]).subarray(0, length);

describe('a file that is read', () => {
  it('has full scale where each coding has it, and silence in the middle', () => {
    expect(samplesOf(1, 8, '0080ffc0')).toEqual([-1, 0, 127 / 128, 0.5]);
    expect(samplesOf(1, 16, '0080000000400100')).toEqual([-1, 0, 0.5, 1 / 32_768]);
    expect(samplesOf(1, 24, '000080000000000040')).toEqual([-1, 0, 0.5]);
    expect(samplesOf(1, 32, '000000800000000000000040')).toEqual([-1, 0, 0.5]);
    expect(samplesOf(3, 32, '000080bf0000003f')).toEqual([-1, 0.5]);
    expect(samplesOf(3, 64, '000000000000f0bf000000000000e03f')).toEqual([-1, 0.5]);
  });

  it('has its channels mixed into one, each as loud as the others', () => {
    // Two frames: left full, right silent; left half, right half.
    expect(samplesOf(1, 16, '008000000040' + '0040', 2)).toEqual([-0.5, 0.5]);
    expect(samplesOf(1, 8, 'ff8080' + '80ff80' + '80', 3)).toEqual([
      Math.fround(127 / 128 / 3),
      Math.fround(127 / 128 / 3),
    ]);
  });

  it('may have other chunks before and between, of odd lengths too, and after', () => {
    const note = ['LIST', Buffer.from('abc')] as const;
    const data = ['data', Buffer.from('00400020', 'hex')] as const;
    for (const chunks of [
      [note, ['fmt ', fmt(1, 1, 48_000, 16)], note, data, note],
      [['fmt ', fmt(1, 1, 48_000, 16)], data],
      [data, ['fmt ', fmt(1, 1, 48_000, 16)]],
    ] as const) {
      expect([...decoded(riff(...chunks)).samples]).toEqual([0.5, 0.25]);
    }
  });

  it('that was cut off gives what is there', () => {
    const file = riff(['fmt ', fmt(1, 1, 48_000, 16)], ['data', Buffer.from('004000200010', 'hex')]);
    expect([...decoded(file.subarray(0, file.length - 1)).samples]).toEqual([0.5, 0.25]);
  });

  it('may name its coding in the extension', () => {
    const data = ['data', Buffer.from('000040', 'hex')] as const;
    expect(decoded(riff(['fmt ', extended(40)], data))).toEqual({ rate: 44_100, samples: Float32Array.of(0.5) });
    expect(decoded(riff(['fmt ', extended(26)], data))).toEqual({ rate: 44_100, samples: Float32Array.of(0.5) });
    // Only that coding has one; what else stands there in others means nothing.
    const plain = Buffer.concat([fmt(1, 1, 44_100, 24), Buffer.alloc(24, 7)]);
    expect(decoded(riff(['fmt ', plain], data))).toEqual({ rate: 44_100, samples: Float32Array.of(0.5) });
    expect(decodeWav(riff(['fmt ', extended(24)], data))).toBe('its coding (format 65534, 24 bit) is not PCM or float');
  });

  it('has 1 to 32 channels at 8,000 to 384,000 Hz', () => {
    const data = ['data', Buffer.alloc(64)] as const;
    for (const [channels, rate] of [
      [1, 8000],
      [32, 384_000],
    ] as const)
      expect(decoded(riff(['fmt ', fmt(1, channels, rate, 16)], data)).rate).toBe(rate);
    for (const [channels, rate] of [
      [0, 48_000],
      [33, 48_000],
      [1, 7999],
      [1, 384_001],
    ] as const)
      expect(decodeWav(riff(['fmt ', fmt(1, channels, rate, 16)], data))).toBe(
        `it has ${channels} channels at ${rate} Hz`,
      );
  });

  it('is told from what is none', () => {
    const data = ['data', Buffer.alloc(4)] as const;
    const good = riff(['fmt ', fmt(1, 1, 48_000, 16)], data);
    const with4 = (at: number, text: string): Buffer => {
      const file = Buffer.from(good);
      file.write(text, at, 'latin1');
      return file;
    };
    const none = 'it is not a WAV file';
    const silent = 'it is a WAV file without sound in it';
    expect(decodeWav(with4(0, 'RIFX'))).toBe(none);
    expect(decodeWav(with4(8, 'AVI '))).toBe(none);
    expect(decodeWav(good.subarray(0, 11))).toBe(none);
    expect(decodeWav(good.subarray(0, 12))).toBe(silent);
    expect(decodeWav(riff(data))).toBe(silent);
    expect(decodeWav(riff(['fmt ', fmt(1, 1, 48_000, 16)]))).toBe(silent);
    expect(decodeWav(riff(['fmt ', fmt(1, 1, 48_000, 16).subarray(0, 15)], data))).toBe(silent);
    expect(decodeWav(riff(['fmt ', fmt(3, 1, 48_000, 16)], data))).toBe(
      'its coding (format 3, 16 bit) is not PCM or float',
    );
    // A chunk whose head is cut off is no chunk; one that ends with the file is.
    expect(decodeWav(Buffer.concat([good, Buffer.from('data')]))).toMatchObject({ rate: 48_000 });
    expect(decodeWav(Buffer.concat([good, Buffer.from(word('data') + four(0), 'hex')]))).toMatchObject({
      samples: new Float32Array(),
    });
  });
});
