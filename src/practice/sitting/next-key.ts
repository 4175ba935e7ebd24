/** Which key and articulation comes next, and the change to it without a gap in the sound. */
import { type Narrowing } from '../../plan/rotation/block-narrowing.ts';
import type { DrawEntry, MarkEntry } from '../../diary/entry.ts';
import { seedOf } from '../../common/chance.ts';
import type { Bpm } from '../../common/units.ts';
import {
  type DueTurn,
  type TurnAsked,
  comesWithMark,
  isTurnOver,
  nameOfTurn,
  nextTurn,
  stayingIn,
} from '../../plan/rotation/next-turn.ts';
import { type Turn, turnName } from '../../plan/rotation/turn.ts';
import { octaveJump } from '../../plan/routine/one-voice-round.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { droneEffect } from '../line/drone-on-stand.ts';
import { climbNow, isRunning, spanHeard, tempoNow } from '../line/line-state.ts';
import { goOn } from '../line/line-steps.ts';
import { breathThenCycle, cycle } from '../line/repetition-cycle.ts';
import { type KnownSoFar, type Stand, type StandStep, type Work, workOf } from '../stand.ts';
import { type Effect, type Step, keep, step } from '../step.ts';
import { drawsOf, keepLaid, keepTurn } from './keys-that-came.ts';
import { withKnowledge } from './line-speed.ts';
import { openedLine } from './put-on-stand.ts';

/** What is known of an exercise where the next turn of it is asked for; `entered` is about to be kept. */
export function turnAsked(
  { records, lines, prepare, today }: KnownSoFar,
  exercise: Exercise,
  narrowed: Narrowing,
  entered: readonly string[] = [],
): TurnAsked {
  const draws = drawsOf(records, exercise);
  const last = draws.at(-1);
  return {
    exercise,
    narrowed,
    came: [...draws.flatMap(({ item, laid }) => (laid ? [] : [item])), ...entered],
    laid: last?.laid ? last.item : null,
    histories: Object.values(lines),
    isEdge: (key, articulation) =>
      prepare(exercise, { exercise: exercise.id, key, articulation }, narrowed.place).drill?.placed === 'full',
    seed: seedOf(exercise.id),
    today,
  };
}

/** Its cycle: after a bar to breathe where a repetition was broken off; without a count-in where one is under way. */
function ledOn(next: Practice, brokenOff: Bpm | null): Step<Practice> {
  const { bpm } = climbNow(next);
  if (brokenOff !== null) return goOn(next, breathThenCycle(next, brokenOff, bpm, 'in any case'), true);
  const chain = cycle(next, bpm, 'in any case');
  const [countIn, ...rest] = chain.spans;
  const isCountedIn = next.phase === 'count-in' && spanHeard(next)?.tempo.bpm === countIn?.tempo.bpm;
  return isCountedIn ? goOn(next, { ...chain, spans: rest }, false) : goOn(next, chain, next.phase !== 'breathing');
}

/** The new line takes over where the old one is in its cycle: the next count-in is at its own tempo. */
function takenOver(from: Practice, to: Practice, brokenOff: Bpm | null): Step<Practice> {
  const { phase, heard, chain, serial, barsBegun, droneState, model, cueing, played, happened, unmarked } = from;
  const sounding = { phase, heard, chain, serial, barsBegun, droneState, model };
  const next: Practice = { ...to, ...sounding, cueing, played, happened, unmarked };
  const drone = droneState === 'on' ? [droneEffect(next)] : [];
  if (!isRunning(next)) return step(next, ...drone);
  const { state, effects } = ledOn(next, brokenOff);
  return step(state, ...effects, ...drone);
}

export const turnOf = ({ key, fingering, line }: Practice): Turn => ({
  key,
  fingering,
  articulation: line.articulation,
});

const isSameTurn = (practice: Practice, due: DueTurn): boolean => turnName(turnOf(practice)) === turnName(due);

/** The grid stays open under the player's finger while the line behind it changes. */
const withView = (stand: Stand, work: Work): Stand => ({
  ...stand,
  view: stand.view.screen === 'grid' ? { ...stand.view, work } : { screen: 'practice', work },
});

/**
 * What is kept of a turn now, and what with its first mark. A key that the rung has changed while ways of tonguing take
 * turns is found again by what is laid.
 */
function keptOf(practice: Practice, due: DueTurn): readonly [now: readonly Effect[], later: readonly Effect[]] {
  const { exercise, key } = practice;
  const kept = keepTurn(exercise, due.name);
  if (!comesWithMark(exercise)) return [kept, []];
  const isNewKey = exercise.rotation?.change !== 'repetition' && due.key !== key;
  return [isNewKey ? keepLaid(exercise, due.name) : [], kept];
}

