/** A cornet player in a town brass band who does not exist: what each line is to them, and how it changes. */
import { type Line, lineName } from '../../ladder/line.ts';
import {
  type SimulatedPlayer,
  type Variability,
  LIVELY,
  simulatedPlayer,
} from '../../ladder/settling/simulated-player.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';

/** Sharps or flats of a key, roughly how much harder it is; all of it is invented. */
const SIGNS: Readonly<Record<string, number>> = {
  C: 0,
  G: 1,
  F: 1,
  D: 2,
  Bb: 2,
  A: 3,
  Eb: 3,
  E: 4,
  Ab: 4,
  B: 5,
  Db: 5,
  'F#': 6,
};

const HARDER: Readonly<Record<string, number>> = { single: 0.97, double: 0.84, triple: 0.82 };

/** Lines with a story of their own: one that stands still, one that grows week by week. */
interface Story {
  readonly line: Line;
  /** Of the target: where it begins, and where learning ends. */
  readonly from: number;
  readonly to: number;
  readonly learning: number;
}

export const STANDS_STILL: Line = { exercise: 'five-notes', articulation: 'double', key: 'Bb' };
export const GROWS: Line = { exercise: 'one-note-tongue', articulation: 'double', key: 'G' };

const STORIES: readonly Story[] = [
  { line: STANDS_STILL, from: 0.72, to: 0.73, learning: 0.001 },
  { line: GROWS, from: 0.58, to: 1.4, learning: 0.0006 },
];

const storyOf = (line: Line): Story | undefined => STORIES.find((one) => lineName(one.line) === lineName(line));

const DAILY: Variability = { ...LIVELY, drift: 0.004, form: 0.015, learning: 0.0016, fatigue: 0.0007, rust: 0.001 };

/** How this player begins on a line. */
export function inventedPlayer(exercise: Exercise, line: Line): SimulatedPlayer {
  const { target } = lineRule(exercise, line.articulation);
  const story = storyOf(line);
  const lines = exercise.keys.length * exercise.articulations.length;
  const from = story?.from ?? 0.8 * (HARDER[line.articulation] ?? 1) * (1 - 0.022 * (SIGNS[line.key] ?? 0));
  const ceiling = target * (story?.to ?? 1.4);
  // The seldomer a line comes round, the more each clean repetition of it is worth.
  const learning = story?.learning ?? Math.min(0.02, 0.0022 * lines);
  const variability = { ...DAILY, learning, drift: story ? 0.002 : DAILY.drift };
  return simulatedPlayer(
    { threshold: target * from, slope: 14, lapse: 0.02, tense: 0.35 },
    { ...variability, ceiling },
  );
}
