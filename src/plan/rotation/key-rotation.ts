/** The order in which keys come round, how often each, and when the next one is due. Chance is an argument. */
import { ALL_KEYS, type KeyName } from '../../ladder/line.ts';
import type { Chance } from '../../common/chance.ts';
import { type Key, fifthsOf, readKey } from '../../music/pitch/keys.ts';
import { midiOf } from '../../music/pitch/note-names.ts';

/** 'own' is as the player wrote them; 'drawn' is a new order each time round. */
export const KEY_ORDERS = ['own', 'fifths', 'fourths', 'chromatic', 'semitone pairs', 'drawn'] as const;
export type KeyOrder = (typeof KEY_ORDERS)[number];

/** After what the key changes. */
export const KEY_CHANGES = ['repetition', 'rung', 'block'] as const;
export type KeyChange = (typeof KEY_CHANGES)[number];

export interface Rotation {
  readonly order: KeyOrder;
  readonly change: KeyChange;
  /** One ladder and best for each key, or one for all of them. */
  readonly ladder: 'each key' | 'shared';
  /** How many times as often the weak keys come, and those at the edges of the range; 1 is as often as the others. */
  readonly weakTimes: number;
  readonly edgeTimes: number;
  /** Each key twice, with ordinary and then with alternate fingerings. */
  readonly fingerings: boolean;
}

export const PLAIN_ROTATION: Rotation = {
  order: 'own',
  change: 'block',
  ladder: 'each key',
  weakTimes: 1,
  edgeTimes: 1,
  fingerings: false,
};

/** One stay in a key. */
export interface Turn {
  readonly key: KeyName;
  readonly fingering: 'ordinary' | 'alternate';
  /** How many repetitions (or rungs, or blocks) it lasts. */
  readonly times: number;
}

/** What is known of the keys when a round begins. */
export interface KeysKnown {
  readonly weak: ReadonlySet<KeyName>;
  readonly edge: ReadonlySet<KeyName>;
  /** Time is short: each key once, nothing repeated. */
  readonly once: boolean;
}

export const NOTHING_KNOWN: KeysKnown = { weak: new Set(), edge: new Set(), once: false };

const modulo = (n: number, by: number): number => ((n % by) + by) % by;

function asKey(name: KeyName): Key {
  const key = readKey(name);
  return typeof key === 'string' ? { name, tonic: 'C', scale: null } : key;
}

const fifths = (name: KeyName): number => fifthsOf(asKey(name).tonic);
const pitchClass = (name: KeyName): number => modulo(midiOf(`${asKey(name).tonic}4`), 12);

/** Sorted by how far each lies from the first one, always going the same way round. */
function roundFrom(keys: readonly KeyName[], place: (key: KeyName) => number): readonly KeyName[] {
  const start = keys[0] === undefined ? 0 : place(keys[0]);
  const far = (key: KeyName): number => modulo(place(key) - start, 12);
  return [...keys].sort((a, b) => far(a) - far(b));
}

/** Fisher and Yates's shuffle. */
function shuffled<T>(items: readonly T[], chance: Chance): readonly T[] {
  const mixed = [...items];
  for (let i = mixed.length - 1; i > 0; i -= 1) {
    const j = Math.floor(chance() * (i + 1));
    [mixed[i], mixed[j]] = [mixed[j] as T, mixed[i] as T];
  }
  return mixed;
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

/** The keys in order, in groups that belong together (pairs, or single keys). */
export function keysInOrder(
  keys: readonly KeyName[],
  order: KeyOrder,
  chance: Chance,
): readonly (readonly KeyName[])[] {
  if (order === 'semitone pairs') return semitonePairs(keys);
  const sorted =
    order === 'fifths'
      ? roundFrom(keys, fifths)
      : order === 'fourths'
        ? roundFrom(keys, (key) => -fifths(key))
        : order === 'chromatic'
          ? roundFrom(keys, pitchClass)
          : order === 'drawn'
            ? shuffled(keys, chance)
            : keys;
  return sorted.map((key) => [key]);
}

function timesFor(key: KeyName, rotation: Rotation, known: KeysKnown): number {
  if (known.once) return 1;
  const weak = known.weak.has(key) ? rotation.weakTimes : 1;
  return Math.max(weak, known.edge.has(key) ? rotation.edgeTimes : 1, 1);
}

/** One round. Semitone pairs go to and fro twice, unless time is short. */
export function turnsOf(
  keys: readonly KeyName[],
  rotation: Rotation,
  known: KeysKnown,
  chance: Chance,
): readonly Turn[] {
  return keysInOrder(keys, rotation.order, chance).flatMap((group) => {
    const rounds = group.length > 1 && !known.once ? [...group, ...group] : group;
    return rounds.flatMap((key): readonly Turn[] => {
      const ordinary: Turn = { key, fingering: 'ordinary', times: timesFor(key, rotation, known) };
      return rotation.fingerings && !known.once ? [ordinary, { ...ordinary, fingering: 'alternate' }] : [ordinary];
    });
  });
}

/** The turn after so many repetitions (or rungs, or blocks, whatever changes the key); round and round. */
export function turnAfter(turns: readonly Turn[], done: number): Turn | null {
  const all = turns.reduce((sum, turn) => sum + turn.times, 0);
  let left = all > 0 ? modulo(done, all) : 0;
  for (const turn of turns) {
    if (left < turn.times) return turn;
    left -= turn.times;
  }
  return null;
}

/** Keys without a best, and those whose best lies more than 15 % under the middle one: common practice, no source. */
export function weakKeys(keys: readonly KeyName[], bestOf: (key: KeyName) => number | null): ReadonlySet<KeyName> {
  const held = keys.flatMap((key) => bestOf(key) ?? []).sort((a, b) => a - b);
  const middle = held[Math.floor((held.length - 1) / 2)];
  if (middle === undefined) return new Set();
  return new Set(keys.filter((key) => (bestOf(key) ?? 0) < middle * 0.85));
}

/** The key under which a line's ladder is kept: its own, or one name for all where they share it. */
export const ladderKey = (rotation: Rotation, key: KeyName): KeyName => (rotation.ladder === 'shared' ? ALL_KEYS : key);
