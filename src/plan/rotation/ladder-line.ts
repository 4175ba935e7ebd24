/** Under which line a repetition is kept: its own, or one for all keys where they share a ladder. */
import type { Line } from '../../ladder/line.ts';
import type { Exercise } from '../routine/exercise.ts';
import { ladderKey } from './key-rotation.ts';

/** `ladderLine(exercise, { exercise: 'scales', articulation: 'single', key: 'Bb' })` */
export const ladderLine = ({ rotation }: Pick<Exercise, 'rotation'>, line: Line): Line =>
  rotation ? { ...line, key: ladderKey(rotation, line.key) } : line;
