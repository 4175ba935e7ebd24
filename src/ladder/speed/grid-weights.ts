/** What a day's marks and a night do to what is known: rows of the grid. None of it changes its arguments. */
import { remembered } from '../../common/remembered.ts';
import { CURVE_KINDS, GRID_SIZE, LOG_SPACING, LOG_TEMPOS } from './estimate-grid.ts';
import type { DayKind } from './day-kinds.ts';
import { type Blur, type Rows, type Spread, blurOf, blurred, tapsOf } from './row-blur.ts';

/** The weight of each cell of the grid, 1 in all. Only tempos from `low` up to but not including `high` have any. */
export interface GridWeights {
  readonly values: Float64Array;
  readonly low: number;
  readonly high: number;
}

const KINDS = CURVE_KINDS.length;
const TEMPOS = LOG_TEMPOS.length;

const RESCALE_EVERY = 32;
/** What is left of the refuted: numbers much smaller than this are slow to reckon with. */
const TRACE = 1e-40;
const ONES = new Float64Array(GRID_SIZE).fill(1);

/** Before any mark: every tempo alike, under every kind of days. */
export const evenRows = (days: readonly DayKind[]): Rows => ({
  values: Float64Array.from({ length: GRID_SIZE * days.length }, (_, i) => {
    const day = days[Math.floor(i / KINDS) % days.length]!;
    return (CURVE_KINDS[i % KINDS]!.weight * day.weight) / TEMPOS;
  }),
  low: 0,
  high: TEMPOS,
});

function rescale(values: Float64Array): void {
  let total = 0;
  for (let i = 0; i < values.length; i += 1) total += values[i]!;
  const factor = 1 / total;
  for (let i = 0; i < values.length; i += 1) values[i] = values[i]! * factor + TRACE;
}

/** Four likelihoods at a time: a good part of the work on a long journal is here. */
function times(values: Float64Array, from: number, likelihoods: readonly Float64Array[]): void {
  for (let r = 0; r < likelihoods.length; r += 4) {
    const a = likelihoods[r]!;
    const b = likelihoods[r + 1] ?? ONES;
    const c = likelihoods[r + 2] ?? ONES;
    const d = likelihoods[r + 3] ?? ONES;
    for (let i = 0, j = from; i < values.length; i += 1, j += 1)
      values[i] = values[i]! * a[j]! * (b[j]! * c[j]! * d[j]!);
  }
}

/** Rows one curve kind wide, multiplied by the likelihoods of some marks, each over the whole grid. */
export function timesLikelihoods(rows: Rows, likelihoods: readonly Float64Array[]): Rows {
  const values = rows.values.slice();
  for (let r = 0; r < likelihoods.length; r += RESCALE_EVERY) {
    times(values, rows.low * KINDS, likelihoods.slice(r, r + RESCALE_EVERY));
    rescale(values);
  }
  return { ...rows, values };
}

const inSquares = (sd: number): number => (sd / LOG_SPACING) ** 2;

/** No form may reach further, 6 % or so: averaging is written out for so many tempos each way. */
const FURTHEST = 3;

/** What the forms of some kinds of days do to the likelihood of a day's marks: each form once. */
interface Forms {
  readonly taps: readonly Float64Array[];
  /** The kinds of days that have it. */
  readonly days: readonly (readonly number[])[];
  /** How many tempos away a form can reach. */
  readonly reach: number;
}

const formsOf = remembered((days: readonly DayKind[]): Forms => {
  const forms = [...new Set(days.map(({ form }) => form))];
  const taps = forms.map((form) => tapsOf({ mean: 0, variance: inSquares(form) }));
  const reach = Math.max(...taps.map(({ length }) => length >> 1));
  if (reach > FURTHEST) throw new RangeError(`A form reaches ${reach} tempos; ${FURTHEST} are averaged over.`);
  return {
    taps,
    days: forms.map((form) => days.flatMap((day, k) => (day.form === form ? [k] : []))),
    reach,
  };
});

/** Nothing marked yet on a day that begins with `morning`: ones, as far around it as a day's form can reach. */
export function unmarkedDay({ low, high }: Rows, days: readonly DayKind[]): Rows {
  const { reach } = formsOf(days);
  const [from, to] = [Math.max(0, low - reach), Math.min(TEMPOS, high + reach)];
  return { values: new Float64Array((to - from) * KINDS).fill(1), low: from, high: to };
}

