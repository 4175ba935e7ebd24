/** Bars of counting and breathing that end, or begin, with half a bar. */
import type { Meter } from './meter.ts';

/** The greater half of a bar: of its groups (6/8 is 3, 7/8 as 2+2+3 is 2+3), or of its one group (4/4 is 2/4). */
export function halfBar({ unit, groups }: Meter): Meter {
  const [only = 1] = groups;
  const half = groups.length > 1 ? groups.slice(-Math.ceil(groups.length / 2)) : [Math.ceil(only / 2)];
  return { count: half.reduce((a, b) => a + b, 0), unit, groups: half };
}

/** So many bars, in halves: whole ones in their own meter, others as one long bar. */
interface Bars {
  readonly meter: Meter;
  readonly bars: number;
}

/**
 * `inHalves(COMMON_TIME, 1.5, 'first')` is one bar of 2 + 4 quarters: the half comes first when counting in, so that
 * the bar before the music is whole, and last when breathing.
 */
export function inHalves(meter: Meter, bars: number, half: 'first' | 'last'): Bars {
  if (Number.isInteger(bars)) return { meter, bars };
  const { groups, count } = halfBar(meter);
  const whole = Math.floor(bars);
  const wholes = Array.from({ length: whole }, () => meter.groups).flat();
  const all = half === 'first' ? [...groups, ...wholes] : [...wholes, ...groups];
  return { meter: { count: count + whole * meter.count, unit: meter.unit, groups: all }, bars: 1 };
}
