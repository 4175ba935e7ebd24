/**
 * Markov chains with a narrow band: from each state only near ones are reached. The elimination never
 * subtracts, so that even states visited once in 10^100 steps come out right.
 * Method: W. Grassmann, M. Taksar, D. Heyman, Operations Research 33, 1107 (1985); from memory.
 */

export interface Chain {
  /** Number of states. */
  readonly size: number;
  /** No step goes further than this many states. */
  readonly band: number;
  /** Row by row, the entries from `state - band` to `state + band`. */
  readonly rows: readonly Float64Array[];
}

export type Transition = readonly [to: number, chance: number];

/** Several steps to the same state add up. */
export function chainOf(steps: readonly (readonly Transition[])[]): Chain {
  const band = Math.max(1, ...steps.flatMap((row, from) => row.map(([to]) => Math.abs(to - from))));
  const rows = steps.map((row, from) => {
    const cells = new Float64Array(2 * band + 1);
    for (const [to, chance] of row) cells[to - from + band]! += chance;
    return cells;
  });
  return { size: steps.length, band, rows };
}

const at = ({ rows, band }: Chain, from: number, to: number): number => rows[from]![to - from + band]!;

const copyOf = (chain: Chain): Chain => ({ ...chain, rows: chain.rows.map((row) => row.slice()) });

/** Adds a share of what leaves `state` to what leaves `from`, for the targets from `low` to `high`. */
function passOn({ rows, band }: Chain, from: number, state: number, share: number, low: number, high: number): void {
  const into = rows[from]!;
  const out = rows[state]!;
  for (let to = low; to <= high; to += 1) into[to - from + band]! += share * out[to - state + band]!;
}

function sum(chain: Chain, from: number, low: number, high: number): number {
  let total = 0;
  for (let to = low; to <= high; to += 1) total += at(chain, from, to);
  return total;
}

/** Chances below this are never met, and dividing by them would overflow. */
const NEVER = 1e-250;

/** Takes out the states from the top; returns the lowest one that the others ever come back to. */
function eliminateDown(chain: Chain): number {
  const { band, rows } = chain;
  for (let state = chain.size - 1; state > 0; state -= 1) {
    const low = Math.max(0, state - band);
    const down = sum(chain, state, low, state - 1);
    if (down < NEVER) return state;
    for (let from = low; from < state; from += 1) {
      const share = (rows[from]![state - from + band]! /= down);
      if (share > 0) passOn(chain, from, state, share, low, state - 1);
    }
  }
  return 0;
}

/** How often each state is visited in the long run; adds up to 1. The chain must have one class that it ends in. */
export function longRunShares(chain: Chain): Float64Array {
  const work = copyOf(chain);
  const base = eliminateDown(work);
  const visits = new Float64Array(chain.size);
  visits[base] = 1;
  for (let state = base + 1; state < chain.size; state += 1) {
    for (let from = Math.max(base, state - chain.band); from < state; from += 1) {
      visits[state]! += visits[from]! * at(work, from, state);
    }
    // One step may lead up by 10^250: what has grown large is the new measure.
    const most = visits[state]!;
    if (most > 1e40) visits.forEach((v, i) => (visits[i] = v / most));
  }
  const total = visits.reduce((a, b) => a + b, 0);
  return visits.map((v) => v / total);
}

/**
 * Expected steps from each state until the chain leaves `chain` (its rows may add up to less than 1: `leave`
 * holds the rest, the chance to leave). Infinity where it never does.
 */
export function expectedStepsToLeave(chain: Chain, leave: Float64Array): Float64Array {
  const work = copyOf(chain);
  const { size, band, rows } = work;
  const gone = leave.slice();
  const steps = new Float64Array(size).fill(1);
  const out = new Float64Array(size);
  const highOf = (state: number): number => Math.min(size - 1, state + band);
  for (let state = 0; state < size; state += 1) {
    const high = highOf(state);
    out[state] = sum(work, state, state + 1, high) + gone[state]!;
    for (let from = state + 1; from <= high; from += 1) {
      const share = rows[from]![state - from + band]! / out[state]!;
      if (!(share > 0)) continue;
      steps[from]! += share * steps[state]!;
      // Nothing comes out of a state that is never left.
      if (share === Infinity) continue;
      passOn(work, from, state, share, state + 1, high);
      gone[from]! += share * gone[state]!;
    }
  }
  for (let state = size - 1; state >= 0; state -= 1) {
    let total = steps[state]!;
    for (let to = state + 1; to <= highOf(state); to += 1) {
      const chance = at(work, state, to);
      if (chance > 0) total += chance * steps[to]!;
    }
    steps[state] = total / out[state]!;
  }
  return steps;
}
