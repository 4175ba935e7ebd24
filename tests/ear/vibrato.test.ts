/** Vibrato of known rate and extent; rates of recorded flutists are 4 to 8 (L. Garrison 2012). */
import { describe, expect, it } from 'vitest';
import { heardNote } from '../../src/ear/note-heard.ts';
import type { Vibrato } from '../../src/ear/vibrato.ts';
import { readings } from './hear.ts';
import { RATE, tone, withNoise } from './tones.ts';

const REED = [1, 0.6, 0.4, 0.2];

const vibratoIn = (sound: Float32Array, hertz: number): Vibrato | null =>
  heardNote(
    readings(sound, RATE, () => hertz),
    hertz,
  )?.vibrato ?? null;

describe('a vibrato', () => {
  const cases = [4, 5, 5.5, 6.3, 7, 8].flatMap((rate) =>
    [10, 20, 30].flatMap((cents) => [196, 293.66, 440, 880, 1396.9].map((hertz) => [rate, cents, hertz] as const)),
  );

  it.each(cases)(
    'of %d Hz and %d cents on %d Hz is read: rate within 0.1, extent within 5 %%',
    (rate, cents, hertz) => {
      const sound = tone({ hertz, seconds: 2.5, harmonics: REED, vibrato: { rate, cents } });
      const found = vibratoIn(withNoise(sound, 40, 3), hertz);
      expect(Math.abs((found?.rate ?? NaN) - rate)).toBeLessThan(0.1);
      expect(Math.abs((found?.extent ?? NaN) / cents - 1)).toBeLessThan(0.05);
      expect(found?.unevenness).toBeLessThan(0.05);
    },
  );

  it('is none in a straight tone, a drifting one, a noisy one', () => {
    expect(vibratoIn(tone({ hertz: 440, seconds: 2 }), 440)).toBeNull();
    expect(vibratoIn(tone({ hertz: 440, seconds: 2, drift: 30 }), 440)).toBeNull();
    expect(vibratoIn(withNoise(tone({ hertz: 440, seconds: 2 }), 12, 4), 440)).toBeNull();
  });

  it('that changes its rate is less even than one that does not', () => {
    const uneven = (by: number): number | null | undefined => {
      let [phase, swing] = [0, 0];
      // Faster and slower in turn, a quarter of a second each.
      const sound = new Float32Array(4 * RATE).map((_, i) => {
        swing += (6 + (Math.floor((4 * i) / RATE) % 2 === 0 ? by : -by)) / RATE;
        phase += (440 * 2 ** ((20 * Math.sin(2 * Math.PI * swing)) / 1200)) / RATE;
        return 0.2 * Math.sin(2 * Math.PI * phase);
      });
      return vibratoIn(sound, 440)?.unevenness;
    };
    expect(uneven(0)).toBeLessThan(0.01);
    // Waves that lie between two halves are neither: by arithmetic at most 0.5 / 6 = 8 %.
    expect(uneven(0.5)).toBeGreaterThan(0.03);
    expect(uneven(0.5)).toBeLessThan(0.083);
  });
});
