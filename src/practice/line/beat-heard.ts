/** What the sound tells: where the player is in the cycle. */
import { seeded } from '../../common/chance.ts';
import { barLength, secondsOf } from '../../music/time/meter.ts';
import { multiply, ratio } from '../../music/time/ratio.ts';
import type { SoundReport, Span } from '../../music/sound/sound-commands.ts';
import type { Milliseconds, Seconds } from '../../common/units.ts';
import { cueAtRest } from '../../plan/ease/cues.ts';
import { isSlow } from './repetition-cycle.ts';
import type { Phase, Practice, Step } from './line-on-stand.ts';
import { afterPassage } from './way-being-played.ts';
import { saveMark, stay, untilMarked } from './line-steps.ts';

/** A beat later than this is not drawn: the picture would follow a sound long gone. */
const TOO_LATE: Milliseconds = 60;

type Beat = Extract<SoundReport, { tell: 'beat' }>;

function phaseIn(span: Span): Phase {
  switch (span.role) {
    case 'count-in':
      return 'count-in';
    case 'breath':
      return 'breathing';
    case 'wait':
      return 'waiting';
    default:
      return isSlow(span) ? 'slow' : 'playing';
  }
}

/** The breathing bar begins: an early mark counts now; without one, what follows depends on the exercise. */
function enterBreath(state: Practice): Step<Practice> {
  const { due, exercise } = state;
  if (!due) return stay(state);
  if (due.early) return saveMark(state, due.early, due.bpm, 'player');
  return exercise.noMark === 'wait' ? stay(state) : untilMarked(state);
}

/** How long the repetition that was just heard lasted. */
function lasted(state: Practice): Seconds {
  const before = state.chain.find(({ role, id }) => role === 'repetition' && id !== state.heard?.span);
  return before ? secondsOf(multiply(barLength(before.meter), ratio(before.bars ?? 0)), before.tempo) : 0;
}

/** A breathing bar is the time for a reminder, now and then. */
function withCue(state: Practice): Practice {
  const played = state.played + lasted(state);
  return { ...state, played, cueing: cueAtRest(state.cueing, state.exercise.cues, played, seeded(state.serial)) };
}

/** Counting in again with a mark still due: the exercise may count it as clean. */
function enterCountIn(state: Practice): Step<Practice> {
  const { due, exercise } = state;
  return due && exercise.noMark === 'clean' ? saveMark(state, 'clean', due.bpm, 'rule') : stay(state);
}

/** On a way round a wall nothing is marked. */
const playing = (state: Practice, span: Span): Practice => ({
  ...state,
  cueing: { ...state.cueing, cue: null },
  due: state.way ? null : { bpm: span.tempo.bpm, early: null },
  hint: null,
  remark: null,
});

function enter(state: Practice, span: Span): Step<Practice> {
  const phase = phaseIn(span);
  const entered: Practice = { ...state, phase };
  if (phase === 'playing') return stay(playing(entered, span));
  if (phase === 'breathing') return entered.way ? afterPassage(withCue(entered)) : enterBreath(withCue(entered));
  if (phase === 'count-in') return enterCountIn(entered);
  return stay(entered);
}

function onBeat(state: Practice, beat: Beat): Step<Practice> {
  const span = state.chain.find(({ id }) => id === beat.span);
  if (!span) return stay(state);
  const isNew = state.heard?.span !== beat.span;
  if (!isNew && beat.lateBy > TOO_LATE && beat.bar === state.heard?.bar) return stay(state);
  const heard = { span: beat.span, bar: beat.bar, beat: beat.beat, beatsInBar: beat.beatsInBar };
  const moved: Practice = { ...state, heard };
  return isNew ? enter(moved, span) : stay(moved);
}

export function hear(state: Practice, report: SoundReport): Step<Practice> {
  if (report.tell === 'beat') return onBeat(state, report);
  if (report.tell === 'end' && state.chain.at(-1)?.id === report.span) {
    return stay({ ...state, phase: 'stopped', heard: null, chain: [] });
  }
  return stay(state);
}
