import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { type Rendering, lengthOf, renderMidi, renderWav } from '../../src/audio/file/rendering.ts';
import { decodeWav } from '../../src/audio/file/wav.ts';
import { itWith } from '../programs.ts';
import { run, scratch } from './programs.ts';
import { spanOf } from './spans.ts';

const folder = scratch();
const volume = { click: 0.8, drone: 0.6 };
const wav = { rate: 48_000, format: '16', force: false, tail: false } as const;
const rendering = (bpm: number, bars: number): Rendering => ({
  spans: [spanOf('a', bpm, bars, { voice: 'stick' })],
  drone: null,
  volume,
});

describe('rendering', () => {
  const rendered = (asked: Rendering, tail: boolean): Float32Array => {
    const path = join(folder, 'length.wav');
    renderWav(path, asked, { ...wav, format: 'float', tail, force: true });
    const sound = decodeWav(readFileSync(path));
    if (typeof sound === 'string') throw new Error(sound);
    return sound.samples;
  };

  it('lasts exactly as long as its bars, or half a second longer to die away', () => {
    expect(lengthOf(rendering(120, 4))).toBe(8);
    expect(rendered(rendering(120, 4), false)).toHaveLength(8 * 48_000);
    expect(rendered(rendering(120, 4), true)).toHaveLength(8.5 * 48_000);
    // 137 beats a minute do not come out in whole frames: four bars of four are 7.0073 s (formula).
    expect(rendered(rendering(137, 4), false)).toHaveLength(Math.round((16 * 60 * 48_000) / 137));
  });

  it('loops without a seam: what rings over the end sounds on at the beginning', () => {
    const drone = { ...PLAIN_DRONE, gain: 1 };
    const asked = { ...rendering(240, 2), drone, volume: { click: 0.2, drone: 1 } };
    const once = rendered(asked, false);
    const around = [...once.slice(-2400), ...once.slice(0, 2400)];
    const steps = around.map((x, i) => Math.abs(x - (around[i - 1] ?? x)));
    const inside = once.subarray(24_000, 72_000);
    const usual = inside.reduce((most, x, i) => Math.max(most, Math.abs(x - (inside[i - 1] ?? x))), 0);
    // No step at the seam is larger than those that a click within the file makes.
    expect(Math.max(...steps.slice(2390, 2402))).toBeLessThanOrEqual(usual);
    const level = (part: Iterable<number> & { readonly length: number }): number =>
      Math.hypot(...part) / Math.sqrt(part.length);
    // The drone neither drops nor swells there by more than three decibels.
    const [seam, middle] = [level(around.slice(1200, 3600)), level(inside.subarray(6000, 8400))];
    expect(Math.abs(20 * Math.log10(seam / middle))).toBeLessThan(3);
  });

  it('never replaces a file unless told to, and leaves none behind that it could not finish', () => {
    const path = join(folder, 'there.wav');
    writeFileSync(path, 'mine');
    expect(() => renderWav(path, rendering(120, 1), wav)).toThrow('EEXIST');
    expect(() => renderMidi(path, rendering(120, 1), { force: false })).toThrow('EEXIST');
    expect(readFileSync(path, 'utf8')).toBe('mine');
    // A timbre that there is not is met when the first second is mixed, after the file was opened.
    const broken = { ...rendering(120, 1), drone: { ...PLAIN_DRONE, timbre: 'none' as 'reed' } };
    expect(() => renderWav(join(folder, 'unfinished.wav'), broken, wav)).toThrow(TypeError);
    expect(existsSync(join(folder, 'unfinished.wav'))).toBe(false);
    expect(() => renderWav(path, broken, { ...wav, force: true })).toThrow(TypeError);
    expect(readFileSync(path, 'utf8')).toBe('mine');
    renderWav(path, rendering(120, 1), { ...wav, force: true });
    expect(readFileSync(path).toString('latin1', 0, 4)).toBe('RIFF');
  });

  it('needs a folder that is there', () => {
    expect(() => renderWav(join(folder, 'no', 'such', 'file.wav'), rendering(120, 1), wav)).toThrow('ENOENT');
  });
});

const onsets = (path: string): readonly number[] =>
  run('aubioonset', ['-i', path, '-r', '48000', '-O', 'hfc', '-H', '128', '-B', '512', '-t', '0.5'])
    .trim()
    .split('\n')
    .map(Number);

describe('heard by programs from outside', () => {
  itWith('aubioonset')(
    'every click is where it should be, as aubioonset hears it (aubio-tools are not installed: skipped)',
    () => {
      const path = join(folder, 'onsets.wav');
      renderWav(path, rendering(137, 8), wav);
      const found = onsets(path);
      expect(found).toHaveLength(32);
      // It finds onsets to a hop of 128 frames (2.7 ms), with a constant delay of its own.
      const delay = (found[10] ?? 0) - (10 * 60) / 137;
      found.slice(1).forEach((t, k) => expect(Math.abs(t - delay - ((k + 1) * 60) / 137)).toBeLessThan(0.006));
    },
  );

  let pitched = '';
  beforeAll(() => {
    pitched = join(folder, 'drone.wav');
    renderWav(
      pitched,
      {
        spans: [spanOf('a', 60, 2, { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } })],
        drone: { ...PLAIN_DRONE, a4: 442, timbre: 'string' },
        volume,
      },
      wav,
    );
  });

  itWith('aubiopitch')(
    'the drone is B-flat 3 at A = 442, as aubiopitch hears it (aubio-tools are not installed: skipped)',
    () => {
      const lines = run('aubiopitch', ['-i', pitched, '-r', '48000', '-p', 'yinfft', '-B', '4096', '-H', '1024'])
        .trim()
        .split('\n');
      const heard = lines
        .map((line) => line.split(/\s+/).map(Number))
        .filter(([t = 0]) => t > 1 && t < 7)
        .map(([, f = 0]) => f)
        .sort((a, b) => a - b);
      const middle = heard[Math.floor(heard.length / 2)] ?? 0;
      // 442 x 2^(-11/12), equal temperament.
      expect(Math.abs(1200 * Math.log2(middle / (442 * 2 ** (-11 / 12))))).toBeLessThan(1);
    },
  );
});
