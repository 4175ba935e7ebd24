/**
 * How practice might make a player faster: four models, all of them invented, none of them from a study. What holds
 * under each of them may be said of a rule; what holds under one may not.
 */
import type { Bpm } from '../../src/common/units.ts';
import type { Mark } from '../../src/ladder/rule/ladder-rule.ts';
import type { SimulatedPlayer } from '../../src/ladder/settling/simulated-player.ts';

export interface LearningModel {
  readonly said: string;
  /** What one repetition adds to the log of the threshold, in units of the player's own rate. */
  readonly ofRepetition: (mark: Mark, share: number) => number;
  /** The same for a day of practice, whatever was marked. */
  readonly ofDay: number;
}

/** `share` is the repetition's tempo against the threshold. */
export const MODELS: readonly LearningModel[] = [
  {
    said: 'a clean repetition above four fifths of the threshold teaches',
    ofRepetition: (mark, share) => (mark === 'clean' && share > 0.8 ? 1 : 0),
    ofDay: 0,
  },
  {
    said: 'every repetition near the threshold teaches, whatever its mark',
    ofRepetition: (_, share) => Math.max(0, 1 - Math.abs(Math.log(share)) / 0.2),
    ofDay: 0,
  },
  {
    said: 'clean teaches at any tempo, missed unteaches as much',
    ofRepetition: (mark) => (mark === 'clean' ? 0.7 : mark === 'missed' ? -0.7 : 0),
    ofDay: 0,
  },
  { said: 'a day of practice teaches, whatever is marked', ofRepetition: () => 0, ofDay: 12 },
];

/** The player after so much learning; less and less towards the ceiling. */
export function taught(player: SimulatedPlayer, units: number, rate: number): SimulatedPlayer {
  const { curve, variability } = player;
  const room = Math.min(1, Math.max(0, Math.log(variability.ceiling / curve.threshold)) / Math.log(1.4));
  return { ...player, curve: { ...curve, threshold: curve.threshold * Math.exp(units * rate * room) } };
}

export const taughtByRepetition = (
  player: SimulatedPlayer,
  { ofRepetition }: LearningModel,
  rate: number,
  bpm: Bpm,
  mark: Mark,
): SimulatedPlayer => taught(player, ofRepetition(mark, bpm / player.curve.threshold), rate);
