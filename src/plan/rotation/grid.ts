/** The grid of an exercise: its keys by its ways of tonguing, and what of it was played. */
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import { type LineHistory, countsOf, repetitions } from '../../ladder/speed/line-history.ts';
import { rotationOf } from './key-rotation.ts';
import { ladderLine } from './ladder-line.ts';
import { roundSoFar } from './round.ts';
import { type TurnAsked, cellsOf, turnsFor } from './turn-asked.ts';
import { keysAsTheyCome } from './turns-ahead.ts';
import { turnName } from './turn.ts';

export type CellPlayed = 'today' | 'before' | 'never';

export interface Grid {
  readonly keys: readonly KeyName[];
  readonly articulations: readonly ArticulationName[];
  /** By articulation, then by key. */
  readonly played: readonly (readonly CellPlayed[])[];
  /** How far the round is: turns that came, of all. */
  readonly came: number;
  readonly of: number;
}

/** Whether a cell was played, from its line's marks and from what came round; `cameToday` are names of today's. */
function playedOf(asked: TurnAsked, cameToday: readonly string[]) {
  const { exercise, histories, today, came } = asked;
  const isShared = rotationOf(exercise).ladder === 'shared';
  const everCame = new Set(came);
  const isToday = new Set(cameToday);
  const marks = ({ line, ...rest }: LineHistory, key: KeyName, day?: string): number => {
    if (isShared) return day === undefined ? repetitions(rest.keys?.[key] ?? { clean: 0, tense: 0, missed: 0 }) : 0;
    return repetitions(countsOf({ line, ...rest }, day));
  };
  return (key: KeyName, articulation: ArticulationName): CellPlayed => {
    const name = turnName({ key, articulation, fingering: 'ordinary' });
    const line = ladderLine(exercise, { exercise: exercise.id, articulation, key });
    const history = histories.find(
      ({ line: one }) =>
        one.exercise === line.exercise && one.articulation === line.articulation && one.key === line.key,
    );
    if (isToday.has(name) || (history && marks(history, key, today) > 0)) return 'today';
    return everCame.has(name) || (history && marks(history, key) > 0) ? 'before' : 'never';
  };
}

export function gridOf(asked: TurnAsked, cameToday: readonly string[]): Grid {
  const keys = keysAsTheyCome(asked);
  const { articulations } = cellsOf(asked);
  const played = playedOf(asked, cameToday);
  const turns = turnsFor(asked);
  return {
    keys,
    articulations,
    played: articulations.map((articulation) => keys.map((key) => played(key, articulation))),
    came: roundSoFar(turns, asked.came).taken.size,
    of: turns.length,
  };
}
