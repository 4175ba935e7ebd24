/** A round: every turn that is to come before one comes again, and how far the present round has come. */
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import { keysInOrder } from './key-order.ts';
import type { Rotation } from './key-rotation.ts';
import { type Turn, turnName } from './turn.ts';

interface RoundAsked {
  readonly keys: readonly KeyName[];
  readonly articulations: readonly ArticulationName[];
  readonly rotation: Rotation;
  /** How many times a key is to come in a round. */
  readonly timesOf: (key: KeyName, articulation: ArticulationName) => number;
  /** Time is short: each key once, nothing repeated. */
  readonly once: boolean;
}

/** A stay in one key: as often as it is to come, with ordinary and then with alternate fingerings. */
function stayIn(key: KeyName, articulation: ArticulationName, { rotation, timesOf, once }: RoundAsked) {
  const times = (fingering: Turn['fingering']): readonly Turn[] =>
    Array.from({ length: once ? 1 : timesOf(key, articulation) }, () => ({ key, articulation, fingering }));
  return rotation.fingerings && !once ? [...times('ordinary'), ...times('alternate')] : times('ordinary');
}

/** The keys one after the other; semitone pairs go to and fro twice. */
const keysOfRound = ({ keys, rotation, once }: RoundAsked): readonly KeyName[] =>
  keysInOrder(keys, rotation.order).flatMap((group) => (group.length > 1 && !once ? [...group, ...group] : group));

/**
 * All keys in the rotation's order, then all of them in the next articulation; or in each key all articulations in
 * turn.
 */
export function turnsOfRound(asked: RoundAsked): readonly Turn[] {
  const keys = keysOfRound(asked);
  const { articulations, rotation } = asked;
  return rotation.articulations === 'in turn'
    ? keys.flatMap((key) => articulations.flatMap((articulation) => stayIn(key, articulation, asked)))
    : articulations.flatMap((articulation) => keys.flatMap((key) => stayIn(key, articulation, asked)));
}

/** Where a round stands. Turns are told by their index: some come more than once in it. */
export interface RoundSoFar {
  readonly taken: ReadonlySet<number>;
  /** The turn that came last, in this round or as the end of the one before; null before the first. */
  readonly last: number | null;
}

/**
 * What of a round has come, from the names of all that ever came, oldest first. A round is over as soon as every turn
 * that there is now has come up in it, so what is added later is simply still to come; other names are passed over.
 */
export function roundSoFar(turns: readonly Turn[], came: readonly string[]): RoundSoFar {
  const byName = new Map<string, number[]>();
  turns.forEach((turn, i) => byName.set(turnName(turn), [...(byName.get(turnName(turn)) ?? []), i]));
  let [taken, last]: [Set<number>, number | null] = [new Set(), null];
  for (const name of came) {
    const places = byName.get(name);
    if (places === undefined) continue;
    last = places.find((i) => !taken.has(i)) ?? (places.at(-1) as number);
    taken.add(last);
    if (taken.size === turns.length) taken = new Set();
  }
  return { taken, last };
}
