/**
 * Instruments that fluidsynth plays from a General MIDI sound font, with onsets that are known, and aubio's programs on
 * the same files. The sound begins later than the MIDI note does, by as much as its sample takes to speak: what all
 * onsets of a file have in common is taken away first.
 */
import { describe, expect } from 'vitest';
import { run } from '../audio/programs.ts';
import { itWith } from '../programs.ts';
import { levelMeter } from '../../src/ear/band-levels.ts';
import { centsAbove } from '../../src/ear/cents.ts';
import { evennessOf, onsetsOfNotes } from '../../src/ear/evenness.ts';
import type { ExpectedNote } from '../../src/ear/expected-notes.ts';
import { onsetsIn } from '../../src/ear/onsets.ts';
import { deviation, median } from '../../src/ear/statistics.ts';
import { tonesHeard } from '../../src/ear/tones-heard.ts';
import { readings } from './hear.ts';
import { FONT, PROGRAMS, type Rendered, rendered } from './midi-file.ts';
import { chance } from './tones.ts';

const withFont = itWith('fluidsynth', FONT);
const withFontAndAubio = itWith('fluidsynth', FONT, 'aubioonset', 'aubiopitch');

const SCALE = [65, 67, 69, 70, 72, 70, 69, 67];
const COUNT = 48;

interface Passage extends Rendered {
  readonly onsets: readonly number[];
}

/** Notes in a second, and the standard deviation of their onsets in seconds. */
function passage(instrument: keyof typeof PROGRAMS, speed: number, jitter: number): Passage {
  const { normal } = chance(7);
  const onsets = Array.from({ length: COUNT }, (_, i) => 0.5 + i / speed + jitter * normal());
  const tones = onsets.map((from, i) => ({
    midi: SCALE[i % SCALE.length] ?? 65,
    from,
    to: Math.min(from + 0.85 / speed, (onsets[i + 1] ?? Infinity) - 0.005),
  }));
  return { ...rendered(tones, PROGRAMS[instrument]), onsets };
}

function heardOnsets({ samples, rate }: Rendered): readonly number[] {
  const meter = levelMeter(rate);
  meter.hear(samples);
  return onsetsIn(meter.levels());
}

const nearest = (all: readonly number[], to: number): number =>
  all.reduce((best, one) => (Math.abs(one - to) < Math.abs(best - to) ? one : best), Infinity);

/** Harmonic mean of precision and recall at 25 ms, what all have in common taken away. */
function fOf(found: readonly number[], truth: readonly number[]): number {
  const common = median(truth.map((at) => nearest(found, at + 0.02) - at));
  const right = truth.filter((at) => Math.abs(nearest(found, at + common) - at - common) <= 0.025).length;
  return (2 * right) / (found.length + truth.length);
}

describe('onsets of tongued notes, dry', () => {
  // What was reached; a flute's and a clarinet's samples speak so slowly that their notes differ by up to 13 ms.
  withFont.each([
    ['trumpet', 4, 0.96],
    ['trumpet', 8, 0.96],
    ['trumpet', 11.2, 0.95],
    ['saxophone', 8, 0.98],
    ['clarinet', 8, 0.9],
    ['flute', 8, 0.85],
  ] as const)('of a %s at %d notes a second', (instrument, speed, least) => {
    const played = passage(instrument, speed, 0.005);
    expect(fOf(heardOnsets(played), played.onsets)).toBeGreaterThanOrEqual(least);
  });

  withFontAndAubio('are found no worse than by aubio', () => {
    const played = passage('trumpet', 8, 0.005);
    const aubio = run('aubioonset', ['-i', played.path]).trim().split('\n').map(Number);
    expect(fOf(heardOnsets(played), played.onsets)).toBeGreaterThanOrEqual(fOf(aubio, played.onsets) - 0.02);
  });

  withFont.each([0.005, 0.015])('of a trumpet show their spread of %d s within 3 ms', (jitter) => {
    const played = passage('trumpet', 8, jitter);
    const notes = played.onsets.map((_, i): ExpectedNote => {
      const from = i / 8;
      const note = { name: 'F4', written: 65, hertz: 349.23, bar: 0, beat: 0, place: 0, tongued: true, syllable: '' };
      return { ...note, from, to: from + 1 / 8 };
    });
    const evenness = evennessOf(onsetsOfNotes(notes, heardOnsets(played), 0.515));
    const truth = deviation(played.onsets.map((at, i) => at - 0.5 - i / 8));
    expect(Math.abs((evenness?.spread ?? NaN) - truth)).toBeLessThan(0.003);
  });
});

describe('the pitch of long tones', () => {
  withFontAndAubio.each(Object.keys(PROGRAMS) as (keyof typeof PROGRAMS)[])(
    'of a %s is what aubio finds, within 4 cents',
    (instrument) => {
      const tones = [58, 65, 70, 77].map((midi, i) => ({ midi, from: 0.5 + 2 * i, to: 2.2 + 2 * i }));
      const sound = rendered(tones, PROGRAMS[instrument]);
      const heard = tonesHeard(
        readings(sound.samples, sound.rate, () => null),
        440,
      );
      const aubio = run('aubiopitch', ['-i', sound.path, '-B', '4096', '-H', '480', '-p', 'yinfft'])
        .trim()
        .split('\n')
        .map((line) => line.split(/\s+/).map(Number));
      expect(heard.map(({ concert }) => concert)).toEqual([58, 65, 70, 77]);
      for (const { heard: tone, hertz } of heard) {
        const own = aubio.filter(([at = 0]) => at > tone.from + 0.3 && at < tone.to - 0.3).map(([, hz = 0]) => hz);
        expect(Math.abs(centsAbove(median(own), hertz) - tone.cents)).toBeLessThan(4);
      }
    },
  );
});
