/**
 * The notes of all twelve degrees over a drone, pure. The ratios are those of any handbook of tuning (16:15 to 15:8;
 * 9:5 for the minor seventh is one of two in use: common practice, no source).
 */
import type { Drone } from '../sound/sound-commands.ts';
import { type Ratio, ratio, toNumber } from '../time/ratio.ts';
import type { Hertz, MidiNote } from '../../common/units.ts';
import { frequencyOf } from './tuning.ts';

/** By semitones above the tonic. */
const ABOVE_TONIC: readonly Ratio[] = [
  ratio(1),
  ratio(16, 15),
  ratio(9, 8),
  ratio(6, 5),
  ratio(5, 4),
  ratio(4, 3),
  ratio(45, 32),
  ratio(3, 2),
  ratio(8, 5),
  ratio(5, 3),
  ratio(9, 5),
  ratio(15, 8),
];

/**
 * Frequency of a note as the drone would have it: tempered, or pure above its tempered tonic.
 * `tunedFrequency(62, { tuning: 'just', tonic: 58, a4: 440 })` is 5/4 of B flat 3, 291.35 Hz.
 */
export function tunedFrequency(midi: MidiNote, { tuning, tonic, a4 }: Pick<Drone, 'tuning' | 'tonic' | 'a4'>): Hertz {
  if (tuning === 'equal') return frequencyOf(midi, a4);
  const octaves = Math.floor((midi - tonic) / 12);
  const above = ABOVE_TONIC[midi - tonic - 12 * octaves] ?? ratio(1);
  return frequencyOf(tonic, a4) * toNumber(above) * 2 ** octaves;
}
