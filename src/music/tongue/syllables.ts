/** The syllables that the tongue speaks: a front one and a back one. */

export interface Syllables {
  /** As the player types it: 't-k', 'ta-ka'. */
  readonly name: string;
  readonly front: string;
  readonly back: string;
}

/** The usual hard pair, and the soft one. */
export const HARD: Syllables = { name: 't-k', front: 'T', back: 'K' };
export const SOFT: Syllables = { name: 'd-g', front: 'D', back: 'G' };

const OWN = /^(\p{L}{1,4})-(\p{L}{1,4})$/u;

/** Reads 't-k', 'd-g' or the player's own pair like 'ta-ka'; a sentence where it is none. */
export function readSyllables(text: string): Syllables | string {
  const wanted = text.trim();
  const usual = [HARD, SOFT].find((one) => one.name === wanted.toLowerCase());
  if (usual) return usual;
  const [, front, back] = OWN.exec(wanted) ?? [];
  if (front === undefined || back === undefined) {
    return `'${text}' is no pair of syllables: write t-k, d-g, or two of your own of at most four letters, like ta-ka.`;
  }
  return { name: wanted, front, back };
}
