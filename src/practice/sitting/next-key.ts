/** Which key and articulation comes next, and the change to it without a gap in the sound. */
import type { MarkEntry } from '../../diary/entry.ts';
import { seeded } from '../../common/chance.ts';
import { type KeyName, type Line } from '../../ladder/line.ts';
import { NO_MARKS, cleanShare, countsOf, repetitions, summed } from '../../ladder/speed/line-history.ts';
import type { PlayedLine } from '../../ladder/speed/speed-knowledge.ts';
import { type Cell, cellName, cellsOf, drawNext } from '../../plan/rotation/key-and-articulation-draw.ts';
import {
  type KeysKnown,
  type Rotation,
  type Turn,
  ladderKey,
  turnAfter,
  turnsOf,
  weakKeys,
} from '../../plan/rotation/key-rotation.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { droneEffect } from '../line/line-keys.ts';
import { climbNow, isRunning } from '../line/line-state.ts';
import { goOn } from '../line/line-steps.ts';
import { cycle } from '../line/repetition-cycle.ts';
import { seedOf } from '../screens/today-keys.ts';
import { type KnownSoFar, type Stand, type StandStep, type Work, workOf } from '../stand.ts';
import { type Effect, type Step, keep, step } from '../step.ts';
import { keepDrawn } from './keys-that-came.ts';
import { withKnowledge } from './line-speed.ts';
import { openedLine } from './put-on-stand.ts';

/** What a block narrows its exercise to. */
export interface Narrowed {
  readonly keys: readonly KeyName[] | null;
  readonly articulations: readonly string[] | null;
  /** Time is short: each key once, nothing repeated. */
  readonly once: boolean;
}

/** One line to play, and the key and fingering it is played in. */
export interface Due {
  readonly line: Line;
  readonly key: KeyName;
  readonly fingering: Turn['fingering'];
  /** To be kept, so that what came round is known tomorrow; null where nothing needs to be. */
  readonly drawn: string | null;
}

/** What was drawn of this exercise already, oldest first. */
const drawnOf = ({ records }: KnownSoFar, exercise: Exercise): readonly string[] =>
  records.flatMap((record) => (record.kind === 'draw' && record.pool === exercise.id ? [record.item] : []));

const linesOf = ({ lines }: KnownSoFar, exercise: Exercise): readonly PlayedLine[] =>
  Object.values(lines).filter(({ line }) => line.exercise === exercise.id);

const repetitionsOf = (known: KnownSoFar, exercise: Exercise): number =>
  linesOf(known, exercise).reduce((sum, history) => sum + repetitions(countsOf(history)), 0);

function sharedIn(known: KnownSoFar, exercise: Exercise, key: KeyName): number | null {
  const counts = linesOf(known, exercise)
    .map(({ keys }) => keys?.[key] ?? NO_MARKS)
    .reduce(summed, NO_MARKS);
  return cleanShare(counts);
}

/** By which keys are compared: the best, or on a shared ladder the share of clean repetitions. */
function bestIn(known: KnownSoFar, exercise: Exercise, key: KeyName): number | null {
  if (exercise.rotation?.ladder === 'shared') return sharedIn(known, exercise, key);
  const bests = linesOf(known, exercise).flatMap(({ line, best }) => (line.key === key && best ? [best.bpm] : []));
  return bests.length === 0 ? null : Math.max(...bests);
}

/** Keys whose notes leave the easy range. */
function edgeKeys(
  known: KnownSoFar,
  exercise: Exercise,
  keys: readonly KeyName[],
  articulation: string,
): ReadonlySet<KeyName> {
  const placed = (key: KeyName) => known.prepare(exercise, { exercise: exercise.id, key, articulation }).drill?.placed;
  return new Set(keys.filter((key) => placed(key) === 'full'));
}

function keysKnown(
  known: KnownSoFar,
  exercise: Exercise,
  rotation: Rotation,
  keys: readonly KeyName[],
  articulation: string,
  once: boolean,
): KeysKnown {
  return {
    weak: rotation.weakTimes > 1 ? weakKeys(keys, (key) => bestIn(known, exercise, key)) : new Set(),
    edge: rotation.edgeTimes > 1 ? edgeKeys(known, exercise, keys, articulation) : new Set(),
    once,
  };
}

/** Repetitions change the key by their number; blocks and rungs by how often a key was entered. */
const unitsDone = (known: KnownSoFar, exercise: Exercise, { change }: Rotation): number =>
  change === 'repetition' ? repetitionsOf(known, exercise) : drawnOf(known, exercise).length;

