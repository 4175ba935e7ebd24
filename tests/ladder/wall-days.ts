/** Days of practice below, at and after a wall: of a cornet player's double tonguing, invented. */
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import type { Played } from './histories.ts';

export const LINE = { exercise: 'five-notes', articulation: 'double', key: 'Bb' };
export const RUNGS = rungsOf(DEFAULT_RULE);
export const LAST = 20_400;
export const WALL = RUNGS[32]!;
export const [BELOW, UNDER] = [RUNGS[31]!, RUNGS[30]!];

export const at = (bpm: number, marks: string): readonly Played[] =>
  marks
    .split('')
    .map((letter) => ({ bpm, mark: ({ c: 'clean', t: 'tense', m: 'missed' } as Record<string, Mark>)[letter]! }));

export const FALL = [...at(UNDER, 'ccc'), ...at(BELOW, 'ccc'), ...at(WALL, 'cmm'), ...at(BELOW, 'ctc')];
export const GOOD = [...at(UNDER, 'ccc'), ...at(BELOW, 'cctccc'), ...at(WALL, 'cc')];
export const REST: readonly Played[] = [];
