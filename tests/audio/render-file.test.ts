/** What lies in a rendered file, sample for sample, and what becomes of the file itself. */
import {
  chmodSync,
  existsSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { type Rendering, lengthOf, renderMidi, renderWav } from '../../src/audio/file/rendering.ts';
import { type Sound, decodeWav } from '../../src/audio/file/wav.ts';
import { amplitudeAt } from './pitch.ts';
import { scratch } from './programs.ts';
import { spanOf } from './spans.ts';

const RATE = 48_000;
const SILENT = { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } };
const folder = scratch();
const float = { rate: RATE, format: 'float', force: true, tail: true } as const;

function rendered(rendering: Rendering, rate = RATE): Float32Array {
  const path = join(folder, 'rendered.wav');
  renderWav(path, rendering, { ...float, rate });
  const sound = decodeWav(readFileSync(path)) as Sound;
  expect(sound.rate).toBe(rate);
  return sound.samples;
}
const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);
const volume = { click: 0.8, drone: 0.6 };

const click = (level: number): number =>
  peak(rendered({ spans: [spanOf('a', 120, 1)], drone: null, volume: { click: level, drone: 0 } }).subarray(0, 4800));

const drone = (level: number): number =>
  amplitudeAt(
    rendered({
      spans: [spanOf('a', 120, 2, SILENT)],
      drone: { ...PLAIN_DRONE, timbre: 'pure', gain: 1 },
      volume: { click: 0, drone: level },
    }).subarray(RATE, 3 * RATE),
    233.0819,
    RATE,
  );

const length = (...bars: readonly (number | null)[]): number =>
  lengthOf({ spans: bars.map((each, k) => spanOf(`${k}`, 120, each)), drone: null, volume });

describe('a rendered file', () => {
  it('has its strokes on their frames in every second of it: 60 / 137 s apart (formula), the last one too', () => {
    const samples = rendered({ spans: [spanOf('a', 137, 3, { voice: 'stick' })], drone: null, volume });
    const strokes: number[] = [];
    let quiet = Infinity;
    samples.forEach((x, i) => {
      // The first frame of a stroke is zero, the next is not.
      if (x !== 0 && quiet > 4000) strokes.push(i - 1);
      quiet = x === 0 ? quiet + 1 : 0;
    });
    expect(strokes).toEqual(Array.from({ length: 12 }, (_, k) => Math.round((k * 60 * RATE) / 137)));
    expect(samples).toHaveLength(Math.ceil((12 * 60 * RATE) / 137 + RATE / 2));
  });

  it('is as loud as its volume says, from its first frame on', () => {
    expect(click(0.25) / click(0.5)).toBeCloseTo(0.5, 3);
    expect(click(0)).toBe(0);
    expect(drone(0.6) / drone(0.3)).toBeCloseTo(2, 2);
  });

  it('begins with its drone and ends with it: it dies away after the last bar, and the file with it', () => {
    const samples = rendered({
      spans: [spanOf('a', 120, 1, SILENT)],
      drone: { ...PLAIN_DRONE, timbre: 'pure', gain: 1 },
      volume,
    });
    expect(peak(samples.subarray(0, 0.2 * RATE))).toBeGreaterThan(0.1);
    expect(peak(samples.subarray(1.9 * RATE, 2 * RATE))).toBeGreaterThan(0.1);
    expect(peak(samples.subarray(2.03 * RATE))).toBe(0);
    expect(samples).toHaveLength(2.5 * RATE);
  });

  it('lasts as long as all of its spans, an endless one counting as none', () => {
    expect(length()).toBe(0);
    expect(length(1, 2)).toBe(6);
    expect(length(1, null)).toBe(2);
    expect(length(null)).toBe(0);
  });

  it('is the same at another rate, but for the rate', () => {
    const samples = rendered({ spans: [spanOf('a', 120, 1, { voice: 'tone' })], drone: null, volume }, 44_100);
    expect(samples).toHaveLength(2.5 * 44_100);
    expect(samples.findIndex((x, i) => i > 20_000 && x !== 0)).toBe(22_051);
  });

  it('of an odd number of bytes is made even', () => {
    const path = join(folder, 'odd.wav');
    const odd = { rate: 44_100, format: '24', force: true, tail: true } as const;
    renderWav(path, { spans: [spanOf('a', 133, 1)], drone: null, volume }, odd);
    const bytes = readFileSync(path);
    const data = bytes.readUInt32LE(40);
    expect(data % 2).toBe(1);
    expect(bytes).toHaveLength(44 + data + 1);
    expect(bytes.readUInt32LE(4)).toBe(bytes.length - 8);
  });
});

describe('the file that is replaced', () => {
  const one: Rendering = { spans: [spanOf('a', 120, 1)], drone: null, volume };

  it('is there whole, and nothing else is left beside it', () => {
    const here = scratch();
    for (const name of ['a.wav', 'b.mid']) writeFileSync(join(here, name), 'old');
    renderWav(join(here, 'a.wav'), one, float);
    renderMidi(join(here, 'b.mid'), one, { force: true });
    expect(readdirSync(here).toSorted()).toEqual(['a.wav', 'b.mid']);
    expect(readFileSync(join(here, 'b.mid')).toString('latin1', 0, 4)).toBe('MThd');
  });

  it('leaves a neighbour called .part alone, stays behind its link and keeps its mode', () => {
    const here = scratch();
    writeFileSync(join(here, 'a.wav.part'), 'mine');
    writeFileSync(join(here, 'real.wav'), 'old');
    chmodSync(join(here, 'real.wav'), 0o640);
    symlinkSync('real.wav', join(here, 'a.wav'));
    renderWav(join(here, 'a.wav'), one, float);
    expect(readFileSync(join(here, 'a.wav.part'), 'utf8')).toBe('mine');
    expect(readlinkSync(join(here, 'a.wav'))).toBe('real.wav');
    expect(statSync(join(here, 'real.wav')).mode & 0o777).toBe(0o640);
    expect(typeof decodeWav(readFileSync(join(here, 'real.wav')))).toBe('object');
  });

  it('is no more touched than a new one by what fails: a half file is taken away', () => {
    const here = scratch();
    const broken: Rendering = { ...one, drone: { ...PLAIN_DRONE, timbre: 'none' as 'reed' } };
    for (const force of [true, false])
      expect(() => renderWav(join(here, 'a.wav'), broken, { ...float, force })).toThrow(TypeError);
    expect(existsSync(join(here, 'a.wav'))).toBe(false);
    expect(readdirSync(here)).toEqual([]);
  });
});
