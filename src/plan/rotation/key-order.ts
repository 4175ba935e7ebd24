/** The orders in which keys come round. */
import type { KeyName } from '../../ladder/line.ts';
import { type Key, fifthsOf, readKey } from '../../music/pitch/keys.ts';
import { midiOf } from '../../music/pitch/note-names.ts';

/**
 * 'own' is as the player wrote them; 'drawn' is a new order each time round; 'key and articulation' draws both
 * together, and so does 'from the hat', one cell of the grid after the other while the player plays.
 */
export const KEY_ORDERS = [
  'own',
  'fifths',
  'fourths',
  'chromatic',
  'semitone pairs',
  'drawn',
  'key and articulation',
  'from the hat',
] as const;
export type KeyOrder = (typeof KEY_ORDERS)[number];

/** Whether keys and ways of tonguing are drawn together. */
export const isCellDrawn = (order: KeyOrder): boolean => order === 'key and articulation' || order === 'from the hat';

/** Whether chance settles what comes next. */
export const isDrawn = (order: KeyOrder): boolean => order === 'drawn' || isCellDrawn(order);

const modulo = (n: number, by: number): number => ((n % by) + by) % by;

function asKey(name: KeyName): Key {
  const key = readKey(name);
  return typeof key === 'string' ? { name, tonic: 'C', scale: null } : key;
}

const fifths = (name: KeyName): number => fifthsOf(asKey(name).tonic);
const pitchClass = (name: KeyName): number => modulo(midiOf(`${asKey(name).tonic}4`), 12);

/** Sorted by how far each lies from the first one, always going the same way round. */
function roundFrom(keys: readonly KeyName[], stepsTo: (key: KeyName) => number): readonly KeyName[] {
  const start = keys[0] === undefined ? 0 : stepsTo(keys[0]);
  const far = (key: KeyName): number => modulo(stepsTo(key) - start, 12);
  return [...keys].sort((a, b) => far(a) - far(b));
}

/** Neighbours a semitone apart stand together; a key without a neighbour stands alone. */
function semitonePairs(keys: readonly KeyName[]): readonly (readonly KeyName[])[] {
  const pairs: KeyName[][] = [];
  for (const key of roundFrom(keys, pitchClass)) {
    const open = pairs.at(-1);
    const [lower] = open ?? [];
    if (open?.length === 1 && lower !== undefined && modulo(pitchClass(key) - pitchClass(lower), 12) === 1)
      open.push(key);
    else pairs.push([key]);
  }
  return pairs;
}

const SORTED: Partial<Readonly<Record<KeyOrder, (keys: readonly KeyName[]) => readonly KeyName[]>>> = {
  fifths: (keys) => roundFrom(keys, fifths),
  fourths: (keys) => roundFrom(keys, (key) => -fifths(key)),
  chromatic: (keys) => roundFrom(keys, pitchClass),
};

/** The keys in order, in groups that belong together (pairs, or single keys); as written where they are drawn. */
export const keysInOrder = (keys: readonly KeyName[], order: KeyOrder): readonly (readonly KeyName[])[] =>
  order === 'semitone pairs' ? semitonePairs(keys) : (SORTED[order]?.(keys) ?? keys).map((key) => [key]);
