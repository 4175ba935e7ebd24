/** All that the marks say about a player's speed: one belief a line, and what the lines lend each other. */
import { type Line, lineName } from '../line.ts';
import { type DayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { isPlayable } from '../rule/rule-check.ts';

import {
  type Belief,
  type Marking,
  NO_BELIEF,
  type Normal,
  type SpeedEstimate,
  afterTallies,
  beliefFrom,
  weightsOn,
  markingOf,
  normalOf,
  playableMarks,
  speedEstimate,
  tenseShareOf,
  together,
  weakPrior,
} from './speed-estimate.ts';
import { type LineHistory, NO_MARKS, type Tally, countsOf, summed } from './line-history.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import type { Rungs } from '../rule/rungs.ts';
import {
  type PooledReadings,
  type Reading,
  predictEachFromOthers,
  pooled,
  predictLine,
} from './speed-from-other-lines.ts';
import { type Start, startToday } from './todays-start.ts';
import { type Expectation, counted } from './clean-expected.ts';
import { type Wall, wallOf } from '../wall/wall.ts';

/** A line with its history and the notes on each of its beats, by which speeds compare. */
export interface PlayedLine extends LineHistory {
  readonly notesPerBeat: number;
}

interface LineKnowledge {
  readonly history: PlayedLine;
  /** From all days but the last, and from all. */
  readonly before: Belief;
  readonly belief: Belief;
  /** What the other lines say of it, over log beats per minute; null when there are no others. */
  readonly prior: Normal | null;
}

export interface Knowledge {
  readonly marking: Marking;
  readonly lines: ReadonlyMap<string, LineKnowledge>;
  readonly pool: PooledReadings;
}

/** What a question about a line needs to say. */
export interface LineQuestion {
  readonly line: Line;
  readonly notesPerBeat: number;
  readonly rule: LadderRule;
  readonly day: DayNumber;
  /** Something was played on that day already; for where it starts. */
  readonly warm?: boolean;
}

export interface LineEstimate extends SpeedEstimate {
  /** Whether other lines have been drawn on. */
  readonly siblings: boolean;
  /** The slowest and the fastest tempo at which the line was marked; null before the first mark. */
  readonly played: { readonly low: Bpm; readonly high: Bpm } | null;
}

/** Whether an estimate can be acted on: its interval is narrower than a third of its middle. */
export const isSure = ({ bpm, low, high }: LineEstimate): boolean => high - low < bpm / 3;

/** From log beats per minute to log notes per second. */
const toNotes = (notesPerBeat: number): number => Math.log((notesPerBeat || 1) / 60);

const shifted = ({ mean, sd }: Normal, by: number): Normal => ({ mean: mean + by, sd });

function read(marking: Marking, history: PlayedLine): LineKnowledge {
  const earlier = history.tallies.filter(({ day }) => day < history.lastDay);
  const before = beliefFrom(marking, earlier);
  return { history, before, belief: lastDayOn(marking, before, history), prior: null };
}

const lastDayOn = (marking: Marking, before: Belief, { tallies, lastDay }: PlayedLine): Belief =>
  afterTallies(
    marking,
    before,
    tallies.filter(({ day }) => day >= lastDay),
  );

/**
 * What the line's own marks say, with the prior that was used to read them taken out again; null if hardly anything.
 */
function readingOf({ history, belief }: LineKnowledge, prior: Normal): Reading | null {
  if (belief.day === null) return null;
  const { mean, sd } = normalOf(weightsOn(belief, prior, belief.day));
  const weight = 1 / sd ** 2 - 1 / prior.sd ** 2;
  if (weight < 0.5) return null;
  const speed = (mean / sd ** 2 - prior.mean / prior.sd ** 2) / weight + toNotes(history.notesPerBeat);
  return { line: history.line, speed, sd: Math.sqrt(1 / weight) };
}

/** A first reading needs a prior too: wide, and about where the marks are. */
function wide({ history }: LineKnowledge): Normal {
  const { tallies } = history;
  const mean = tallies.reduce((sum, { bpm }) => sum + Math.log(bpm), 0) / tallies.length;
  return { mean, sd: 0.35 };
}

function lendToEachOther(
  lines: readonly LineKnowledge[],
  priors: readonly Normal[],
  scale?: number,
): { pool: PooledReadings; priors: readonly Normal[] } {
  const readings = lines.map((line, i) => readingOf(line, priors[i]!));
  const pool = pooled(
    readings.filter((reading) => reading !== null),
    scale,
  );
  const others = predictEachFromOthers(pool);
  let next = 0;
  const found = lines.map((line, i) => {
    const said = readings[i] ? others[next++]! : predictLine(pool, line.history.line);
    return shifted(said, -toNotes(line.history.notesPerBeat));
  });
  return { pool, priors: found };
}

/** Whether any other line says something. */
const hasSiblings = ({ readings }: PooledReadings, line: Line): boolean =>
  readings.some((reading) => lineName(reading.line) !== lineName(line));

/** Everything from the beginning; lines without marks are left out. */
export function learnAllLines(histories: Iterable<PlayedLine>): Knowledge {
  const played = [...histories].filter(({ tallies }) => tallies.length > 0);
  const marking = markingOf(tenseShareOf(played.map((line) => countsOf(line)).reduce(summed, NO_MARKS)));
  const lines = played.map((history) => read(marking, history)).filter(({ belief }) => belief.marks > 0);
  // Twice: the second reading rests on what the first has lent.
  const once = lendToEachOther(lines, lines.map(wide));
  const { pool, priors } = lendToEachOther(lines, once.priors, once.pool.scale);
  const known = lines.map((line, i) => ({ ...line, prior: hasSiblings(pool, line.history.line) ? priors[i]! : null }));
  return { marking, lines: new Map(known.map((line) => [lineName(line.history.line), line])), pool };
}

/** Marks of earlier days; another number than before means that one of them was taken back. */
const earlierMarks = ({ tallies, lastDay }: PlayedLine): number =>
  playableMarks(tallies.filter(({ day }) => day < lastDay));

/**
 * After one more mark, or one less: the line's belief anew, from the day before the last. What lines lend
 * each other stays as it was, until `learnAllLines` is asked again.
 */
export function learnLineAgain(knowledge: Knowledge, history: PlayedLine): Knowledge {
  const name = lineName(history.line);
  const old = knowledge.lines.get(name);
  const same =
    old !== undefined && old.history.lastDay === history.lastDay && earlierMarks(history) === old.before.marks;
  const line = same
    ? { ...old, history, belief: lastDayOn(knowledge.marking, old.before, history) }
    : { ...read(knowledge.marking, history), prior: old ? old.prior : lentTo(knowledge, history) };
  return { ...knowledge, lines: new Map(knowledge.lines).set(name, line) };
}

/** What some of the other lines say of a line that no reading is of, over log beats per minute; null without any. */
function lentBy(
  { pool }: Knowledge,
  { line, notesPerBeat }: Pick<PlayedLine, 'line' | 'notesPerBeat'>,
  counts: (line: Line) => boolean,
): Normal | null {
  const readings = pool.readings.filter((reading) => counts(reading.line));
  return readings.length === 0
    ? null
    : shifted(predictLine(pooled(readings, pool.scale), line), -toNotes(notesPerBeat));
}

/** What the other lines say of a line that no reading is of, over log beats per minute; null when there are none. */
const lentTo = (
  { pool }: Knowledge,
  { line, notesPerBeat }: Pick<PlayedLine, 'line' | 'notesPerBeat'>,
): Normal | null => (pool.readings.length === 0 ? null : shifted(predictLine(pool, line), -toNotes(notesPerBeat)));

function priorOf(knowledge: Knowledge, asked: LineQuestion): Normal {
  const own = weakPrior(asked.rule);
  const known = knowledge.lines.get(lineName(asked.line));
  const lent = known ? known.prior : lentTo(knowledge, asked);
  return lent === null ? own : together(lent, own);
}

const beliefOf = ({ lines }: Knowledge, line: Line): Belief => lines.get(lineName(line))?.belief ?? NO_BELIEF;

function playedOf({ lines }: Knowledge, line: Line): LineEstimate['played'] {
  const tempos = (lines.get(lineName(line))?.history.tallies ?? []).map(({ bpm }) => bpm).filter(isPlayable);
  return tempos.length === 0 ? null : { low: Math.min(...tempos), high: Math.max(...tempos) };
}

/** The tempo at which the player is clean nine times in ten on a line, played or not, on a day. */
export const estimateOf = (knowledge: Knowledge, asked: LineQuestion): LineEstimate => ({
  ...speedEstimate(beliefOf(knowledge, asked.line), priorOf(knowledge, asked), asked.day),
  siblings: hasSiblings(knowledge.pool, asked.line),
  played: playedOf(knowledge, asked.line),
});

/** What a rule that aims goes by on a day, before any more marks. */
export const expectationOf = (knowledge: Knowledge, asked: LineQuestion): Expectation => ({
  marking: knowledge.marking,
  belief: beliefOf(knowledge, asked.line),
  prior: priorOf(knowledge, asked),
  day: asked.day,
  played: (knowledge.lines.get(lineName(asked.line))?.history.tallies ?? []).map(counted),
});

/** Where the line starts today, with the reason. */
export const startOf = (knowledge: Knowledge, asked: LineQuestion, rungs: Rungs): Start =>
  startToday({
    rule: asked.rule,
    rungs,
    marking: knowledge.marking,
    belief: beliefOf(knowledge, asked.line),
    prior: priorOf(knowledge, asked),
    best: knowledge.lines.get(lineName(asked.line))?.history.best?.bpm ?? null,
    reached: reachedOf(knowledge.lines.get(lineName(asked.line))?.history.tallies ?? []),
    day: asked.day,
    warm: asked.warm ?? false,
    family: lentBy(knowledge, asked, ({ exercise }) => exercise === asked.line.exercise),
    others: lentTo(knowledge, asked),
  });

/** The fastest tempo that was clean; the slowest tried where none was; null before any mark. */
function reachedOf(tallies: readonly Tally[]): Bpm | null {
  if (tallies.length === 0) return null;
  const clean = tallies.filter((tally) => tally.clean > 0).map(({ bpm }) => bpm);
  return clean.length > 0 ? Math.max(...clean) : Math.min(...tallies.map(({ bpm }) => bpm));
}

/** The wall that a line stands before, or null. */
export function wallAhead(knowledge: Knowledge, asked: LineQuestion, rungs: Rungs): Wall | null {
  const known = knowledge.lines.get(lineName(asked.line));
  if (!known) return null;
  const { rule, day } = asked;
  return wallOf({
    history: known.history,
    rule,
    rungs,
    marking: knowledge.marking,
    prior: priorOf(knowledge, asked),
    day,
  });
}
