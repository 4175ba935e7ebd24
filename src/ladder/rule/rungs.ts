import { TRADITIONAL_MARKS } from '../../music/time/metronome-marks.ts';
import type { Bpm } from '../../common/units.ts';
import type { LadderRule } from './ladder-rule.ts';

/** Rungs in rising order, without repeats. */
export type Rungs = readonly Bpm[];

const hundredths = (bpm: Bpm): Bpm => Math.round(bpm * 100) / 100;

const LOWEST_MARK = TRADITIONAL_MARKS[0] as Bpm;
const HIGHEST_MARK = TRADITIONAL_MARKS.at(-1) as Bpm;

/** The table goes on as it is made, each group twice the one before: 20 to 400, so that no end is a leap away. */
const BEYOND_MARKS: readonly Bpm[] = [
  ...TRADITIONAL_MARKS.map((mark) => mark / 2).filter((half) => half < LOWEST_MARK),
  ...TRADITIONAL_MARKS,
  ...TRADITIONAL_MARKS.map((mark) => mark * 2).filter((twice) => twice > HIGHEST_MARK),
];

/** Every rung is computed from its index and only then rounded, so that rounding never adds up. */
function* idealTempos(rule: LadderRule): Generator<Bpm> {
  const { step } = rule;
  if (step.by === 'marks') {
    yield rule.floor;
    yield* BEYOND_MARKS.filter((mark) => mark > rule.floor && mark < rule.top);
    yield rule.top;
    return;
  }
  for (let k = 0; ; k += 1) {
    yield step.by === 'ratio' ? rule.floor * (1 + step.percent / 100) ** k : rule.floor + step.bpm * k;
  }
}

/** A tempo that must be a rung takes the place of one that lies closer than half a step; the marks all stay. */
function withRung(rungs: Rungs, bpm: Bpm, { step }: LadderRule): Rungs {
  if (rungs.includes(bpm)) return rungs;
  // A mark that made room would leave a leap beside it.
  if (step.by === 'marks') return [...rungs, bpm].sort((a, b) => a - b);
  const above = rungs.findIndex((rung) => rung > bpm);
  const [low, high] = [rungs[above - 1], rungs[above]];
  const half = low === undefined || high === undefined ? 0 : (high - low) / 2;
  const kept = rungs.filter((rung) => Math.abs(rung - bpm) >= half);
  return [...kept, bpm].sort((a, b) => a - b);
}

/**
 * The ladder's tempos from floor to top. A rung is a whole number of beats per minute unless the
 * rule asks for fractions; where the step is below one, whole numbers follow each other.
 *
 * Start and target are always rungs, and so are `extra` tempos (one the player typed, one a line was left at).
 */
export function rungsOf(rule: LadderRule, extra: readonly Bpm[] = []): Rungs {
  const rungs = new Set<Bpm>();
  for (const bpm of idealTempos(rule)) {
    if (bpm > rule.top + 1e-9) break;
    if (bpm < rule.floor - 1e-9) continue;
    rungs.add(rule.fractions ? hundredths(bpm) : Math.round(bpm));
  }
  const sorted = [...rungs].sort((a, b) => a - b);
  return [rule.target, rule.start, ...extra].reduce<Rungs>((all, bpm) => withRung(all, bpm, rule), sorted);
}

/** Index of the rung nearest to a tempo; of two equally near, the lower. */
export function nearestRung(rungs: Rungs, bpm: Bpm): number {
  let best = 0;
  rungs.forEach((rung, index) => {
    if (Math.abs(rung - bpm) < Math.abs((rungs[best] ?? Infinity) - bpm)) best = index;
  });
  return best;
}

/** The tempo so many rungs above (or below) another, stopping at either end. */
export function rungFrom(rungs: Rungs, bpm: Bpm, by: number): Bpm {
  const index = nearestRung(rungs, bpm) + by;
  return rungs[Math.min(Math.max(index, 0), rungs.length - 1)] ?? bpm;
}
