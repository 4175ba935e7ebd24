/** Which key and articulation comes next, and the change to it without a gap in the sound. */
import { type DayEntry } from '../../diary/entry.ts';
import { type KeyName, type Line } from '../../ladder/line.ts';
import { practiceOf } from './put-on-stand.ts';
import { seeded } from '../../common/chance.ts';
import { NO_MARKS, cleanShare, countsOf, repetitions, summed } from '../../ladder/speed/line-history.ts';
import { type Cell, cellName, cellsOf, drawNext } from '../../plan/rotation/key-and-articulation-draw.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';

import {
  type KeysKnown,
  type Rotation,
  type Turn,
  ladderKey,
  turnAfter,
  turnsOf,
  weakKeys,
} from '../../plan/rotation/key-rotation.ts';
import { cycle } from '../line/repetition-cycle.ts';
import { droneEffect } from '../line/line-keys.ts';
import type { Effect, Practice, Step } from '../line/line-on-stand.ts';
import { keepDrawn } from './keys-that-came.ts';
import { type Stand, type StandStep } from '../stand.ts';
import { goOn } from '../line/line-steps.ts';
import { estimateFor, withKnowledge } from './line-speed.ts';
import { seedOf } from '../screens/today-keys.ts';

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
const drawnOf = (records: readonly DayEntry[], exercise: Exercise): readonly string[] =>
  records.flatMap((record) => (record.kind === 'draw' && record.pool === exercise.id ? [record.item] : []));

const linesOf = ({ lines }: Stand, exercise: Exercise) =>
  Object.values(lines).filter(({ line }) => line.exercise === exercise.id);

const repetitionsOf = (stand: Stand, exercise: Exercise): number =>
  linesOf(stand, exercise).reduce((sum, history) => sum + repetitions(countsOf(history)), 0);

function sharedIn(stand: Stand, exercise: Exercise, key: KeyName): number | null {
  const counts = linesOf(stand, exercise)
    .map(({ keys }) => keys?.[key] ?? NO_MARKS)
    .reduce(summed, NO_MARKS);
  return cleanShare(counts);
}

/** By which keys are compared: the best, or on a shared ladder the share of clean repetitions. */
function bestIn(stand: Stand, exercise: Exercise, key: KeyName): number | null {
  if (exercise.rotation?.ladder === 'shared') return sharedIn(stand, exercise, key);
  const bests = linesOf(stand, exercise).flatMap(({ line, best }) => (line.key === key && best ? [best.bpm] : []));
  return bests.length === 0 ? null : Math.max(...bests);
}

/** Keys whose notes leave the easy range. */
function edgeKeys(
  stand: Stand,
  exercise: Exercise,
  keys: readonly KeyName[],
  articulation: string,
): ReadonlySet<KeyName> {
  const placed = (key: KeyName) => stand.prepare(exercise, { exercise: exercise.id, key, articulation }).drill?.placed;
  return new Set(keys.filter((key) => placed(key) === 'full'));
}

function known(
  stand: Stand,
  exercise: Exercise,
  rotation: Rotation,
  keys: readonly KeyName[],
  articulation: string,
  once: boolean,
): KeysKnown {
  return {
    weak: rotation.weakTimes > 1 ? weakKeys(keys, (key) => bestIn(stand, exercise, key)) : new Set(),
    edge: rotation.edgeTimes > 1 ? edgeKeys(stand, exercise, keys, articulation) : new Set(),
    once,
  };
}

/** Repetitions change the key by their number; blocks and rungs by how often a key was entered. */
const unitsDone = (stand: Stand, exercise: Exercise, { change }: Rotation): number =>
  change === 'repetition' ? repetitionsOf(stand, exercise) : drawnOf(stand.records, exercise).length;

/** `entered`: keys that were entered and are about to be kept. */
function rotated(
  stand: Stand,
  exercise: Exercise,
  rotation: Rotation,
  narrowed: Narrowed,
  entered: number,
): Due | null {
  const keys = narrowed.keys ?? exercise.keys;
  const articulation = (narrowed.articulations ?? exercise.articulations)[0] ?? 'slurred';
  const units = unitsDone(stand, exercise, rotation) + (rotation.change === 'repetition' ? 0 : entered);
  const round = Math.floor(units / Math.max(1, keys.length));
  const turns = turnsOf(
    keys,
    rotation,
    known(stand, exercise, rotation, keys, articulation, narrowed.once),
    seeded(seedOf(exercise.id) + round),
  );
  const turn = turnAfter(turns, units);
  if (!turn) return null;
  const { key, fingering } = turn;
  const line = { exercise: exercise.id, articulation, key: ladderKey(rotation, key) };
  return { line, key, fingering, drawn: rotation.change === 'repetition' ? null : cellName({ key, articulation }) };
}