/** `entered`: keys that were entered and are about to be kept. */
function rotated(
  known: KnownSoFar,
  exercise: Exercise,
  rotation: Rotation,
  narrowed: Narrowed,
  entered: number,
): Due | null {
  const keys = narrowed.keys ?? exercise.keys;
  const articulation = (narrowed.articulations ?? exercise.articulations)[0] ?? 'slurred';
  const units = unitsDone(known, exercise, rotation) + (rotation.change === 'repetition' ? 0 : entered);
  const round = Math.floor(units / Math.max(1, keys.length));
  const turns = turnsOf(
    keys,
    rotation,
    keysKnown(known, exercise, rotation, keys, articulation, narrowed.once),
    seeded(seedOf(exercise.id) + round),
  );
  const turn = turnAfter(turns, units);
  if (!turn) return null;
  const { key, fingering } = turn;
  const line = { exercise: exercise.id, articulation, key: ladderKey(rotation, key) };
  return { line, key, fingering, drawn: rotation.change === 'repetition' ? null : cellName({ key, articulation }) };
}

/** Every pair of key and articulation comes once before one comes twice. */
function drawn(known: KnownSoFar, exercise: Exercise, narrowed: Narrowed): Due | null {
  const cells = cellsOf({
    keys: narrowed.keys ?? exercise.keys,
    articulations: narrowed.articulations ?? exercise.articulations,
  });
  const before = drawnOf(known, exercise);
  const cell: Cell | null = drawNext(cells, before, seeded(seedOf(`${known.today}${exercise.id}${before.length}`)));
  if (!cell) return null;
  return {
    line: { exercise: exercise.id, ...cell },
    key: cell.key,
    fingering: 'ordinary',
    drawn: cells.length > 1 ? cellName(cell) : null,
  };
}

/** What comes next of an exercise within a block. */
export const dueNext = (known: KnownSoFar, exercise: Exercise, narrowed: Narrowed, entered = 0): Due | null =>
  exercise.rotation ? rotated(known, exercise, exercise.rotation, narrowed, entered) : drawn(known, exercise, narrowed);

/** What was drawn last, for a block that is gone on with. */
export function dueAgain(known: KnownSoFar, exercise: Exercise, narrowed: Narrowed): Due | null {
  const item = drawnOf(known, exercise).at(-1);
  const cells = cellsOf({
    keys: narrowed.keys ?? exercise.keys,
    articulations: narrowed.articulations ?? exercise.articulations,
  });
  const cell = cells.find((one) => cellName(one) === item);
  if (!cell) return dueNext(known, exercise, narrowed);
  const key = exercise.rotation ? ladderKey(exercise.rotation, cell.key) : cell.key;
  return { line: { exercise: exercise.id, ...cell, key }, key: cell.key, fingering: 'ordinary', drawn: null };
}

/** The new line takes over where the old one is in its cycle: the next count-in is at its own tempo. */
function takenOver(from: Practice, to: Practice): Step<Practice> {
  const { phase, heard, chain, serial, barsBegun, droneState, model, cueing, played } = from;
  const next: Practice = { ...to, phase, heard, chain, serial, barsBegun, droneState, model, cueing, played };
  const drone = droneState === 'on' ? [droneEffect(next)] : [];
  if (!isRunning(next)) return step(next, ...drone);
  const { state, effects } = goOn(next, cycle(next, climbNow(next).bpm), phase !== 'breathing');
  return step(state, ...effects, ...drone);
}

const isSameTurn = ({ key, fingering, line }: Practice, due: Due): boolean =>
  key === due.key && fingering === due.fingering && line.articulation === due.line.articulation;

/** Whether this mark is what changes the key. */
const isChange = ({ bpm, next }: MarkEntry, { change }: Rotation): boolean =>
  change === 'repetition' || (change === 'rung' && next !== bpm);

const withView = (stand: Stand, work: Work): Stand => ({ ...stand, view: { screen: 'practice', work } });

/** After a mark: the next key, if the exercise's rotation changes it now; `entered` keys are about to be kept. */
export function rotateAfter(stand: Stand, entry: MarkEntry, narrowed: Narrowed, entered: number): StandStep {
  const work = workOf(stand);
  const rotation = work?.practice.exercise.rotation;
  if (!work || !rotation || !isChange(entry, rotation)) return step(stand);
  const { practice, before } = work;
  const due = dueNext(stand.known, practice.exercise, narrowed, entered);
  if (!due) return step(stand);
  const kept = keepDrawn(practice.exercise, due.drawn);
  if (isSameTurn(practice, due)) return step(stand, ...kept);
  const known = withKnowledge(stand.known);
  const { state, effects } = takenOver(practice, openedLine(known, practice.exercise, due, null));
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
  const { state, effects } = takenOver(work.practice, last);
  const back = withView(stand, { ...work, practice: { ...state, kept: last.kept }, before: work.before.slice(0, -1) });
  return step(back, ...undrawn(stand.known, work.practice), ...effects);
}
