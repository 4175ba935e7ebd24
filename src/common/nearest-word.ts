/** How many letters have to be put in, taken out or replaced to turn one word into the other (Levenshtein). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

const score = (word: string, candidate: string): number =>
  candidate.startsWith(word) && word.length > 2 ? 0 : distance(word, candidate);

/**
 * The candidate that was probably meant, or null if none is close: `nearest('minuts', ['minutes', 'cues'])` is
 * 'minutes'.
 * A word that another begins with is close however long the other is.
 */
export function nearest(word: string, candidates: Iterable<string>): string | null {
  const plain = word.slice(0, 80).toLowerCase();
  let best: { candidate: string; off: number } | null = null;
  for (const candidate of candidates) {
    const off = score(plain, candidate.toLowerCase());
    if (best === null || off < best.off) best = { candidate, off };
  }
  return best !== null && best.off <= Math.max(2, plain.length * 0.4) ? best.candidate : null;
}

/**
 * The second half of a sentence about a word that is not known: `didYouMean('bset', ['bests'], 'there is bests.')` is
 * "did you mean 'bests'?"; where nothing is near, it is what is to be said otherwise.
 */
export function didYouMean(word: string, known: Iterable<string>, otherwise: string): string {
  const meant = nearest(word, known);
  return meant === null ? otherwise : `did you mean '${meant}'?`;
}
