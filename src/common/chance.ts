/** Chance as an argument: the pure parts take a source of numbers and never make one up. */

/** Numbers from 0 up to but not including 1, one at each call. */
export type Chance = () => number;

/**
 * The same seed gives the same numbers on every machine.
 * Method: Mulberry32, a public-domain generator with 32 bits of state (from memory); good enough for
 * simulation, not for secrets.
 */
export function seeded(seed: number): Chance {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A seed by its name: the same text draws the same on every machine. `seedOf('2026-11-25 my-day')` */
export const seedOf = (text: string): number =>
  [...text].reduce((sum, character) => (sum * 31 + (character.codePointAt(0) ?? 0)) % 2147483647, 7);

/** A draw from the normal distribution with mean 0 and standard deviation 1 (Box and Muller's method). */
export const normal = (chance: Chance): number =>
  Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());

/** A draw from a range, even over its logarithm: half of the draws from 60 to 240 lie below 120. */
export const evenInLog = (chance: Chance, low: number, high: number): number => low * (high / low) ** chance();
