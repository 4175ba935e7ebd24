/** Which turn of a round follows on what came: the next in order, or one that is drawn. */
import type { Chance } from '../../common/chance.ts';
import type { Rotation } from './key-rotation.ts';
import type { RoundSoFar } from './round.ts';
import { type Turn, isSameLine } from './turn.ts';

/** Indexes of turns that have not come yet. */
type Open = readonly number[];

/** Those of the articulation at hand, or of the next one that has any open. */
function ofArticulation(turns: readonly Turn[], open: Open, { taken, last }: RoundSoFar): Open {
  const names = [...new Set(turns.map(({ articulation }) => articulation))];
  const here = last === null ? 0 : names.indexOf(turns[last]?.articulation ?? '');
  // The end of a round is the end of its articulation too.
  const from = last !== null && taken.size === 0 ? here + 1 : here;
  const inTurn = [...names.slice(from), ...names.slice(0, from)];
  return inTurn
    .map((name) => open.filter((index) => turns[index]?.articulation === name))
    .reduce((found, next) => (found.length > 0 ? found : next), []);
}

/** The first after the key that came last; round and round. */
function inOrder(turns: readonly Turn[], open: Open, last: number | null): number | undefined {
  const [first] = open;
  if (last === null || first === undefined) return first;
  const { articulation } = turns[first] as Turn;
  const before = turns[last] as Turn;
  const at =
    before.articulation === articulation
      ? last
      : turns.findLastIndex((turn) => isSameLine(turn, { ...before, articulation }));
  return open.find((index) => index > at) ?? first;
}

/** One of the stays, not the one that came last while there is another. */
function drawnFrom(turns: readonly Turn[], open: Open, last: number | null, chance: Chance): number | undefined {
  const isSame = (a: number, b: number): boolean => isSameLine(turns[a] as Turn, turns[b] as Turn);
  const stays = open.filter((index, i) => open.findIndex((other) => isSame(other, index)) === i);
  const others = stays.filter((index) => last === null || !isSame(index, last));
  const from = others.length > 0 ? others : stays;
  return from[Math.floor(chance() * from.length)];
}

/** The turn right after the last one, where the player stays in the key: once more, or with the other fingering. */
function stayOn(turns: readonly Turn[], { taken, last }: RoundSoFar): Turn | null {
  if (last === null || taken.size === 0 || taken.has(last + 1)) return null;
  const [before, after] = [turns[last], turns[last + 1]];
  return before && after && isSameLine(before, after) ? after : null;
}

/** The turn that is due in a round that has come so far; null in a round without turns. */
export function turnAfter(
  turns: readonly Turn[],
  sofar: RoundSoFar,
  { order }: Pick<Rotation, 'order'>,
  chance: Chance,
): Turn | null {
  const staying = stayOn(turns, sofar);
  if (staying) return staying;
  const open = turns.flatMap((_, index) => (sofar.taken.has(index) ? [] : [index]));
  const among = order === 'key and articulation' ? open : ofArticulation(turns, open, sofar);
  const isDrawn = order === 'drawn' || order === 'key and articulation';
  const index = isDrawn ? drawnFrom(turns, among, sofar.last, chance) : inOrder(turns, among, sofar.last);
  return turns[index ?? -1] ?? null;
}

/** Turns of the same line in a row, taken together. */
function staysOf(turns: readonly Turn[]): readonly (readonly Turn[])[] {
  const stays: Turn[][] = [];
  for (const turn of turns) {
    const [open] = stays.at(-1) ?? [];
    if (open && isSameLine(open, turn)) stays.at(-1)?.push(turn);
    else stays.push([turn]);
  }
  return stays;
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

/** A whole round one after the other, drawn anew where its order is to be drawn. */
export function wholeRound(
  turns: readonly Turn[],
  { order }: Pick<Rotation, 'order'>,
  chance: Chance,
): readonly Turn[] {
  if (order === 'key and articulation') return shuffled(staysOf(turns), chance).flat();
  if (order !== 'drawn') return turns;
  const names = [...new Set(turns.map(({ articulation }) => articulation))];
  return names.flatMap((name) =>
    shuffled(staysOf(turns.filter(({ articulation }) => articulation === name)), chance).flat(),
  );
}