/** Every pair of key and articulation comes once before one comes twice. */
function drawn(stand: Stand, exercise: Exercise, narrowed: Narrowed): Due | null {
  const cells = cellsOf({
    keys: narrowed.keys ?? exercise.keys,
    articulations: narrowed.articulations ?? exercise.articulations,
  });
  const before = drawnOf(stand.records, exercise);
  const cell: Cell | null = drawNext(cells, before, seeded(seedOf(`${stand.today}${exercise.id}${before.length}`)));
  if (!cell) return null;
  return {
    line: { exercise: exercise.id, ...cell },
    key: cell.key,
    fingering: 'ordinary',
    drawn: cells.length > 1 ? cellName(cell) : null,
  };
}

/** What comes next of an exercise within a block. */
export const dueNext = (stand: Stand, exercise: Exercise, narrowed: Narrowed, entered = 0): Due | null =>
  exercise.rotation ? rotated(stand, exercise, exercise.rotation, narrowed, entered) : drawn(stand, exercise, narrowed);

/** What was drawn last, for a block that is gone on with. */
export function dueAgain(stand: Stand, exercise: Exercise, narrowed: Narrowed): Due | null {
  const item = drawnOf(stand.records, exercise).at(-1);
  const cells = cellsOf({
    keys: narrowed.keys ?? exercise.keys,
    articulations: narrowed.articulations ?? exercise.articulations,
  });
  const cell = cells.find((one) => cellName(one) === item);
  if (!cell) return dueNext(stand, exercise, narrowed);
  const key = exercise.rotation ? ladderKey(exercise.rotation, cell.key) : cell.key;
  return { line: { exercise: exercise.id, ...cell, key }, key: cell.key, fingering: 'ordinary', drawn: null };
}

/** The new line takes over where the old one is in its cycle: the next count-in is at its own tempo. */
function takenOver(from: Practice, to: Practice): Step<Practice> {
  const { phase, heard, chain, serial, droneOn, model, cueing, played } = from;
  const next: Practice = { ...to, phase, heard, chain, serial, droneOn, model, cueing, played };
  const drone = droneOn ? [droneEffect(next)] : [];
  if (phase === 'ready' || phase === 'stopped') return { state: next, effects: drone };
  const step = goOn(next, cycle(next, next.climb.bpm), phase !== 'breathing');
  return { state: step.state, effects: [...step.effects, ...drone] };
}

const sameTurn = (practice: Practice, due: Due): boolean =>
  practice.key === due.key && practice.fingering === due.fingering;

/** Whether what was just stored is what changes the key. */
function isChange(before: Practice, after: Practice, { change }: Rotation): boolean {
  const isMark = after.done.length > before.done.length && after.done.at(-1)?.mark !== null;
  if (!isMark || change === 'block') return false;
  return change === 'repetition' || after.climb.bpm !== before.climb.bpm;
}

/** After a mark: the next key, if the exercise's rotation changes it now. */
export function rotateAfter(stand: Stand, before: Practice, narrowed: Narrowed, entered: number): StandStep | null {
  const { practice } = stand;
  const rotation = practice?.exercise.rotation;
  if (!practice || !rotation || !isChange(before, practice, rotation)) return null;
  const due = dueNext(stand, practice.exercise, narrowed, entered);
  if (!due) return null;
  const kept = keepDrawn(practice.exercise, due);
  if (sameTurn(practice, due)) return { state: stand, effects: kept };
  const { state, effects } = takenOver(practice, practiceOf(stand, practice.exercise, due, null));
  const learnt = withKnowledge(stand);
  const estimate = estimateFor(learnt, state.exercise, state.line);
  return {
    state: { ...learnt, practice: state, before: [...stand.before, practice], estimate },
    effects: [...kept, ...effects],
  };
}

/** The key that was entered last is entered no more. */
function undrawn({ records }: Stand, { exercise }: Practice): readonly Effect[] {
  if (!exercise.rotation || exercise.rotation.change === 'repetition') return [];
  const last = records.findLast((record) => record.kind === 'draw' && record.pool === exercise.id);
  return last?.id === undefined ? [] : [{ type: 'record', record: { kind: 'undo', of: last.id } }];
}

/** Back to the line before, as it was after its last mark, to take that mark back. */
export function lineBefore(stand: Stand): StandStep | null {
  const { practice, before } = stand;
  const last = before.at(-1);
  if (!practice || !last || practice.done.length > 0 || practice.due?.early) return null;
  const { state, effects } = takenOver(practice, last);
  return {
    state: { ...stand, practice: { ...state, done: last.done }, before: before.slice(0, -1) },
    effects: [...undrawn(stand, practice), ...effects],
  };
}
