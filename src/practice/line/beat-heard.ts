/** What the sound tells: where the player is in the cycle. */
import { seeded } from '../../common/chance.ts';
import type { SoundReport, Span } from '../../music/sound/sound-commands.ts';
import type { Milliseconds } from '../../common/units.ts';
import { cueAtRest } from '../../plan/ease/cues.ts';
import { type Step, andThen, say, step } from '../step.ts';
import type { Phase, Practice } from './line-on-stand.ts';
import { ahead, breathWithoutMark, keepMark } from './line-steps.ts';
import { flows, isSlow } from './repetition-cycle.ts';
import { withPlayed } from './time-played.ts';
import { afterPassage } from './way-being-played.ts';

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
  const { due } = state;
  if (!due) return step(state);
  return due.early ? keepMark(state, due.early, due.bpm, 'player') : breathWithoutMark(state);
}

/** A breathing bar is the time for a reminder, now and then. */
const withCue = (state: Practice): Practice => ({
  ...state,
  cueing: cueAtRest(state.cueing, state.exercise.cues, state.played, seeded(state.serial)),
});

/** Counting in again with a mark still due: given early it counts now, and the exercise may count it as clean. */
function enterCountIn(state: Practice): Step<Practice> {
  const { due, exercise } = state;
  if (due?.early) return keepMark(state, due.early, due.bpm, 'player');
  return due && exercise.noMark === 'clean' ? keepMark(state, 'clean', due.bpm, 'rule') : step(state);
}

const withBars = (state: Practice, { bars }: Span): Practice => ({
  ...state,
  barsBegun: state.barsBegun + (bars ?? 0),
});

/** On a way round a wall nothing is marked. What was said before the repetition is over now. */
function enterPlaying(state: Practice, span: Span): Step<Practice> {
  const due = state.way ? null : { bpm: span.tempo.bpm, early: null };
  const before = state.due?.early || flows(state) ? state.due : null;
  const unmarked = state.unmarked + (state.due && !before ? 1 : 0);
  const playing = withBars(
    { ...state, cueing: { ...state.cueing, cue: null }, due, before, unmarked, remark: null, happened: null },
    span,
  );
  return andThen(step(playing, say(null)), (begun) => andThen(ahead(begun), markOfBefore));
}

/** A mark that was given early for the repetition before, which runs on into this one, counts now. */
const markOfBefore = (state: Practice): Step<Practice> =>
  state.before?.early
    ? keepMark(state, state.before.early, state.before.bpm, 'player', 'mark of the one before')
    : step(state);

/** A repetition has ended: the time for the mark of the one before it is over. */
function withoutMarkOf(state: Practice, before: Practice['before']): Step<Practice> {
  if (!before || state.awaited) return step(state);
  if (state.exercise.noMark !== 'clean') return step({ ...state, unmarked: state.unmarked + 1 });
  return keepMark(state, 'clean', before.bpm, 'rule', 'mark by rule');
}

/** A mark that is due as the soft click begins was given early, or is waited for. */
const enterWait = (state: Practice): Step<Practice> =>
  state.due?.early ? keepMark(state, state.due.early, state.due.bpm, 'player') : step(state);

/** What is to be kept comes last: it may change what follows. */
const enter = (state: Practice, span: Span): Step<Practice> =>
  andThen(enterSpan({ ...state, before: null }, span), (entered) => withoutMarkOf(entered, state.before));

function enterSpan(state: Practice, span: Span): Step<Practice> {
  const phase = phaseIn(span);
  const entered: Practice = { ...state, phase };
  if (phase === 'playing') return enterPlaying(entered, span);
  if (phase === 'slow') return step(withBars({ ...entered, happened: null }, span));
  if (phase === 'breathing') return entered.way ? afterPassage(withCue(entered)) : enterBreath(withCue(entered));
  return phase === 'count-in' ? enterCountIn(entered) : enterWait(entered);
}

function onBeat(state: Practice, beat: Beat): Step<Practice> {
  const span = state.chain.find(({ id }) => id === beat.span);
  if (!span) return step(state);
  const isNew = state.heard?.span !== beat.span;
  if (!isNew && beat.lateBy > TOO_LATE && beat.bar === state.heard?.bar) return step(state);
  const heard = { span: beat.span, bar: beat.bar, beat: beat.beat, beatsInBar: beat.beatsInBar };
  const moved: Practice = { ...state, heard };
  return isNew ? enter(withPlayed(moved, state), span) : step(moved);
}

const stopped = (state: Practice): Practice => ({ ...state, phase: 'stopped', heard: null, chain: [] });

export function hear(state: Practice, report: SoundReport): Step<Practice> {
  if (report.tell === 'beat') return onBeat(state, report);
  if (report.tell !== 'end' || state.chain.at(-1)?.id !== report.span) return step(state);
  return step(stopped(withPlayed(state, state)));
}
