/** Which key and articulation comes next, and the change to it without a gap in the sound. */
import { type Narrowing } from '../../plan/rotation/block-narrowing.ts';
import type { MarkEntry } from '../../diary/entry.ts';
import { seedOf } from '../../common/chance.ts';
import type { Bpm } from '../../common/units.ts';
import { type DueTurn, type TurnAsked, isTurnOver, nextTurn } from '../../plan/rotation/next-turn.ts';
import { octaveJump } from '../../plan/rotation/one-voice-round.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { droneEffect } from '../line/line-keys.ts';
import { climbNow, isRunning, spanHeard } from '../line/line-state.ts';
import { goOn } from '../line/line-steps.ts';
import { breathThenCycle, cycle } from '../line/repetition-cycle.ts';
import { type KnownSoFar, type Stand, type StandStep, type Work, workOf } from '../stand.ts';
import { type Effect, type Step, keep, step } from '../step.ts';
import { keepTurn } from './keys-that-came.ts';
import { withKnowledge } from './line-speed.ts';
import { openedLine } from './put-on-stand.ts';

/** What is known of an exercise where the next turn of it is asked for; `entered` is about to be kept. */
export const turnAsked = (
  { records, lines, prepare }: KnownSoFar,
  exercise: Exercise,
  narrowed: Narrowing,
  entered: readonly string[] = [],
): TurnAsked => ({
  exercise,
  narrowed,
  came: [
    ...records.flatMap((record) => (record.kind === 'draw' && record.pool === exercise.id ? [record.item] : [])),
    ...entered,
  ],
  histories: Object.values(lines),
  isEdge: (key, articulation) =>
    prepare(exercise, { exercise: exercise.id, key, articulation }, narrowed.place).drill?.placed === 'full',
  seed: seedOf(exercise.id),
});

/** Its cycle: after a bar to breathe where a repetition was broken off; without a count-in where one is under way. */
function ledOn(next: Practice, brokenOff: Bpm | null): Step<Practice> {
  const { bpm } = climbNow(next);
  if (brokenOff !== null) return goOn(next, breathThenCycle(next, brokenOff, bpm), true);
  const chain = cycle(next, bpm);
  const [countIn, ...rest] = chain.spans;
  const isCountedIn = next.phase === 'count-in' && spanHeard(next)?.tempo.bpm === countIn?.tempo.bpm;
  return isCountedIn ? goOn(next, { ...chain, spans: rest }, false) : goOn(next, chain, next.phase !== 'breathing');
}

/** The new line takes over where the old one is in its cycle: the next count-in is at its own tempo. */
function takenOver(from: Practice, to: Practice, brokenOff: Bpm | null): Step<Practice> {
  const { phase, heard, chain, serial, barsBegun, droneState, model, cueing, played, happened } = from;
  const sounding = { phase, heard, chain, serial, barsBegun, droneState, model };
  const next: Practice = { ...to, ...sounding, cueing, played, happened };
  const drone = droneState === 'on' ? [droneEffect(next)] : [];
  if (!isRunning(next)) return step(next, ...drone);
  const { state, effects } = ledOn(next, brokenOff);
  return step(state, ...effects, ...drone);
}

const isSameTurn = ({ key, fingering, line }: Practice, due: DueTurn): boolean =>
  key === due.key && fingering === due.fingering && line.articulation === due.line.articulation;

const withView = (stand: Stand, work: Work): Stand => ({ ...stand, view: { screen: 'practice', work } });

/** After a mark: the next key, if the exercise's rotation changes it now; `entered` keys are about to be kept. */
export function rotateAfter(
  stand: Stand,
  { bpm, next }: MarkEntry,
  narrowed: Narrowing,
  entered: readonly string[],
): StandStep {
  const work = workOf(stand);
  if (!work || !isTurnOver(work.practice.exercise, next !== bpm)) return step(stand);
  const { practice, before } = work;
  const due = nextTurn(turnAsked(stand.known, practice.exercise, narrowed, entered));
  if (!due) return step(stand);
  const kept = keepTurn(practice.exercise, due.name);
  if (isSameTurn(practice, due)) return step(stand, ...kept);
  const known = withKnowledge(stand.known);
  const brokenOff = practice.phase === 'playing' ? bpm : null;
  const opened = openedLine(known, practice.exercise, { ...due, place: narrowed.place }, null);
  const to = { ...opened, remark: octaveJump(practice.drill, opened.drill) ?? opened.remark };
  const { state, effects } = takenOver(practice, to, brokenOff);
  const moved = withView({ ...stand, known }, { ...work, practice: state, before: [...before, practice] });
  return step(moved, ...kept, ...effects);
}

/** The key that was entered last is entered no more. */
function undrawn({ records }: KnownSoFar, { exercise }: Practice): readonly Effect[] {
  if (!exercise.rotation || exercise.rotation.change === 'repetition') return [];
  const last = records.findLast((record) => record.kind === 'draw' && record.pool === exercise.id);
  return last ? [keep({ kind: 'undo', of: last.id })] : [];
}

/** Back to the line before, as it was after its last mark, to take that mark back; null where there is none. */
export function lineBefore(stand: Stand): StandStep | null {
  const work = workOf(stand);
  const last = work?.before.at(-1);
  if (!work || !last || work.practice.kept.length > 0 || work.practice.due?.early) return null;
  const { state, effects } = takenOver(work.practice, last, null);
  const back = withView(stand, { ...work, practice: { ...state, kept: last.kept }, before: work.before.slice(0, -1) });
  return step(back, ...undrawn(stand.known, work.practice), ...effects);
}
