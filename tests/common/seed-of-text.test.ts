/** A seed by its name: the draws of a day are the same whenever, and on whichever machine, they are looked at. */
import { describe, expect, it } from 'vitest';
import { seedOf } from '../../src/common/chance.ts';

/** The same polynomial in the language's own whole numbers, which never round. */
const inWholeNumbers = (text: string): bigint =>
  [...text].reduce((sum, character) => (sum * 31n + BigInt(character.codePointAt(0)!)) % 2147483647n, 7n);

describe('the seed of a text', () => {
  it.each(['', 'a', 'ab', 'ba', '2026-11-25cornet-daily', 'Tägliche Übung', '𝄞 clef', 'long '.repeat(200)])(
    'of %j is exact, however long it is',
    (text) => {
      expect(BigInt(seedOf(text))).toBe(inWholeNumbers(text));
    },
  );

  it('tells one day from the next, and one routine from another', () => {
    const names = ['2026-11-25cornet', '2026-11-26cornet', '2026-11-25horn', 'cornet2026-11-25'];
    expect(new Set(names.map(seedOf)).size).toBe(names.length);
  });
});
