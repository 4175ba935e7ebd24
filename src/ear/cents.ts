import type { Cents, Hertz } from '../common/units.ts';

/** How much higher one is than the other: `centsAbove(880, 440)` is 1200. */
export const centsAbove = (hertz: Hertz, reference: Hertz): Cents => 1200 * Math.log2(hertz / reference);

/** To a tenth: more than that is never known. */
export const tenth = (value: number): number => Math.round(value * 10) / 10;