/** How likely a day's marks are at the tempos of the morning and `FURTHEST` around; beyond the grid as at its end. */
function aroundMorning({ values, low, high }: Rows, morning: Rows): Float64Array {
  const [from, to] = [morning.low - FURTHEST, morning.high + FURTHEST];
  const out = new Float64Array((to - from) * KINDS);
  for (let row = from; row < to; row += 1) {
    if (row >= low && row < high) continue;
    const end = (row < low ? 0 : high - 1 - low) * KINDS;
    out.set(values.subarray(end, end + KINDS), (row - from) * KINDS);
  }
  const skipped = Math.max(from - low, 0);
  const length = Math.min(to, high) - Math.max(from, low);
  out.set(values.subarray(skipped * KINDS, (skipped + length) * KINDS), (Math.max(from, low) - from) * KINDS);
  return out;
}

/** The likelihood of a day's marks at each tempo of the morning, that day's form averaged over: half of its taps. */
function averaged(around: Float64Array, taps: Float64Array): Float64Array {
  const out = new Float64Array(around.length - 2 * FURTHEST * KINDS);
  const middle = taps.length >> 1;
  const [a, b, c, d] = [taps[middle]!, taps[middle + 1] ?? 0, taps[middle + 2] ?? 0, taps[middle + 3] ?? 0];
  for (let i = 0, j = FURTHEST * KINDS; i < out.length; i += 1, j += 1) {
    out[i] =
      a * around[j]! +
      b * (around[j - KINDS]! + around[j + KINDS]!) +
      c * (around[j - 2 * KINDS]! + around[j + 2 * KINDS]!) +
      d * (around[j - 3 * KINDS]! + around[j + 3 * KINDS]!);
  }
  return out;
}

/** Each row's block of one kind of days, times what is likely in that row. */
function timesBlocks(values: Float64Array, block: number, likely: Float64Array, width: number): void {
  for (let at = block, j = 0; j < likely.length; at += width) {
    for (let i = at, end = at + KINDS; i < end; i += 1, j += 1) values[i]! *= likely[j]!;
  }
}

/**
 * What is believed after a day: the morning times the likelihood of the day's marks, the day's form averaged over.
 * The tempo is the player's own; the marks were made at that and the form.
 */
export function eveningOf(morning: Rows, marked: Rows, days: readonly DayKind[]): Rows {
  const forms = formsOf(days);
  const values = morning.values.slice();
  const around = aroundMorning(marked, morning);
  forms.taps.forEach((taps, f) => {
    const likely = averaged(around, taps);
    for (const day of forms.days[f]!) timesBlocks(values, day * KINDS, likely, days.length * KINDS);
  });
  rescale(values);
  return { ...morning, values };
}

/** A weekend counts as so many nights; what a longer break changes is the same for every kind of days: 1 % a night. */
const OWN_NIGHTS = 3;
const BREAK_DRIFT = 0.01;

const spreadOf = ({ drift, gain }: DayKind, nights: number): Spread => {
  const own = Math.min(nights, OWN_NIGHTS);
  return {
    mean: gain / LOG_SPACING,
    variance: own * inSquares(drift) + (nights - own) * inSquares(BREAK_DRIFT),
  };
};

const nightBlurs = remembered((days: readonly DayKind[]) => {
  const known = new Map<number, Blur>();
  return (nights: number): Blur => {
    const blur =
      known.get(nights) ??
      blurOf(
        days.map((kind) => spreadOf(kind, nights)),
        KINDS,
      );
    known.set(nights, blur);
    return blur;
  };
});

/** So many nights later, each kind of days by its own drift; the gain of one day of practice. */
export const afterNights = (evening: Rows, nights: number, days: readonly DayKind[]): Rows =>
  blurred(evening, nightBlurs(days)(nights));

/** How likely each cell of the grid is, whatever the kind of days, by a weight of the log tempo. */
export function gridOf({ values, low, high }: Rows, weightOf: (speed: number) => number): GridWeights {
  const cells = new Float64Array(GRID_SIZE);
  const width = values.length / (high - low);
  let total = 0;
  for (let row = low; row < high; row += 1) {
    const weight = weightOf(LOG_TEMPOS[row]!);
    for (let i = 0; i < width; i += 1) {
      const value = values[(row - low) * width + i]! * weight;
      cells[row * KINDS + (i % KINDS)]! += value;
      total += value;
    }
  }
  for (let i = low * KINDS; i < high * KINDS; i += 1) cells[i]! /= total;
  return { values: cells, low, high };
}

/** The weights of the tempos alone. */
export function tempoWeights({ values }: GridWeights): Float64Array {
  const out = new Float64Array(TEMPOS);
  values.forEach((value, i) => (out[Math.floor(i / KINDS)]! += value));
  return out;
}
