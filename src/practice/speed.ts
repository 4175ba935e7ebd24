/** What the marks say about the lines on the stand: kept up to date mark by mark, asked when a line is opened. */
import { dayNumber } from '../ladder/day.ts';
import { type Climb, startAt } from '../ladder/climb.ts';
import { climbOf } from '../ladder/history.ts';
import { type Asked, type Knowledge, type Known, type PlayedLine, estimateOf, learn, relearnt, startOf, wallAhead } from '../ladder/knowledge.ts';
import type { Wall } from '../ladder/walls.ts';
import { rungsOf } from '../ladder/rungs.ts';
import { type Crossing, type SpeedKnown, crossing } from '../plan/crossing.ts';
import { type Exercise, type KeyName, type Line, lineId } from '../plan/exercise.ts';
import { lineRule } from '../plan/split.ts';
import { notesPerSecond } from '../music/meter.ts';
import { countedOnBeat } from '../music/vibrato.ts';
import type { Practice } from './practice.ts';
import type { Stand } from './stand.ts';

/** All that is known; worked out once, when it is first asked for. */
export const withKnowledge = (stand: Stand): Stand & { readonly knowledge: Knowledge } => ({
  ...stand,
  knowledge: stand.knowledge ?? learn(Object.values(stand.lines)),
});

const askedOf = ({ today }: Stand, exercise: Exercise, line: Line): Asked => ({
  line,
  notesPerBeat: countedOnBeat(line.articulation, exercise.notesPerBeat),
  rule: lineRule(exercise, line.articulation),
  day: dayNumber(today),
});

/** The speed estimate of a line, played or not. */
export const estimateFor = (stand: Stand & { readonly knowledge: Knowledge }, exercise: Exercise, line: Line): Known =>
  estimateOf(stand.knowledge, askedOf(stand, exercise, line));

export interface OpeningClimb {
  readonly climb: Climb;
  /** One line for the player; null where the line simply goes on. */
  readonly reason: string | null;
}

/** A line played today goes on where it was left; on another day it starts where the marks say. */
export function climbToday(stand: Stand & { readonly knowledge: Knowledge }, exercise: Exercise, line: Line): OpeningClimb {
  const history = stand.lines[lineId(line)];
  if (history && history.lastDay === stand.today) return { climb: climbOf(history), reason: null };
  // A tempo chosen by hand for a line without marks is the player's word.
  if (history && history.tallies.length === 0) return { climb: climbOf(history), reason: null };
  const { bpm, reason } = startOf(stand.knowledge, askedOf(stand, exercise, line), rungsOf(lineRule(exercise, line.articulation)));
  return { climb: startAt(bpm, history?.best?.bpm ?? null), reason };
}

/** After something was stored: what is known of its line, and of nothing else. */
export const relearn = (knowledge: Knowledge | null, history: PlayedLine | null): Knowledge | null =>
  knowledge && history ? relearnt(knowledge, history) : null;

/** The wall that a line is in front of, or null. */
export const wallFor = (stand: Stand & { readonly knowledge: Knowledge }, { exercise, line, rungs }: Practice): Wall | null =>
  wallAhead(stand.knowledge, askedOf(stand, exercise, line), rungs);

const inNotes = ({ bpm, low, high }: Known, { notesPerBeat }: Exercise): SpeedKnown => ({
  speed: notesPerSecond(bpm, notesPerBeat),
  low: notesPerSecond(low, notesPerBeat),
  high: notesPerSecond(high, notesPerBeat),
});

const isPlayed = ({ lines }: Stand, line: Line): boolean => (lines[lineId(line)]?.tallies.length ?? 0) > 0;

/** Where single tonguing tires and double or triple takes over; null unless both were played in this key. */
export function crossingOf(stand: Stand & { readonly knowledge: Knowledge }, exercise: Exercise, key: KeyName): Crossing | null {
  const line = (articulation: string): Line => ({ exercise: exercise.id, articulation, key });
  const multiple = exercise.articulations.find((name) => name === 'double' || name === 'triple');
  if (!multiple || !isPlayed(stand, line('single')) || !isPlayed(stand, line(multiple))) return null;
  const known = (articulation: string): SpeedKnown => inNotes(estimateFor(stand, exercise, line(articulation)), exercise);
  return crossing(known('single'), known(multiple), multiple);
}
