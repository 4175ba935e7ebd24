/**
 * How long a stretch is needed to tell a pitch: low notes need more of it. The lengths are chosen so that a tone with
 * noise 10 dB below it is read within a cent; longer ones would smear a vibrato.
 */
import type { Frames, FrameRate, Hertz, Seconds } from '../common/units.ts';

/** Up to which pitch which length; what is higher needs the shortest. */
const LENGTHS: readonly (readonly [below: Hertz, length: Seconds])[] = [
  [60, 0.26],
  [100, 0.17],
  [160, 0.13],
  [1000, 0.085],
];
const SHORTEST: Seconds = 0.043;

/** `windowSeconds(440)` is 0.085. */
export const windowSeconds = (about: Hertz): Seconds => LENGTHS.find(([below]) => about < below)?.[1] ?? SHORTEST;

/** Even, so that it has two halves. */
export const windowFrames = (seconds: Seconds, rate: FrameRate): Frames => 2 * Math.round((seconds * rate) / 2);

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/**
 * How much of a vibrato's extent is left in readings from windows of this length, 0 to 1. A reading is the mean of
 * the frequency over the time between the middles of two halves, each weighed by a Hann window: the answer of both
 * to a sine is mathematics (sinc, and the Fourier transform of the Hann window).
 */
export function vibratoLeft(rate: Hertz, window: Seconds): number {
  const x = (rate * window) / 2;
  return (sinc(x) * sinc(x)) / (1 - x * x);
}