/** A line that was played can be gone back to by taking its marks back; one that was only looked at cannot. */
const withLineBefore = ({ practice, before }: Work): Work['before'] =>
  practice.kept.length > 0 ? [...before, practice] : before;

/** A turn, and where the block has it played. */
type PlacedTurn = DueTurn & Pick<Narrowing, 'place'>;

/** Another turn takes the place of the one on the stand, without a gap in the sound. */
export function changedTo(stand: Stand, work: Work, due: PlacedTurn, toKeep: Work['toKeep']): StandStep {
  const { practice } = work;
  const known = withKnowledge(stand.known);
  const brokenOff = practice.phase === 'playing' ? (practice.due?.bpm ?? tempoNow(practice)) : null;
  const opened = openedLine(known, practice.exercise, { ...due, blockDrone: practice.blockDrone }, null);
  const to = { ...opened, remark: octaveJump(practice.drill, opened.drill) ?? opened.remark };
  const { state, effects } = takenOver(practice, to, brokenOff);
  const moved = { practice: state, before: withLineBefore(work), toKeep, passed: [] };
  return step(withView({ ...stand, known }, moved), ...effects);
}

/** After a mark: the next key, if the exercise's rotation changes it now; `entered` keys are about to be kept. */
export function rotateAfter(
  stand: Stand,
  { bpm, next, mark }: MarkEntry,
  narrowed: Narrowing,
  entered: readonly string[],
): StandStep {
  const work = workOf(stand);
  const isNewRung = next !== bpm;
  if (!work || !isTurnOver(work.practice.exercise, isNewRung, mark)) return step(stand);
  const { exercise, key } = work.practice;
  const here = stayingIn(exercise, narrowed, key, isNewRung);
  const due = nextTurn(turnAsked(stand.known, exercise, here, entered));
  if (!due) return step(stand);
  const [now, toKeep] = keptOf(work.practice, due);
  if (isSameTurn(work.practice, due)) return step(withView(stand, { ...work, toKeep, passed: [] }), ...now);
  const { state, effects } = changedTo(stand, work, { ...due, place: narrowed.place }, toKeep);
  return step(state, ...now, ...effects);
}

/** Turns that were entered with or after the last mark of a line. */
function enteredSince({ records }: KnownSoFar, { exercise, kept }: Practice): readonly DrawEntry[] {
  const last = kept.at(-1);
  return last ? drawsOf(records, exercise).filter(({ id }) => id > last.id) : [];
}

/** They are entered no more once that mark is taken back. */
const undrawn = (known: KnownSoFar, practice: Practice): readonly Effect[] =>
  enteredSince(known, practice).map(({ id }) => keep({ kind: 'undo', of: id }));

/** The turn of a mark that is taken back is to be kept with the next one, as it was with this. */
function toKeepAgain(known: KnownSoFar, practice: Practice): Work['toKeep'] {
  const { exercise } = practice;
  const name = nameOfTurn(exercise, turnOf(practice));
  const wasKept = enteredSince(known, practice).some(({ item, laid }) => !laid && item === name);
  return wasKept || comesWithMark(exercise) ? keepTurn(exercise, name) : [];
}

/** Back to the line before, as it was after its last mark, to take that mark back; null where there is none. */
export function lineBefore(stand: Stand): StandStep | null {
  const work = workOf(stand);
  const last = work?.before.at(-1);
  if (!work || !last || work.practice.kept.length > 0 || work.practice.due?.early) return null;
  const { state, effects } = takenOver(work.practice, last, null);
  const practice = { ...state, kept: last.kept };
  const before = work.before.slice(0, -1);
  const back = withView(stand, { practice, before, toKeep: toKeepAgain(stand.known, last), passed: [] });
  return step(back, ...undrawn(stand.known, last), ...effects);
}

/** The last mark of this very line is taken back: its turn has not come. */
export function comesAgain(stand: Stand): StandStep {
  const work = workOf(stand);
  const last = work?.practice.kept.at(-1);
  const isMark = last?.kind === 'mark' && !work?.practice.due?.early && !work?.practice.awaited;
  if (!work || !isMark || !comesWithMark(work.practice.exercise)) return step(stand);
  const again = withView(stand, { ...work, toKeep: toKeepAgain(stand.known, work.practice) });
  return step(again, ...undrawn(stand.known, work.practice));
}
