/** Pulses of vibrato and long tones counted out: how fast, how long. */
import type { Bpm, Hertz, Seconds } from './units.ts';

/** Pulses a second: `pulseRate(60, 4)` is 4 Hz. */
export const pulseRate = (bpm: Bpm, pulsesPerBeat: number): Hertz => (bpm * pulsesPerBeat) / 60;

/** The beat at which so many pulses on it come to a rate: 5 Hz in triplets is 100. */
export const beatForRate = (rate: Hertz, pulsesPerBeat: number): Bpm => (rate * 60) / pulsesPerBeat;

/** A rung of the ladder of pulses: the beat stays, the pulses on it grow. */
export interface PulseRung {
  readonly pulses: number;
  readonly rate: Hertz;
  /** '4 on each beat: 4.0 Hz' */
  readonly words: string;
}

/** Three, four, five and six pulses on a beat. */
export const USUAL_PULSES: readonly number[] = [3, 4, 5, 6];

/** The ladder of pulses at a set beat, in rising order without repeats. */
export const pulseRungs = (bpm: Bpm, pulses: readonly number[] = USUAL_PULSES): readonly PulseRung[] =>
  [...new Set(pulses)].sort((a, b) => a - b).map((count) => {
    const rate = pulseRate(bpm, count);
    return { pulses: count, rate, words: `${count} on each beat: ${rate.toFixed(1)} Hz` };
  });

/** What recorded flutists mostly use: L. Garrison, Visualizing Vibrato, 2012, read. A remark, not a rule. */
export const USUAL_VIBRATO: readonly [Hertz, Hertz] = [5, 7];

/** Long tones: so many breaths, each of so many seconds of sound and of rest. */
export interface LongTones {
  readonly breaths: number;
  readonly seconds: Seconds;
  readonly rest: Seconds;
}

export interface LongTonePlace {
  /** Counts from 1; null when all are done. */
  readonly breath: number | null;
  readonly phase: 'sound' | 'rest' | 'done';
  /** Seconds into the phase, and what is left of it. */
  readonly into: Seconds;
  readonly left: Seconds;
}

export const longTonesLast = ({ breaths, seconds, rest }: LongTones): Seconds => Math.max(0, breaths * (seconds + rest) - rest);

/** Where one is after so many seconds. After the last breath there is no rest. */
export function longToneAt(tones: LongTones, elapsed: Seconds): LongTonePlace {
  const round = tones.seconds + tones.rest;
  if (elapsed >= longTonesLast(tones)) return { breath: null, phase: 'done', into: 0, left: 0 };
  const breath = Math.floor(elapsed / round);
  const into = elapsed - breath * round;
  return into < tones.seconds
    ? { breath: breath + 1, phase: 'sound', into, left: tones.seconds - into }
    : { breath: breath + 1, phase: 'rest', into: into - tones.seconds, left: round - into };
}
