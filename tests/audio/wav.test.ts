import { VOICES, readOwnSound } from '../../src/audio/mix/own-click-sound.ts';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadKit, voiceProblem } from '../../src/audio/mix/click-voices.ts';
import type { Kit } from '../../src/audio/mix/mixer.ts';
import { decodeWav, encodeWav, wavHeader } from '../../src/audio/file/wav.ts';
import { amplitudeAt } from './pitch.ts';
import { itWith } from '../programs.ts';
import { complaint, run, scratch } from './programs.ts';

const RATE = 48_000;
const folder = scratch();
const sine = (frames: number, hertz = 440, peak = 0.5): Float32Array =>
  Float32Array.from({ length: frames }, (_, i) => peak * Math.sin((2 * Math.PI * hertz * i) / RATE));

function write(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

/** The middle of a click's spectrum, in octaves. The attack is put where the window is at its widest. */
function centre(sound: Float32Array): number {
  const padded = new Float32Array(1920);
  padded.set(sound.subarray(0, 960), 960);
  const bins = Array.from({ length: 280 }, (_, i) => 100 + 50 * i);
  const power = bins.map((f) => amplitudeAt(padded, f, RATE) ** 2);
  return bins.reduce((sum, f, i) => sum + Math.log2(f) * (power[i] ?? 0), 0) / power.reduce((a, b) => a + b, 0);
}

describe('WAV files', () => {
  it.each([
    ['16', 1 / 32_767],
    ['24', 1 / 8_388_607],
    ['float', 0],
  ] as const)('come back as they were written, in %s', (format, step) => {
    const samples = sine(4801);
    const read = decodeWav(encodeWav({ rate: 44_100, samples }, format));
    if (typeof read === 'string') throw new Error(read);
    expect(read.rate).toBe(44_100);
    expect(read.samples).toHaveLength(4801);
    read.samples.forEach((x, i) => expect(Math.abs(x - (samples[i] ?? 0))).toBeLessThanOrEqual(step + 1e-7));
  });

  it('clip instead of wrapping round', () => {
    const read = decodeWav(encodeWav({ rate: RATE, samples: Float32Array.of(3, -3) }, '16'));
    expect(typeof read === 'string' ? read : [...read.samples].map(Math.round)).toEqual([1, -1]);
  });

  it('cannot be longer than the format allows', () => {
    expect(() => wavHeader(3e9, RATE, '16')).toThrow(RangeError);
  });

  itWith('sox')('are what sox reads: rate, length, precision, level', () => {
    for (const [format, encoding] of [
      ['16', '16-bit Signed Integer PCM'],
      ['24', '24-bit Signed Integer PCM'],
      ['float', '32-bit Floating Point PCM'],
    ] as const) {
      const path = write(`sox-${format}.wav`, encodeWav({ rate: RATE, samples: sine(4801) }, format));
      const info = run('sox', ['--i', path]);
      expect(info).toContain('Sample Rate    : 48000');
      expect(info).toContain('4801 samples');
      expect(info).toContain(encoding);
      const stat = complaint('sox', [path, '-n', 'stat']);
      expect(stat).not.toContain('WARN');
      expect(Number(/Maximum amplitude: +([\d.]+)/.exec(stat)?.[1])).toBeCloseTo(0.5, 3);
    }
  });

  itWith('sox')('of sox are read, in all its codings', () => {
    for (const coding of [
      ['-b', '8', '-e', 'unsigned'],
      ['-b', '16'],
      ['-b', '24'],
      ['-b', '32'],
      ['-e', 'float', '-b', '32'],
      ['-e', 'float', '-b', '64'],
    ]) {
      const path = join(folder, `from-sox-${coding.join('')}.wav`);
      run('sox', ['-n', '-r', '44100', '-c', '2', ...coding, path, 'synth', '0.2', 'sine', '1000', 'gain', '-6']);
      const sound = readOwnSound(path);
      if (typeof sound === 'string') throw new Error(sound);
      expect(sound.rate).toBe(44_100);
      expect(amplitudeAt(sound.samples, 1000, 44_100)).toBeGreaterThan(0.8);
    }
  });
});

describe("a player's own click sound", () => {
  it('starts where it is first heard, at full level', () => {
    const late = new Float32Array(9600);
    late.set(sine(2400, 1000, 0.1), 4800);
    const sound = readOwnSound(write('late.wav', encodeWav({ rate: RATE, samples: late }, '16')));
    if (typeof sound === 'string') throw new Error(sound);
    expect(Math.abs(sound.samples[0] ?? 0)).toBeGreaterThan(0.04);
    expect(Math.max(...sound.samples)).toBeCloseTo(0.9, 2);
    expect(sound.samples.length).toBeLessThanOrEqual(4800);
  });

  it('is accented by its pitch', () => {
    const path = write('own.wav', encodeWav({ rate: RATE, samples: sine(9600, 1000) }, '16'));
    const kit = loadKit(RATE);
    expect(amplitudeAt(kit.click(path, 'beat'), 1000, RATE)).toBeGreaterThan(0.8);
    expect(amplitudeAt(kit.click(path, 'bar'), 1260, RATE)).toBeGreaterThan(0.8);
  });

  it('is refused in one sentence when it is none', () => {
    const wrong = [
      write('text.wav', Buffer.from('hello, this is no sound at all')),
      write('empty.wav', Buffer.alloc(0)),
      write('cut.wav', encodeWav({ rate: RATE, samples: sine(10) }, '16').subarray(0, 30)),
      write('silent.wav', encodeWav({ rate: RATE, samples: new Float32Array(4800) }, '16')),
      write('long.wav', encodeWav({ rate: RATE, samples: sine(3 * RATE) }, '16')),
      write(
        'law.wav',
        Buffer.concat([
          Buffer.from(
            'RIFF\0\0\0\0WAVEfmt \x10\0\0\0\x07\0\x01\0\x40\x1f\0\0\x40\x1f\0\0\x01\0\x08\0data\x02\0\0\0\0\0',
            'latin1',
          ),
        ]),
      ),
      join(folder, 'missing.wav'),
      folder,
    ];
    for (const path of wrong) expect(voiceProblem(path)).toMatch(/^Click sound ".*": [^\n]+\.$/);
  });
});

describe('the click sounds', () => {
  let kit: Kit;
  beforeAll(() => {
    kit = loadKit(RATE);
  });

  it('are at least four, and none is wrong', () => {
    expect(VOICES.length).toBeGreaterThanOrEqual(4);
    for (const name of VOICES) expect(voiceProblem(name)).toBeNull();
  });

  it.each([44_100, 48_000, 96_000])('rise from zero at %i hertz, so that none of them cracks', (rate) => {
    const at = loadKit(rate);
    for (const name of VOICES)
      for (const layer of ['bar', 'beat'] as const) expect(Math.abs(at.click(name, layer)[0] ?? 1), name).toBe(0);
    expect(Math.abs(at.chime[0] ?? 1)).toBe(0);
  });

  it('begin with their attack and are over before the next sixteenth at 208 (72 ms)', () => {
    for (const name of VOICES) {
      for (const layer of ['bar', 'beat'] as const) {
        const sound = kit.click(name, layer);
        expect(Math.max(...sound.subarray(0, 48).map(Math.abs))).toBeGreaterThan(0.5);
        expect(Math.max(...sound.subarray(0.072 * RATE).map(Math.abs), 0)).toBeLessThan(0.15);
      }
    }
  });

  it('lie in different registers: the middle of their spectra differs by a third of an octave or more', () => {
    const centres = VOICES.map((name) => centre(kit.click(name, 'beat'))).sort((a, b) => a - b);
    centres.slice(1).forEach((c, i) => expect(c - (centres[i] ?? 0)).toBeGreaterThan(1 / 3));
    for (const name of VOICES)
      expect(centre(kit.click(name, 'bar'))).toBeGreaterThan(centre(kit.click(name, 'beat')) + 0.15);
  });
});
