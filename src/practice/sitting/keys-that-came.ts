/** What came round, to be kept once it is played. */
import type { KeyName } from '../../ladder/line.ts';
import { cellName } from '../../plan/rotation/key-and-articulation-draw.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type Effect, keep } from '../step.ts';

/** What was chosen by hand counts as entered, where keys are counted. */
export const drawnByHand = ({ rotation }: Exercise, key: KeyName, articulation: string): string | null =>
  rotation && rotation.change !== 'repetition' ? cellName({ key, articulation }) : null;

export const keepDrawn = (exercise: Exercise, item: string | null): readonly Effect[] =>
  item === null ? [] : [keep({ kind: 'draw', pool: exercise.id, item })];
