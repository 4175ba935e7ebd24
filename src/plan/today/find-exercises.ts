/** Exercises found by typing: every word somewhere in the title or on the stand, titles that begin so first. */
import type { Exercise } from '../routine/exercise.ts';

/** `plainly('Étude, p. 3')` is 'etude, p. 3': nobody types accents with an instrument in the hand. */
export const plainly = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

const wordsOf = (text: string): readonly string[] =>
  plainly(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);

/** 0 where the title begins with it, 1 where a word of it does, 2 where it stands anywhere; null where nowhere. */
function rankOf({ title, material }: Exercise, query: string): number | null {
  const words = wordsOf(query);
  const all = [...wordsOf(title), ...wordsOf(material ?? '')];
  if (plainly(title).startsWith(plainly(query.trim()))) return 0;
  if (words.every((word) => all.some((one) => one.startsWith(word)))) return 1;
  const whole = plainly(`${title} ${material ?? ''}`);
  return words.every((word) => whole.includes(word)) ? 2 : null;
}

/**
 * In the order of the list where they fit equally well; all that are offered where nothing is typed. Those of other
 * instruments are found where they are asked for by name, after all others.
 */
export function foundExercises(exercises: readonly Exercise[], query: string): readonly Exercise[] {
  const offered = exercises.filter(({ retired }) => !retired);
  if (query.trim() === '') return offered.filter(({ elsewhere }) => !elsewhere);
  const ranked = offered.flatMap((exercise) => {
    const rank = rankOf(exercise, query);
    return rank === null ? [] : [{ exercise, rank: rank + (exercise.elsewhere ? 3 : 0) }];
  });
  return ranked.toSorted((a, b) => a.rank - b.rank).map(({ exercise }) => exercise);
}
