/** What the marks say about the lines on the stand: kept up to date mark by mark, asked when a line is opened. */

import { type KeyName, type Line, lineName } from '../../ladder/line.ts';
import { dayNumber } from '../../common/days.ts';
import { type Climb, startAt } from '../../ladder/rule/climb.ts';
import { climbOf } from '../../ladder/speed/line-history.ts';
import {
  type LineQuestion,
  type Knowledge,
  type LineEstimate,
  type PlayedLine,
  estimateOf,
  learnAllLines,
  learnLineAgain,
  startOf,
  wallAhead,
} from '../../ladder/speed/speed-knowledge.ts';
import type { Wall } from '../../ladder/wall/wall.ts';
import { rungsOf } from '../../ladder/rule/rungs.ts';
import { type Crossing, type SpeedKnown, crossing } from '../../plan/rotation/single-double-crossing.ts';
import { type Exercise } from '../../plan/routine/exercise.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { notesPerSecond } from '../../music/time/meter.ts';
import { countedOnBeat } from '../../music/tongue/vibrato.ts';
import type { Practice } from '../line/line-on-stand.ts';
import type { Stand } from '../stand.ts';

/** All that is known; worked out once, when it is first asked for. */
export const withKnowledge = (stand: Stand): Stand & { readonly knowledge: Knowledge } => ({
  ...stand,
  knowledge: stand.knowledge ?? learnAllLines(Object.values(stand.lines)),
});

const askedOf = ({ today }: Stand, exercise: Exercise, line: Line): LineQuestion => ({
  line,
  notesPerBeat: countedOnBeat(line.articulation, exercise.notesPerBeat),
  rule: lineRule(exercise, line.articulation),
  day: dayNumber(today),
});

/** The speed estimate of a line, played or not. */
export const estimateFor = (
  stand: Stand & { readonly knowledge: Knowledge },
  exercise: Exercise,
  line: Line,
): LineEstimate => estimateOf(stand.knowledge, askedOf(stand, exercise, line));

export interface OpeningClimb {
  readonly climb: Climb;
  /** One line for the player; null where the line simply goes on. */
  readonly reason: string | null;
}

/** A line played today goes on where it was left; on another day it starts where the marks say. */
export function climbToday(
  stand: Stand & { readonly knowledge: Knowledge },
  exercise: Exercise,
  line: Line,
): OpeningClimb {
  const history = stand.lines[lineName(line)];
  if (history && history.lastDay === stand.today) return { climb: climbOf(history), reason: null };
  // A tempo chosen by hand for a line without marks is the player's word.
  if (history && history.tallies.length === 0) return { climb: climbOf(history), reason: null };
  const { bpm, reason } = startOf(
    stand.knowledge,
    askedOf(stand, exercise, line),
    rungsOf(lineRule(exercise, line.articulation)),
  );
  return { climb: startAt(bpm, history?.best?.bpm ?? null), reason };
}

/** After something was stored: what is known of its line, and of nothing else. */
export const relearn = (knowledge: Knowledge | null, history: PlayedLine | null): Knowledge | null =>
  knowledge && history ? learnLineAgain(knowledge, history) : null;

/** The wall that a line is in front of, or null. */
export const wallFor = (
  stand: Stand & { readonly knowledge: Knowledge },
  { exercise, line, rungs }: Practice,
): Wall | null => wallAhead(stand.knowledge, askedOf(stand, exercise, line), rungs);

const inNotes = ({ bpm, low, high }: LineEstimate, { notesPerBeat }: Exercise): SpeedKnown => ({
  speed: notesPerSecond(bpm, notesPerBeat),
  low: notesPerSecond(low, notesPerBeat),
  high: notesPerSecond(high, notesPerBeat),
});

const isPlayed = ({ lines }: Stand, line: Line): boolean => (lines[lineName(line)]?.tallies.length ?? 0) > 0;

/** Where single tonguing tires and double or triple takes over; null unless both were played in this key. */
export function crossingOf(
  stand: Stand & { readonly knowledge: Knowledge },
  exercise: Exercise,
  key: KeyName,
): Crossing | null {
  const line = (articulation: string): Line => ({ exercise: exercise.id, articulation, key });
  const multiple = exercise.articulations.find((name) => name === 'double' || name === 'triple');
  if (!multiple || !isPlayed(stand, line('single')) || !isPlayed(stand, line(multiple))) return null;
  const known = (articulation: string): SpeedKnown =>
    inNotes(estimateFor(stand, exercise, line(articulation)), exercise);
  return crossing(known('single'), known(multiple), multiple);
}
