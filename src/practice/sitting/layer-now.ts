/** What the repetition at hand is for, where an exercise has its layers in a cycle: 'sing', 'sing and play', 'play'. */
import { countsOf, repetitions } from '../../ladder/speed/line-history.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Practice } from '../line/line-on-stand.ts';
import type { KnownSoFar } from '../stand.ts';

/** Of all the exercise's lines: the cycle goes on when the key changes, and when the program was killed. */
const markedToday = ({ lines, today }: KnownSoFar, exercise: string): number =>
  Object.values(lines)
    .filter(({ line }) => line.exercise === exercise)
    .reduce((sum, history) => sum + repetitions(countsOf(history, today)), 0);

/** One that is over and not marked yet has had its turn. */
const isOver = ({ due, phase }: Practice): boolean => due !== null && phase !== 'playing';

/** The layer of the repetition that is played, or of the next one between two; the first one each day. Null without. */
export function layerNow(known: KnownSoFar, practice: Practice): string | null {
  const { layers = [], id } = practice.exercise;
  if (layers.length === 0) return null;
  const before = markedToday(known, id) + practice.unmarked + (isOver(practice) ? 1 : 0);
  return layers[before % layers.length] ?? null;
}

/** The layer of the breath at hand, in a block that counts them; null without. */
export const layerOfBreath = ({ layers = [], work }: Exercise, breaths: number): string | null =>
  work === 'breaths' ? (layers[breaths % Math.max(1, layers.length)] ?? null) : null;
