import type { Cents, Hertz } from '../../src/common/units.ts';

/** How far b lies above a: `centsBetween(440, 442)` is 7.85. Mathematics: 1200 times the binary logarithm. */
export const centsBetween = (a: Hertz, b: Hertz): Cents => 1200 * Math.log2(b / a);
