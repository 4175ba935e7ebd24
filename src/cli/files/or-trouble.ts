import { type Mishap, isMishap } from '../../common/mishap.ts';
import { Trouble } from '../../common/trouble.ts';

/** @throws Trouble with the sentence of a mishap; everything else is given back. */
export function orTrouble<T>(value: T | Mishap): T {
  if (isMishap(value)) throw new Trouble(value.sentence);
  return value;
}
