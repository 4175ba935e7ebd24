/** Pitch to frequency. Sources: equal temperament and the just ratios are mathematics; A4 = 440 Hz is ISO 16. */
import { type Ratio, ratio, toNumber } from '../time/ratio.ts';
import type { Drone } from '../sound/sound-commands.ts';
import type { Hertz, MidiNote, Semitones } from '../../common/units.ts';

/** `frequencyOf(69)` is 440; a fraction of a semitone tunes. */
export const frequencyOf = (midi: MidiNote, a4: Hertz = 440): Hertz => a4 * 2 ** ((midi - 69) / 12);

type DroneVoice = Drone['voices'][number];

/** Each voice above the tonic, in both tunings. */
export const DRONE_INTERVALS: Readonly<Record<DroneVoice, { readonly just: Ratio; readonly equal: Semitones }>> = {
  tonic: { just: ratio(1), equal: 0 },
  octave: { just: ratio(2), equal: 12 },
  fifth: { just: ratio(3, 2), equal: 7 },
  'major-third': { just: ratio(5, 4), equal: 4 },
  'minor-third': { just: ratio(6, 5), equal: 3 },
};

/** Frequency of the tonic on which a drone's voices stand; it is equal-tempered. */
export const droneTonicFrequency = ({ tonic, detune, a4 }: Drone): Hertz => frequencyOf(tonic + detune / 100, a4);

/** How many times the tonic's frequency a voice has: in just tuning it is pure. */
export function droneRatio(voice: DroneVoice, tuning: Drone['tuning']): number {
  const interval = DRONE_INTERVALS[voice];
  return tuning === 'just' ? toNumber(interval.just) : 2 ** (interval.equal / 12);
}

/** Frequencies of a drone's voices, in the order asked for. */
export function droneFrequencies(drone: Drone): readonly Hertz[] {
  const tonic = droneTonicFrequency(drone);
  return drone.voices.map((voice) => tonic * droneRatio(voice, drone.tuning));
}

/** A drone on a tonic, as it sounds when nothing else is asked for. */
export const PLAIN_DRONE: Drone = {
  tonic: 58,
  voices: ['tonic'],
  tuning: 'just',
  a4: 440,
  timbre: 'reed',
  gain: 0.5,
  detune: 0,
};
