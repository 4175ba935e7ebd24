/** What becomes of a player's own WAV file as a click, and of the program's own. */
import { VOICES, readOwnSound } from '../../src/audio/mix/own-click-sound.ts';
import { truncateSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeWav } from '../../src/audio/file/wav.ts';
import { isOwnSound, loadKit, voiceProblem } from '../../src/audio/mix/click-voices.ts';
import { amplitudeAt } from './pitch.ts';
import { scratch } from './programs.ts';

const RATE = 48_000;
const folder = scratch();

const sine = (frames: number, peak: number, hertz = 1000): Float32Array =>
  Float32Array.from({ length: frames }, (_, i) => peak * Math.cos((2 * Math.PI * hertz * i) / RATE));

function write(name: string, samples: Float32Array, rate = RATE): string {
  const path = join(folder, name);
  writeFileSync(path, encodeWav({ rate, samples }, 'float'));
  return path;
}

function ready(path: string): Float32Array {
  const sound = readOwnSound(path);
  if (typeof sound === 'string') throw new Error(sound);
  return sound.samples;
}
const reason = (path: string): string => /: ([^:;]*);/.exec(String(voiceProblem(path)))?.[1] ?? '';

describe("a player's own sound", () => {
  it('is a path, and no name of a voice', () => {
    expect(VOICES.some(isOwnSound)).toBe(false);
    expect(isOwnSound('wood.wav')).toBe(true);
    // Words that every object of the language knows are no voices.
    expect(isOwnSound('constructor')).toBe(true);
    expect(reason('constructor')).toBe('there is no such file');
    expect(voiceProblem('wood')).toBeNull();
  });

  it('begins at the first sample above a twentieth of its peak, also below zero', () => {
    const samples = Float32Array.of(0, 0.01, -0.019, -0.021, 0.01, -0.4, 0.2, 0);
    const sound = ready(write('late.wav', samples));
    expect(sound).toHaveLength(5);
    [-0.021, 0.01, -0.4, 0.2, 0].forEach((x, i) => expect(sound[i]).toBeCloseTo((x * 0.9) / 0.4, 5));
  });

  it('lasts two seconds at most, counted from where it is heard', () => {
    const long = new Float32Array(3 * RATE);
    long.set(sine(2 * RATE, 0.5), RATE);
    expect(ready(write('two.wav', long))).toHaveLength(2 * RATE);
    expect(reason(write('longer.wav', sine(2 * RATE + 1, 0.5)))).toBe('it is longer than 2 seconds');
    expect(ready(write('slow.wav', sine(2 * 22_050, 0.5), 22_050))).toHaveLength(2 * 22_050);
  });

  it('is silent below a thousandth of full scale, and where there is none of it', () => {
    expect(reason(write('soft.wav', sine(100, 0.00099)))).toBe('it is silent');
    expect(ready(write('audible.wav', sine(100, 0.00101)))[0]).toBeCloseTo(0.9, 5);
    expect(reason(write('nothing.wav', new Float32Array()))).toBe('it is silent');
    expect(reason(write('infinite.wav', Float32Array.of(0.1, Infinity)))).toBe('it is silent');
    expect(reason(write('no-number.wav', Float32Array.of(0.1, NaN)))).toBe('it is silent');
  });

  it('is a file of at most 4 MB that can be read', () => {
    const large = write('large.wav', sine(100, 0.5));
    truncateSync(large, 4_000_000);
    expect(voiceProblem(large)).toBeNull();
    truncateSync(large, 4_000_001);
    expect(reason(large)).toBe('it is larger than 4 MB');
    expect(reason(join(folder, 'missing.wav'))).toBe('there is no such file');
    expect(reason(folder)).toBe('it cannot be read');
  });

  it('that cannot be one is named in one sentence that says what would be right', () => {
    expect(voiceProblem('/no/such.wav')).toBe(
      'Click sound "/no/such.wav": there is no such file; give a WAV file of at most 2 seconds, ' +
        'or one of wood, stick, bell, drum, tone.',
    );
  });
});

describe('the kit', () => {
  it('strikes the first beat and groups higher by a major third, the rest as it is', () => {
    const kit = loadKit(RATE);
    const path = write('own.wav', sine(9600, 0.5));
    for (const layer of ['bar', 'group'] as const)
      expect(amplitudeAt(kit.click(path, layer), 1260, RATE)).toBeGreaterThan(0.8);
    for (const layer of ['beat', 'subdivision'] as const)
      expect(amplitudeAt(kit.click(path, layer), 1000, RATE)).toBeGreaterThan(0.8);
    expect(kit.click('wood', 'bar')).toBe(kit.click('wood', 'group'));
    expect(kit.click('wood', 'beat')).toBe(kit.click('wood', 'subdivision'));
    expect(kit.click('wood', 'bar')).not.toEqual(kit.click('wood', 'beat'));
    expect(kit.click('wood', 'beat')).not.toEqual(kit.click('stick', 'beat'));
  });

  it('has everything at its own rate, the own sound and the chime too', () => {
    const half = loadKit(24_000);
    expect(half.rate).toBe(24_000);
    expect(half.chime.length).toBe(Math.ceil(loadKit(RATE).chime.length / 2));
    const path = write('rate.wav', sine(9600, 0.5));
    expect(half.click(path, 'beat')).toHaveLength(4800);
    expect(amplitudeAt(half.click(path, 'bar'), 1260, 24_000)).toBeGreaterThan(0.8);
  });

  it('reads a sound once', () => {
    const kit = loadKit(RATE);
    const path = write('once.wav', sine(100, 0.5));
    const first = kit.click(path, 'beat');
    writeFileSync(path, 'gone');
    expect(kit.click(path, 'beat')).toBe(first);
  });

  it('strikes the wood block where an own sound is gone, or is named by a path from nowhere', () => {
    const kit = loadKit(RATE);
    const wood = kit.click('wood', 'beat');
    expect(kit.click('/no/such.wav', 'beat')).toBe(wood);
    const path = relative(process.cwd(), write('relative.wav', sine(100, 0.5)));
    expect(kit.click(path, 'beat')).toBe(wood);
  });

  it('knows how long a click may be: 0.15 s, or 2 s once there is an own sound', () => {
    const kit = loadKit(44_100);
    expect(kit.longest).toBe(6615);
    for (const voice of VOICES) expect(kit.click(voice, 'bar').length).toBeLessThanOrEqual(6615);
    expect(kit.longest).toBe(6615);
    kit.click(write('longest.wav', sine(100, 0.5)), 'beat');
    expect(kit.longest).toBe(88_200);
  });
});
