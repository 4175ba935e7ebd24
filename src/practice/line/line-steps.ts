/** Small pieces that the decisions are put together from. */
import { countedOnBeat } from '../../music/tongue/vibrato.ts';
import { afterMark } from '../../ladder/rule/climb.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { Bpm } from '../../common/units.ts';
import { type Chain, breathThenWait, cycle, wait } from './repetition-cycle.ts';
import type { Effect, Practice, Step } from './line-on-stand.ts';

export const stay = (state: Practice, hint: string | null = state.hint): Step<Practice> => ({
  state: hint === state.hint ? state : { ...state, hint },
  effects: [],
});

export const sound = (command: SoundCommand): Effect => ({ type: 'sound', command });

/** Go on with another chain after this span, or at the next bar line if `cut`. */
export function goOn(state: Practice, chain: Chain, cut: boolean): Step<Practice> {
  const heardSpan = state.chain.filter((span) => span.id === state.heard?.span);
  return {
    state: { ...state, chain: [...heardSpan, ...chain.spans], serial: chain.serial },
    effects: [sound({ ask: 'then', spans: chain.spans, cut })],
  };
}

/** The next cycle at the ladder's tempo: after the breathing bar, or at the next bar line when already waiting. */
export const nextCycle = (state: Practice): Step<Practice> =>
  goOn(state, cycle(state, state.climb.bpm), state.phase !== 'breathing');

/** Ask for a mark to be written; it takes effect when it is on disk. */
export function saveMark(state: Practice, mark: Mark, bpm: Bpm, by: 'player' | 'rule'): Step<Practice> {
  const { line, exercise, rule } = state;
  const next = afterMark({ ...state.climb, bpm }, mark, rule, state.rungs);
  const draft = {
    kind: 'mark' as const,
    line,
    mark,
    bpm,
    by,
    beat: `${exercise.beat.n}/${exercise.beat.d}`,
    notesPerBeat: countedOnBeat(line.articulation, exercise.notesPerBeat),
    cleanUp: rule.cleanUp,
    missedDown: rule.missedDown,
    next: next.bpm,
    ...(state.key === line.key ? {} : { sounded: state.key }),
  };
  return {
    state: { ...state, saving: { what: 'mark', mark, bpm, by, next } },
    effects: [{ type: 'store', draft }],
  };
}

/** The cycle that follows if the repetition due is counted as clean. */
function foreseen(state: Practice, bpm: Bpm): Step<Practice> {
  const clean = afterMark({ ...state.climb, bpm }, 'clean', state.rule, state.rungs);
  return goOn(state, cycle(state, clean.bpm), false);
}

/** What follows the breathing bar as long as the mark has not come: wait, repeat, or go on as if it was clean. */
export function untilMarked(state: Practice): Step<Practice> {
  const { due, exercise } = state;
  if (!due) return nextCycle(state);
  if (exercise.noMark === 'clean') return foreseen(state, due.bpm);
  if (exercise.noMark === 'repeat') return goOn(state, cycle(state, due.bpm), false);
  if (state.phase === 'playing') return goOn(state, breathThenWait(state, due.bpm), true);
  return goOn(state, wait(state, due.bpm), state.phase === 'waiting');
}
