/**
 * The search behind fitting: which blocks, how long each, and where to rest. Blocks stay in the order they
 * are given in. Dynamic programming over the minutes used: of all beginnings of a plan that use the same
 * time, one that is better in nothing is dropped, so is one that cannot reach what a quick first search
 * found, and no more than so many are followed.
 */
import type { Breaks, Limits, Minutes } from '../routine/routine.ts';

/** What the search needs to know of a block. */
export interface BlockOption {
  readonly kind: string;
  readonly full: Minutes;
  readonly least: Minutes;
  /** What each of its minutes counts. */
  readonly priority: number;
  readonly warmUp: boolean;
  readonly highLoad: boolean;
  /** A rest: it starts the playing time anew and is worth nothing at either end. */
  readonly rests: boolean;
  /** Off the instrument: its minutes are no playing time. */
  readonly silent: boolean;
}

export interface TimeAndLimits {
  readonly minutes: Minutes;
  readonly limits: Limits;
  readonly breaks: Breaks | null;
  /** Nothing may come before a warm-up. */
  readonly warmUpFirst: boolean;
}

/** One block of the plan that was found. */
export interface ChosenBlock {
  readonly index: number;
  readonly minutes: Minutes;
  /** A break comes before it. */
  readonly rested: boolean;
}

/** A beginning of a plan. Times are in half-minutes. */
interface Beginning {
  readonly value: number;
  readonly used: number;
  /** Playing time since the last rest. */
  readonly since: number;
  /** High-load time without other work or a rest between. */
  readonly high: number;
  readonly kind: string;
  readonly inRow: number;
  readonly warm: boolean;
  readonly before: Beginning | null;
  readonly taken: ChosenBlock | null;
}

const UNIT: Minutes = 0.5;
/**
 * Beginnings that are followed for each time used: in the quick first search, and at most and least in the real one.
 */
const QUICK = 2;
const BROADEST = 24;
const NARROWEST = 4;
/** Blocks times half-minutes times breadth that are searched within a tenth of a second. */
const WORK = 300_000;
const MOST_LENGTHS = 12;

/**
 * The first minutes of a block count most: half of its time keeps 59 % of its value.
 * `valueOf({ priority: 2, full: 8 }, 8)` is 16.
 */
export const valueOf = ({ priority, full }: Pick<BlockOption, 'priority' | 'full'>, minutes: Minutes): number =>
  priority * full * (minutes / full) ** 0.75;

const units = (minutes: Minutes): number => Math.floor(minutes / UNIT + 1e-9);

/** A length that a block may have, in half-minutes, and what it is then worth. */
interface Length {
  readonly length: number;
  readonly value: number;
}

/** From the least by whole minutes up to all of it. */
function lengthsOf(option: BlockOption, { limits, breaks }: TimeAndLimits): readonly Length[] {
  const { least, full, rests, silent, highLoad } = option;
  const low = Math.max(1, units(least));
  const atOnce = Math.min(
    silent || rests || breaks === null ? Infinity : Math.max(units(breaks.after), low),
    highLoad ? units(limits.highLoad) : Infinity,
  );
  const high = Math.min(Math.max(units(full), low), atOnce);
  if (low > high) return [];
  const step = Math.max(2, Math.ceil((high - low) / MOST_LENGTHS / 2) * 2);
  const lengths: number[] = [];
  for (let length = low; length < high; length += step) lengths.push(length);
  return [...lengths, high].map((length) => ({ length, value: valueOf(option, length * UNIT) }));
}

interface Limited {
  readonly after: number;
  readonly pause: number;
  readonly high: number;
  readonly sameKind: number;
}

const limitedBy = ({ limits, breaks }: TimeAndLimits): Limited => ({
  after: breaks === null ? Infinity : units(breaks.after),
  pause: breaks === null ? Infinity : units(breaks.minutes),
  high: units(limits.highLoad),
  sameKind: limits.sameKind,
});

const needsRest = (from: Beginning, playing: number, high: number, limited: Limited): boolean =>
  (from.since > 0 && from.since + playing > limited.after) ||
  (from.high > 0 && high > 0 && from.high + high > limited.high);

/** Whether a beginning may be gone on with: what it used so far and what it is worth. */
type Promising = (used: number, value: number) => boolean;

/** The beginning with one block more, or null where a limit forbids it. A break is put in only where one is needed. */
function extended(
  from: Beginning,
  option: BlockOption,
  index: number,
  by: Length,
  limited: Limited,
  promising: Promising,
): Beginning | null {
  if (option.rests) return rested(from, index, by, promising);
  const inRow = option.kind === from.kind ? from.inRow + 1 : 1;
  if (inRow > limited.sameKind || !(from.warm || option.warmUp)) return null;
  const playing = option.silent ? 0 : by.length;
  const high = option.highLoad ? by.length : 0;
  const isRested = needsRest(from, playing, high, limited);
  const used = from.used + by.length + (isRested ? limited.pause : 0);
  const value = from.value + by.value;
  if (!promising(used, value)) return null;
  return {
    value,
    used,
    since: isRested ? playing : from.since + playing,
    high: high === 0 ? 0 : isRested ? high : from.high + high,
    kind: option.kind,
    inRow,
    warm: true,
    before: from,
    taken: { index, minutes: by.length * UNIT, rested: isRested },
  };
}

