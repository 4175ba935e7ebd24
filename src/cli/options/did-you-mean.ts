import { nearest } from '../../common/nearest-word.ts';

/**
 * The second half of a sentence about a word that is not known: `didYouMean('bset', ['bests'], 'the commands are')`
 * is "did you mean 'bests'?", and with nothing near 'the commands are bests.'
 */
export function didYouMean(word: string, known: readonly string[], list: string): string {
  const meant = nearest(word, known);
  return meant === null ? `${list} ${known.join(', ')}.` : `did you mean '${meant}'?`;
}
