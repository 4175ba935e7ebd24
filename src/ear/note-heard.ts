/** What was heard of one note: its attack and its release left out, how far from where it should be, and where. */
import type { Cents, Hertz, Seconds } from '../common/units.ts';
import { centsAbove } from './cents.ts';
import type { Reading } from './sound-readings.ts';
import { deviation, median, middleHalf, slopeOf } from './statistics.ts';
import { type Point, type Vibrato, vibratoOf } from './vibrato.ts';

/** Further away it is another note, or none: half a semitone and a little. */
const ANOTHER: Cents = 60;
/** A tone needs so long to speak. Judgement, no source. */
const ATTACK: Seconds = 0.04;
/** A gap in a note that is still one note. */
const GAP: Seconds = 0.05;
/** Fewer readings are no line. */
const FEWEST = 4;

export interface HeardNote {
  /** When it sounded, attack and release included. */
  readonly from: Seconds;
  readonly to: Seconds;
  /** Its pitch line, attack and release left out. */
  readonly line: readonly Point[];
  /** Median of the whole line, of its first quarter, of the half between, of its last quarter. */
  readonly cents: Cents;
  readonly beginning: Cents;
  readonly middle: Cents;
  readonly end: Cents;
  /** How wide the middle half of the readings is. */
  readonly spread: Cents;
  /** What it gained from its beginning to its end, by a straight line through all of it. */
  readonly drift: Cents;
  /** Decibels below full scale, and their standard deviation. */
  readonly level: number;
  readonly unevenLevel: number;
  readonly vibrato: Vibrato | null;
}

/** The longest stretch without a gap. */
function longestRun(readings: readonly Reading[]): readonly Reading[] {
  const starts = readings.flatMap(({ at }, i) => (at - (readings[i - 1]?.at ?? -1) > GAP ? [i] : []));
  const runs = starts.map((start, i) => readings.slice(start, starts[i + 1]));
  return runs.reduce((best, run) => (run.length > best.length ? run : best), []);
}

const quarters = (line: readonly Point[]): readonly (readonly Cents[])[] => {
  const cents = line.map((point) => point.cents);
  const quarter = Math.max(1, Math.round(cents.length / 4));
  return [cents.slice(0, quarter), cents.slice(quarter, cents.length - quarter), cents.slice(-quarter)];
};

/** Only windows that lie within the note, once it has spoken: the others heard what was before or after it too. */
function lineOf(run: readonly Reading[], hertz: Hertz): readonly Point[] {
  const [from, to] = [run[0]?.at ?? 0, run.at(-1)?.at ?? 0];
  return run
    .filter(({ at, window }) => at >= from + window / 2 + ATTACK && at <= to - window / 2)
    .map((reading) => ({ at: reading.at, cents: centsAbove(reading.hertz as Hertz, hertz) }));
}

/** Null where it was not heard, or is too short. `readings` are those of the time in which it should sound. */
export function heardNote(readings: readonly Reading[], hertz: Hertz): HeardNote | null {
  const own = readings.filter((one) => one.hertz !== null && Math.abs(centsAbove(one.hertz, hertz)) <= ANOTHER);
  const run = longestRun(own);
  const line = lineOf(run, hertz);
  const [first, last] = [run[0], run.at(-1)];
  if (!first || !last || line.length < FEWEST) return null;
  const [beginning = [], middle = [], end = []] = quarters(line);
  const cents = line.map((point) => point.cents);
  const [lineFrom, lineTo] = [line[0]?.at ?? 0, line.at(-1)?.at ?? 0];
  const levels = run.filter(({ at }) => at >= lineFrom && at <= lineTo).map(({ level }) => level);
  return {
    from: first.at,
    to: last.at,
    line,
    cents: median(cents),
    beginning: median(beginning),
    middle: median(middle),
    end: median(end),
    spread: middleHalf(cents),
    drift: slopeOf(line.map((point) => [point.at, point.cents])) * (lineTo - lineFrom),
    level: median(levels),
    unevenLevel: deviation(levels),
    vibrato: vibratoOf(line, first.window),
  };
}