/** A rest of the routine's own; there is nothing to rest from before the first block. */
function rested(
  from: Beginning,
  index: number,
  { length, value: gained }: Length,
  promising: Promising,
): Beginning | null {
  const [used, value] = [from.used + length, from.value + gained];
  if (from.since + from.high === 0 || !promising(used, value)) return null;
  return {
    ...from,
    value,
    used,
    since: 0,
    high: 0,
    before: from,
    taken: { index, minutes: length * UNIT, rested: false },
  };
}

/** Whether everything that can follow b can follow a just as well. */
const asFree = (a: Beginning, b: Beginning): boolean =>
  a.value >= b.value &&
  a.since <= b.since &&
  a.high <= b.high &&
  (a.warm || !b.warm) &&
  a.kind === b.kind &&
  a.inRow <= b.inRow;

/** Adds to those that use the same time, unless one of them is as good in everything. */
function keep(kept: Beginning[], one: Beginning, breadth: number): void {
  let lowest = 0;
  for (let i = 0; i < kept.length; i += 1) {
    if (asFree(kept[i] as Beginning, one)) return;
    if ((kept[i] as Beginning).value < (kept[lowest] as Beginning).value) lowest = i;
  }
  for (let i = kept.length - 1; i >= 0; i -= 1) if (asFree(one, kept[i] as Beginning)) kept.splice(i, 1);
  if (kept.length < breadth) kept.push(one);
  else if (one.value > (kept[lowest] as Beginning).value) kept[lowest] = one;
}

/** A problem made ready for searching. */
interface Ready {
  readonly options: readonly BlockOption[];
  readonly lengths: readonly (readonly Length[])[];
  readonly limited: Limited;
  readonly total: number;
  readonly start: Beginning;
  /** `[i][t]`: no more value than this can come from the blocks from i on in t half-minutes. */
  readonly bound: readonly Float64Array[];
}

/** The best without any limit but the time: from the last block backwards. */
function boundsOf(lengths: readonly (readonly Length[])[], total: number): readonly Float64Array[] {
  const bound = [new Float64Array(total + 1)];
  for (let i = lengths.length - 1; i >= 0; i -= 1) {
    const later = bound[0] as Float64Array;
    const here = later.slice();
    for (const { length, value } of lengths[i] ?? []) {
      for (let t = length; t <= total; t += 1)
        here[t] = Math.max(here[t] as number, (later[t - length] as number) + value);
    }
    bound.unshift(here);
  }
  return bound;
}

/** Tries one block after everything found so far. */
function withChoice(byTime: Beginning[][], ready: Ready, index: number, breadth: number, toBeat: number): void {
  const option = ready.options[index] as BlockOption;
  const bound = ready.bound[index + 1] as Float64Array;
  const promising: Promising = (used, value) =>
    used <= ready.total && value + (bound[ready.total - used] as number) >= toBeat;
  // Downwards, so that what this block is added to does not hold it already.
  for (let used = byTime.length - 1; used >= 0; used -= 1) {
    for (const from of byTime[used] ?? []) {
      for (const by of ready.lengths[index] ?? []) {
        const one = extended(from, option, index, by, ready.limited, promising);
        if (one !== null) keep(byTime[one.used] as Beginning[], one, breadth);
      }
    }
  }
}

/** The best end of a plan that is worth at least `toBeat`; the empty plan when there is none. */
function bestEnd(ready: Ready, breadth: number, toBeat: number): Beginning {
  const byTime: Beginning[][] = Array.from({ length: ready.total + 1 }, () => []);
  byTime[0] = [ready.start];
  ready.options.forEach((_, index) => withChoice(byTime, ready, index, breadth, toBeat));
  return byTime.flat().reduce((a, b) => (b.value > a.value ? b : a), ready.start);
}

function takenBy(end: Beginning): readonly ChosenBlock[] {
  const taken: ChosenBlock[] = [];
  for (let at: Beginning | null = end; at !== null; at = at.before) if (at.taken !== null) taken.unshift(at.taken);
  return taken;
}

const breadthFor = (size: number): number =>
  Math.max(NARROWEST, Math.min(BROADEST, Math.floor(WORK / Math.max(1, size))));

/** The best plan found, in order; empty when nothing fits. */
export function searchPlan(
  options: readonly BlockOption[],
  within: TimeAndLimits,
  breadth?: number,
): readonly ChosenBlock[] {
  const lengths = options.map((option) => lengthsOf(option, within));
  const total = Math.min(units(within.minutes), mostUseful(lengths, within));
  const start: Beginning = {
    value: 0,
    used: 0,
    since: 0,
    high: 0,
    kind: '',
    inRow: 0,
    warm: !within.warmUpFirst,
    before: null,
    taken: null,
  };
  const ready = { options, lengths, limited: limitedBy(within), total, start, bound: boundsOf(lengths, total) };
  const quick = bestEnd(ready, QUICK, 0);
  const best = bestEnd(ready, breadth ?? breadthFor(options.length * total), quick.value - 1e-9);
  const taken = takenBy(best.value >= quick.value ? best : quick);
  return options[taken.at(-1)?.index ?? -1]?.rests === true ? taken.slice(0, -1) : taken;
}

/** All blocks in full with a break before each need no more. */
const mostUseful = (lengths: readonly (readonly Length[])[], { breaks }: TimeAndLimits): number =>
  lengths.reduce((sum, all) => sum + (all.at(-1)?.length ?? 0) + (breaks === null ? 0 : units(breaks.minutes)), 0);
