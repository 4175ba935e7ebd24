/** What came round, to be kept once it is played. */
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type Effect, keep } from '../step.ts';

/** `name` is that of the turn, null where nothing needs to be kept. */
export const keepTurn = (exercise: Exercise, name: string | null): readonly Effect[] =>
  name === null ? [] : [keep({ kind: 'draw', pool: exercise.id, item: name })];

/** The names that are about to be kept. */
export const namesToKeep = (effects: readonly Effect[]): readonly string[] =>
  effects.flatMap((effect) =>
    effect.type === 'keep' && effect.happening.kind === 'draw' ? [effect.happening.item] : [],
  );
