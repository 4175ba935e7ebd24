/** Pitch of tones with known truth; the frequencies are mathematics (A4 = 440 Hz, ISO 16). */
import { describe, expect, it } from 'vitest';
import { centsAbove } from '../../src/ear/cents.ts';
import { pitchFinder } from '../../src/ear/pitch-finder.ts';
import { frequencyOf } from '../../src/music/pitch/tuning.ts';
import { readings } from './hear.ts';
import { RATE, after, chance, tone, withNoise } from './tones.ts';

const REED = [1, 0.7, 0.5, 0.35, 0.25, 0.15];
/** A weak fundamental, as low brass has it: the second and third harmonic are four times as strong. */
const WEAK = [0.25, 1, 1, 0.6, 0.4, 0.2];

/** Windows after the attack, 0.3 s into the tone and until 0.3 s before its end. */
const steady = (sound: Float32Array, about: number | null, rate = RATE) =>
  readings(sound, rate, () => about).filter(({ at }) => at > 0.3 && at < sound.length / rate - 0.3);

/** The sounding range of the table of instruments, from the bass's low E to the top of the piccolo. */
const RANGE = [28, 34, 40, 46, 52, 58, 65, 70, 77, 84, 91, 96, 103, 108];

describe('a pitch that is expected', () => {
  it.each(RANGE)('of MIDI note %i is heard within a cent in 99 % of windows, noise 50 to 10 dB below', (midi) => {
    const { even } = chance(midi);
    let [right, all] = [0, 0];
    for (const below of [50, 30, 20, 10]) {
      const off = (even() - 0.5) * 90;
      const hertz = frequencyOf(midi + off / 100);
      const sound = withNoise(tone({ hertz, seconds: 1.4, harmonics: REED }), below, midi + below);
      for (const one of steady(sound, frequencyOf(midi))) {
        all += 1;
        if (one.hertz !== null && Math.abs(centsAbove(one.hertz, hertz)) <= 1) right += 1;
      }
    }
    expect(all).toBeGreaterThan(250);
    expect(right / all).toBeGreaterThanOrEqual(0.99);
  });

  it('is never heard in another octave, however weak its fundamental', () => {
    for (const midi of [34, 46, 58, 70]) {
      const sound = tone({ hertz: frequencyOf(midi), seconds: 1, harmonics: WEAK });
      for (const one of steady(sound, frequencyOf(midi)))
        expect(Math.abs(centsAbove(one.hertz ?? NaN, frequencyOf(midi)))).toBeLessThan(1);
    }
  });

  it('is not heard where another note sounds: a fifth or an octave away', () => {
    for (const interval of [7, -7, 12]) {
      const sound = tone({ hertz: frequencyOf(69 + interval), seconds: 1 });
      const near = steady(sound, 440).filter(({ hertz }) => hertz !== null && Math.abs(centsAbove(hertz, 440)) < 60);
      // An octave above, 440 is a period too: only that is heard as the note itself.
      expect(near.length > 0).toBe(interval === 12);
    }
  });
});

describe('a pitch that is not expected', () => {
  it.each(RANGE.filter((midi) => midi >= 40))('of MIDI note %i is found in its own octave', (midi) => {
    const hertz = frequencyOf(midi + 0.17);
    const heard = steady(tone({ hertz, seconds: 1, harmonics: REED }), null);
    expect(heard.length).toBeGreaterThan(30);
    for (const one of heard) expect(Math.abs(centsAbove(one.hertz ?? NaN, hertz))).toBeLessThan(1);
  });

  it('is none in noise and none in silence', () => {
    const noise = withNoise(new Float32Array(RATE).fill(1e-9), -160, 5).map((x) => x * 20);
    const found = steady(noise, null);
    expect(found.some(({ level }) => level > -60)).toBe(true);
    expect(found.filter(({ hertz }) => hertz !== null)).toEqual([]);
    expect(steady(new Float32Array(RATE), null).filter(({ hertz }) => hertz !== null)).toEqual([]);
  });
});

describe('the readings', () => {
  it('are of a number or of none, where a tone begins out of perfect silence too', () => {
    const sound = after(new Float32Array(RATE / 2), tone({ hertz: 440, seconds: 1 }));
    for (const about of [440, null])
      for (const { hertz } of readings(sound, RATE, () => about)) expect(hertz).not.toBeNaN();
  });

  it.each([8000, 22_050, 44_100, 96_000])('are the same at %i Hz', (rate) => {
    const sound = tone({ hertz: 443.2, seconds: 1, harmonics: REED }, rate);
    for (const one of steady(sound, 440, rate)) expect(Math.abs(centsAbove(one.hertz ?? NaN, 443.2))).toBeLessThan(1);
  });

  it('do not depend on the blocks in which the sound comes', () => {
    const sound = tone({ hertz: 330, seconds: 0.7 });
    const once = readings(sound, RATE, () => 330, sound.length);
    expect(readings(sound, RATE, () => 330, 64)).toEqual(once);
    expect(once.length).toBeGreaterThan(55);
  });

  it('hold no more than a window of the sound', () => {
    expect(pitchFinder(RATE).framesFor(20)).toBeLessThan(RATE / 2);
  });
});
