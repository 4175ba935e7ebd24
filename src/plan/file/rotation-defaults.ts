/** From a rotation as written to one with every default filled in. */
import { type Rotation, PLAIN_ROTATION } from '../rotation/key-rotation.ts';
import type { WrittenExercise } from './routine-schema.ts';
import { isYes, readEnds } from './value-words.ts';

type Written = NonNullable<WrittenExercise['rotate']>;

/** Cells out of the hat change while the player plays, the keys of everything else with the block. */
const usualChange = (order: Rotation['order']): Rotation['change'] =>
  order === 'from the hat' ? 'repetition' : PLAIN_ROTATION.change;

/** A word alone is the order. */
export function rotationOfWritten(written: Written): Rotation {
  const said = typeof written === 'string' ? { order: written } : written;
  const order = said.order ?? PLAIN_ROTATION.order;
  return {
    order,
    change: said.change ?? usualChange(order),
    ladder: said.ladder ?? PLAIN_ROTATION.ladder,
    weakTimes: said.weak ?? PLAIN_ROTATION.weakTimes,
    edgeTimes: said.edge ?? PLAIN_ROTATION.edgeTimes,
    fingerings: isYes(said.fingerings),
    repetitions: said.repetitions ?? PLAIN_ROTATION.repetitions,
    ends: said.ends === undefined ? PLAIN_ROTATION.ends : readEnds(said.ends),
    weekKeys: said.week ?? PLAIN_ROTATION.weekKeys,
    articulations: said.articulations ?? PLAIN_ROTATION.articulations,
  };
}
