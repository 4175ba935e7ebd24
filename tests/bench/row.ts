/** One measured figure. */
export interface Row {
  readonly what: string;
  readonly figure: number;
  readonly unit: string;
  /** The figure should stay below it; null where there is no target. */
  readonly below: number | null;
}

const shown = (figure: number): string => (Math.abs(figure) >= 100 ? figure.toFixed(0) : figure.toPrecision(3));

/** 'from node to the first frame      0.412 s   target < 0.6   ok' */
export function rowLine({ what, figure, unit, below }: Row): string {
  const target = below === null ? '' : `target < ${below}   ${figure < below ? 'ok' : 'NOT REACHED'}`;
  return `${what.padEnd(58)} ${shown(figure).padStart(8)} ${unit.padEnd(4)} ${target}`.trimEnd();
}

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
};
