/** What came round, to be kept once it is played, and what the journal has of it. */
import type { DayEntry, DrawEntry } from '../../diary/entry.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type Effect, keep } from '../step.ts';

type Of = Pick<Exercise, 'id'>;

/** `name` is that of the turn, null where nothing needs to be kept. */
export const keepTurn = (exercise: Of, name: string | null): readonly Effect[] =>
  name === null ? [] : [keep({ kind: 'draw', pool: exercise.id, item: name })];

/** It was put on the stand by hand, and is found there again if the program ends before it is played. */
export const keepLaid = (exercise: Of, name: string | null): readonly Effect[] =>
  name === null ? [] : [keep({ kind: 'draw', pool: exercise.id, item: name, laid: true })];

/** The names that are about to be kept. */
export const namesToKeep = (effects: readonly Effect[]): readonly string[] =>
  effects.flatMap((effect) =>
    effect.type === 'keep' && effect.happening.kind === 'draw' ? [effect.happening.item] : [],
  );

/** What the journal has of the exercise's turns, oldest first. */
export const drawsOf = (records: readonly DayEntry[], { id }: Of): readonly DrawEntry[] =>
  records.filter((record): record is DrawEntry => record.kind === 'draw' && record.pool === id);
