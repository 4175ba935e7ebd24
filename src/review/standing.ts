/** Where every line stands: from its start to its target, now and eight weeks ago, its wall; the neediest first. */
import { type DayNumber, dayNumber } from '../common/days.ts';
import type { Bpm } from '../common/units.ts';
import { type Line, lineName } from '../ladder/line.ts';
import { DEFAULT_RULE, type LadderRule } from '../ladder/rule/ladder-rule.ts';
import { rungsOf } from '../ladder/rule/rungs.ts';
import { NO_MARKS, cleanShare, repetitions, summed } from '../ladder/speed/line-history.ts';
import { type SafeTempo, safeTempo } from '../ladder/speed/safe-tempo.ts';
import {
  type Knowledge,
  type LineEstimate,
  type LineQuestion,
  type PlayedLine,
  estimateOf,
  learnLineAgain,
  wallAhead,
} from '../ladder/speed/speed-knowledge.ts';
import type { Wall } from '../ladder/wall/wall.ts';
import { countedOnBeat } from '../music/tongue/vibrato.ts';
import { lineRule } from '../plan/rotation/multiple-tonguing-steps.ts';
import { titleAmong } from '../plan/routine/exercise-identity.ts';
import type { Exercise } from '../plan/routine/exercise.ts';

/** So far back the comparison goes. */
export const WEEKS_BACK = 8;
/** A line that was not played for longer waits. */
export const WAITS_AFTER = 28;
/** Worked at, and not only tried: so many marks. */
const WORKED_AT = 10;

/** What is known of a player's lines. */
export interface Lines {
  readonly lines: Readonly<Record<string, PlayedLine>>;
  readonly exercises: readonly Exercise[];
  readonly knowledge: Knowledge;
  /** The player's own day, 'YYYY-MM-DD'. */
  readonly today: string;
}

/** What is known of a line's speed on a day: what may be said, and the whole 80 % interval. */
export interface SpeedThen {
  readonly said: SafeTempo;
  readonly low: Bpm;
  readonly bpm: Bpm;
  readonly high: Bpm;
}

export interface Standing {
  readonly line: Line;
  /** Null where no routine has it any more. */
  readonly exercise: Exercise | null;
  readonly title: string;
  readonly start: Bpm;
  readonly target: Bpm;
  readonly now: SpeedThen;
  /** Null where it had not been played eight weeks ago. */
  readonly before: SpeedThen | null;
  readonly wall: Wall | null;
  /** Beats per minute gained in eight weeks; null where either end is not known well enough. */
  readonly gain: Bpm | null;
  readonly marks: number;
  /** Share of clean repetitions in these weeks, 0 to 1; null without any. */
  readonly clean: number | null;
  /** Whole days since it was last played. */
  readonly daysAgo: number;
}

const ruleFor = (exercise: Exercise | null, { line, tallies }: PlayedLine): LadderRule =>
  exercise ? lineRule(exercise, line.articulation) : { ...DEFAULT_RULE, start: tallies[0]?.bpm ?? DEFAULT_RULE.start };

/** What a question about a line's speed needs to say. */
export function questionOf(exercise: Exercise | null, history: PlayedLine, day: DayNumber): LineQuestion {
  const { line, notesPerBeat } = history;
  const notes = exercise ? countedOnBeat(line.articulation, exercise.notesPerBeat) : notesPerBeat;
  return { line, notesPerBeat: notes, rule: ruleFor(exercise, history), day };
}

const speedOf = (estimate: LineEstimate): SpeedThen => {
  const { low, bpm, high } = estimate;
  return { said: safeTempo(estimate), low, bpm, high };
};

/**
 * What was known of a line at the end of an earlier day; null before its first mark. What other lines lend it is
 * today's.
 */
export function speedOn(knowledge: Knowledge, history: PlayedLine, asked: LineQuestion): SpeedThen | null {
  const tallies = history.tallies.filter(({ day }) => dayNumber(day) <= asked.day);
  const last = tallies.at(-1);
  if (!last) return null;
  const then = learnLineAgain(knowledge, { ...history, tallies, lastDay: last.day });
  return speedOf(estimateOf(then, asked));
}

/** Beats per minute between two numbers that may be said; null where one may not. */
export function gained(now: SpeedThen, before: SpeedThen | null): Bpm | null {
  if (before === null || now.said.known !== 'near' || before.said.known !== 'near') return null;
  return now.said.bpm - before.said.bpm;
}

function recently({ tallies }: PlayedLine, since: DayNumber): number | null {
  return cleanShare(tallies.filter(({ day }) => dayNumber(day) > since).reduce(summed, NO_MARKS));
}

/** Beats per minute gained in so many days; null where either end is not known well enough. */
export function gainedIn(knowledge: Knowledge, history: PlayedLine, asked: LineQuestion, days: number): Bpm | null {
  const now = speedOf(estimateOf(knowledge, asked));
  return gained(now, speedOn(knowledge, history, { ...asked, day: asked.day - days }));
}

function standingOf({ exercises, knowledge, today }: Lines, history: PlayedLine): Standing {
  const day = dayNumber(today);
  const { line } = history;
  const exercise = exercises.find(({ id }) => id === line.exercise) ?? null;
  const asked = questionOf(exercise, history, day);
  const now = speedOf(estimateOf(knowledge, asked));
  const before = speedOn(knowledge, history, { ...asked, day: day - 7 * WEEKS_BACK });
  return {
    line,
    exercise,
    title: exercise ? titleAmong(exercise, exercises) : line.exercise,
    start: asked.rule.start,
    target: asked.rule.target,
    now,
    before,
    wall: wallAhead(knowledge, asked, rungsOf(asked.rule)),
    gain: gained(now, before),
    marks: history.tallies.reduce((sum, tally) => sum + repetitions(tally), 0),
    clean: recently(history, day - 7 * WEEKS_BACK),
    daysAgo: Math.max(0, day - dayNumber(history.lastDay)),
  };
}

/** Whether a line was worked at and then left alone for more than four weeks. */
export const isWaiting = ({ daysAgo, marks, exercise }: Standing): boolean =>
  daysAgo > WAITS_AFTER && marks >= WORKED_AT && exercise !== null && !exercise.retired;

/** The target lies below the whole of what is known. */
export const isAtTarget = ({ now, target }: Standing): boolean => now.said.known !== 'too little' && now.low >= target;

/** Stuck, then played of late, then waiting, then what is not known yet, then what is there already. */
function rankOf(standing: Standing): number {
  if (standing.wall) return 0;
  if (isAtTarget(standing)) return 4;
  if (isWaiting(standing)) return 2;
  return standing.gain === null ? 3 : 1;
}

/** Among those of a rank: least gained first; of those that wait the longest, of those stuck the most played first. */
function byNeed(a: Standing, b: Standing): number {
  const rank = rankOf(a) - rankOf(b);
  if (rank !== 0) return rank;
  if (a.wall) return b.marks - a.marks;
  if (isWaiting(a)) return b.daysAgo - a.daysAgo;
  return (a.gain ?? 0) / a.now.bpm - (b.gain ?? 0) / b.now.bpm || b.marks - a.marks;
}

/** Every line that was ever marked, the neediest first. */
export const standingsOf = (known: Lines): readonly Standing[] =>
  Object.values(known.lines)
    .filter(({ line, tallies }) => tallies.length > 0 && known.knowledge.lines.has(lineName(line)))
    .map((history) => standingOf(known, history))
    .toSorted(byNeed);
