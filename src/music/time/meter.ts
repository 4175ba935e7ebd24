import { type Ratio, QUARTER, divide, ratio } from './ratio.ts';
import type { Bpm, NotesPerSecond, Seconds } from '../../common/units.ts';

/** A time signature with the grouping that makes it audible, e.g. 7/8 as 2+2+3. */
export interface Meter {
  /** Upper number: how many units fill a bar. */
  readonly count: number;
  /** Lower number: the unit's note value, a power of two. */
  readonly unit: number;
  /** Units in each group, in order; they add up to `count`. */
  readonly groups: readonly number[];
}

/** A speed: so many of these beats in a minute. */
export interface Tempo {
  readonly bpm: Bpm;
  /** The beat's note value: 1/4 a quarter, 3/8 a dotted quarter. */
  readonly beat: Ratio;
}

export const COMMON_TIME: Meter = { count: 4, unit: 4, groups: [4] };

/** Length of a bar as a fraction of a whole note: 7/8 is 7/8, 4/4 is 1. */
export const barLength = (meter: Meter): Ratio => ratio(meter.count, meter.unit);

/** How long a note value lasts: `secondsOf(QUARTER, { bpm: 120, beat: QUARTER })` is 0.5. */
export const secondsOf = (value: Ratio, tempo: Tempo): Seconds =>
  (value.n * tempo.beat.d * 60) / (value.d * tempo.beat.n * tempo.bpm);

/** Speeds compare across note values: bpm x notes per beat / 60. Sixteenths at 120 are 8.0. */
export const notesPerSecond = (bpm: Bpm, notesPerBeat: number): NotesPerSecond => (bpm * notesPerBeat) / 60;

export const quarterTempo = (bpm: Bpm): Tempo => ({ bpm, beat: QUARTER });

/** `beatsOfBar` of 6/8 in dotted quarters: two beats, both the start of a group. */
export interface BeatOfBar {
  /** From the bar line, as a fraction of a whole note. */
  readonly at: Ratio;
  readonly length: Ratio;
  readonly startsGroup: boolean;
}

const equalBeats = (from: number, length: Ratio, count: number, unit: number): BeatOfBar[] =>
  Array.from({ length: count }, (_, i) => ({
    at: ratio(from * length.d + i * length.n * unit, unit * length.d),
    length,
    startsGroup: i === 0,
  }));

/**
 * The beats of a bar. Where the tempo's beat fills every group, beats follow it (7/8 in eighths: seven);
 * where it does not, the groups are the beats (7/8 as 2+2+3 in quarters: short, short, long);
 * a bar of one group that it does not fill is counted in the meter's own unit.
 */
export function beatsOfBar(meter: Meter, beat: Ratio): readonly BeatOfBar[] {
  const fits = meter.groups.every((group) => divide(ratio(group, meter.unit), beat).d === 1);
  let from = 0;
  return meter.groups.flatMap((group) => {
    const whole = ratio(group, meter.unit);
    const length = fits ? beat : meter.groups.length > 1 ? whole : ratio(1, meter.unit);
    const beats = equalBeats(from, length, divide(whole, length).n, meter.unit);
    from += group;
    return beats;
  });
}

/** The usual grouping: threes where they go in, twos and a last three in asymmetric meters, else one group. */
function usualGroups(count: number): readonly number[] {
  if (count % 3 === 0) return Array.from({ length: count / 3 }, () => 3);
  if (count < 5 || count % 2 === 0) return [count];
  return [...Array.from({ length: (count - 3) / 2 }, () => 2), 3];
}

const MOST_UNITS = 32;
const UNITS = [1, 2, 4, 8, 16, 32];

const total = (groups: readonly number[]): number => groups.reduce((a, b) => a + b, 0);

/** What would be right instead, or null. */
function meterProblem(count: number, unit: number, groups: readonly number[]): string | null {
  if (count < 1 || count > MOST_UNITS) return `an upper number from 1 to ${MOST_UNITS}`;
  if (!UNITS.includes(unit)) return `a lower number that is one of ${UNITS.join(', ')}`;
  if (groups.includes(0)) return 'groups of at least 1, like 2+2+3';
  return total(groups) === count ? null : `groups that add up to ${count}, not to ${total(groups)}`;
}

/** The shape of a meter as it is written; `parseMeter` says whether its numbers can be one. */
export const METER = /^(\d+(?:\+\d+)*) ?\/ ?(\d+)(?: (?:as )?(?:(\d+(?:\+\d+)*)|\((\d+(?:\+\d+)*)\)))?$/;

/**
 * The one reader of meters: '7/8', '7/8 (2+2+3)', '7/8 as 2+2+3' or '2+2+3/8'. Where no groups are written, the usual
 * ones are meant: `parseMeter('6/8')` is six eighths in two groups of three, and 7/8 is 2+2+3.
 * For what is no meter, what would be right: 'groups that add up to 7, not to 6'.
 */
export function parseMeter(text: string): Meter | string {
  const [, upper, lower, groups, inBrackets] = METER.exec(text.trim().replaceAll(/\s+/gu, ' ')) ?? [];
  if (upper === undefined) return 'a meter like 4/4 or 7/8 (2+2+3)';
  const units = upper.split('+').map(Number);
  const [count, unit] = [total(units), Number(lower)];
  const said = (groups ?? inBrackets)?.split('+').map(Number) ?? units;
  const isSaid = said.length > 1 || groups !== undefined || inBrackets !== undefined;
  return meterProblem(count, unit, said) ?? { count, unit, groups: isSaid ? said : usualGroups(count) };
}
