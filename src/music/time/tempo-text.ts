import type { Bpm } from '../../common/units.ts';

/** A tempo as it is printed anywhere: `bpmText(114.9663)` is '114.97', `bpmText(96)` is '96'. */
export const bpmText = (bpm: Bpm): string => `${Math.round(bpm * 100) / 100}`;
