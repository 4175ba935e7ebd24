/** How a key of an exercise is written out: where the exercise belongs, and in one voice with its other keys. */
import type { KeyName } from '../../ladder/line.ts';
import { isJump } from '../../music/pattern/one-voice.ts';
import { type Passage, type Pitch, endsOf } from '../../music/pattern/passage.ts';
import { isPassage, writeOut } from '../../music/pattern/written-in-key.ts';
import type { KeyRound, WriteRequest } from '../../music/pattern/write-request.ts';
import type { Instrument } from '../../music/pitch/instruments.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import type { Place } from '../../music/pitch/registers.ts';
import type { Exercise } from './exercise.ts';
import { isDrawn, keysInOrder } from '../rotation/key-order.ts';
import { rotationOf } from '../rotation/key-rotation.ts';

/** The exercise's keys as they come round. */
function roundOf(exercise: Pick<Exercise, 'keys' | 'rotation'>): KeyRound {
  const { order } = rotationOf(exercise);
  return { keys: keysInOrder(exercise.keys, order).flat(), drawn: isDrawn(order) };
}

/** What of an exercise settles how it is written out. */
type Written = Pick<Exercise, 'scale' | 'meter' | 'beat' | 'notesPerBeat' | 'keys' | 'rotation' | 'place'>;

/** `place` is the block's own, which goes before the exercise's. */
export function writtenInRound(
  exercise: Written & { readonly pattern: string },
  key: KeyName,
  instrument: Instrument,
  place: Place | undefined = exercise.place,
): WriteRequest {
  const { pattern, scale, meter, beat, notesPerBeat } = exercise;
  const where = place === undefined ? {} : { place };
  return { pattern, scale, meter, beat, notesPerBeat, key, instrument, round: roundOf(exercise), ...where };
}

type Notes = Pick<Passage, 'notes' | 'tonality'>;

/** One sentence where the next key leaves the voice of the one before by an octave; null where it keeps to it. */
export function octaveJump(before: Notes | null, next: Notes | null): string | null {
  const [low, then] = [before && endsOf(before)?.low, next && endsOf(next)?.low];
  if (!before || !next || !low || !then || !isJump(low.written, then.written)) return null;
  const [from, to] = [before, next].map(({ tonality }) => withSigns(tonality.tonic));
  const way = then.written < low.written ? 'lower' : 'higher';
  return `After ${from}, ${to} begins an octave ${way}, so that all keys keep to one voice.`;
}

/** Each key of a round that has an order, and the one that comes before it. */
function neighbours({ keys, drawn }: KeyRound): readonly (readonly [before: KeyName, next: KeyName])[] {
  if (drawn || keys.length < 2) return [];
  return keys.map((next, i) => [keys.at(i - 1) ?? next, next] as const);
}

/** The key that comes before in the exercise's own order; null where keys are drawn, or it is none of them. */
export const keyBefore = (exercise: Pick<Exercise, 'keys' | 'rotation'>, key: KeyName): KeyName | null =>
  neighbours(roundOf(exercise)).find(([, next]) => next === key)?.[0] ?? null;

/** What an exercise comes to on an instrument over all its keys. */
export interface RoundOnInstrument {
  readonly lowest: Pitch;
  readonly highest: Pitch;
  /** A sentence for each key that leaves the voice of the one before it. */
  readonly jumps: readonly string[];
}

/** Null for material of the player's own, and where nothing can be written out. */
export function roundOn(exercise: Exercise, instrument: Instrument): RoundOnInstrument | null {
  const { pattern, keys } = exercise;
  if (pattern === null) return null;
  const passages = new Map<KeyName, Passage>();
  for (const key of keys) {
    const written = writeOut(writtenInRound({ ...exercise, pattern }, key, instrument));
    if (isPassage(written)) passages.set(key, written);
  }
  const ends = [...passages.values()].flatMap((passage) => endsOf(passage) ?? []);
  const lowest = ends.map(({ low }) => low).sort((a, b) => a.written - b.written)[0];
  const highest = ends.map(({ high }) => high).sort((a, b) => b.written - a.written)[0];
  if (!lowest || !highest) return null;
  const jumps = neighbours(roundOf(exercise)).flatMap(
    ([before, next]) => octaveJump(passages.get(before) ?? null, passages.get(next) ?? null) ?? [],
  );
  return { lowest, highest, jumps };
}
