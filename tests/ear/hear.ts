import { type Reading, listener } from '../../src/ear/sound-readings.ts';

/** All readings of a sound, given in blocks of an odd length so that nothing depends on where they end. */
export function readings(
  sound: Float32Array,
  rate: number,
  about: (at: number) => number | null,
  block = 7001,
): readonly Reading[] {
  const ear = listener(rate, about);
  const out: Reading[] = [];
  for (let at = 0; at < sound.length; at += block) out.push(...ear.hear(sound.subarray(at, at + block)));
  return out;
}
