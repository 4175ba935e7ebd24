/** Which turn of a round follows on what came: the next in order, or one that is drawn. */
import type { Chance } from '../../common/chance.ts';
import { isCellDrawn, isDrawn } from './key-order.ts';
import type { Rotation } from './key-rotation.ts';
import type { RoundSoFar } from './round.ts';
import { type Turn, isSameLine } from './turn.ts';

/** What of a rotation settles which turn follows. */
type Following = Pick<Rotation, 'order' | 'articulations'>;

/** Turns that belong together: of one line, or of one key where its ways of tonguing take turns. */
const isSameStay = ({ articulations }: Following, a: Turn, b: Turn): boolean =>
  articulations === 'in turn' ? a.key === b.key : isSameLine(a, b);

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
function drawnFrom(
  turns: readonly Turn[],
  open: Open,
  last: number | null,
  following: Following,
  chance: Chance,
): number | undefined {
  const isSame = (a: number, b: number): boolean => isSameStay(following, turns[a] as Turn, turns[b] as Turn);
  const stays = open.filter((index, i) => open.findIndex((other) => isSame(other, index)) === i);
  const others = stays.filter((index) => last === null || !isSame(index, last));
  const from = others.length > 0 ? others : stays;
  return from[Math.floor(chance() * from.length)];
}

/** The turn right after the last one, where the player stays: once more, with the other fingering, the other tongue. */
function stayOn(turns: readonly Turn[], { taken, last }: RoundSoFar, following: Following): Turn | null {
  if (last === null || taken.size === 0 || taken.has(last + 1)) return null;
  const [before, after] = [turns[last], turns[last + 1]];
  return before && after && isSameStay(following, before, after) ? after : null;
}

/** Where ways of tonguing take turns nothing is sorted by them. */
const inTurn = (open: Open, last: number | null): number | undefined =>
  open.find((index) => last !== null && index > last) ?? open[0];

/** The turn that is due in a round that has come so far; null in a round without turns. */
export function turnAfter(
  turns: readonly Turn[],
  sofar: RoundSoFar,
  following: Following,
  chance: Chance,
): Turn | null {
  const staying = stayOn(turns, sofar, following);
  if (staying) return staying;
  const { order, articulations } = following;
  const { last } = sofar;
  const open = turns.flatMap((_, index) => (sofar.taken.has(index) ? [] : [index]));
  const isMixed = isCellDrawn(order) || articulations === 'in turn';
  const among = isMixed ? open : ofArticulation(turns, open, sofar);
  const ordered = articulations === 'in turn' ? inTurn(open, last) : inOrder(turns, among, last);
  const index = isDrawn(order) ? drawnFrom(turns, among, last, following, chance) : ordered;
  return turns[index ?? -1] ?? null;
}
