import { KEPT } from '../diary/kept.ts';
import { type DayEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';

const DAY = '2026-11-25';

/** What a plan of an hour plays, in order, for each of many ways to settle the draws. */
function played(
  pools: string,
  blocks: string,
  records: readonly DayEntry[] = [],
): readonly (readonly (string | null)[])[] {
  const text =
    `exercises: {warm: {}, a: {}, b: {}, c: {}}\npools: ${pools}\nparts: [{part: One, blocks: [warm: ` +
    `2, ${blocks}]}]\n`;
  const parsed = parseRoutine(text, 'r.yaml', () => ({ trouble: 'none' }));
  if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
  return Array.from({ length: 12 }, (_, seed) =>
    todaysPlan(parsed.routine, { minutes: 60, before: playedBefore(DAY, records, []), seed }).items.map(
      ({ exercise }) => exercise,
    ),
  );
}

describe('two blocks of one plan', () => {
  it.each([
    ['a block of its own before the pool', '{p: {every: 9, items: [a, b]}}', 'a: 4, p: 4', 'b'],
    ['a block of its own after the pool', '{p: {every: 9, items: [a, b]}}', 'p: 4, a: 4', 'b'],
    ['another pool with the same item', '{p: {every: 9, items: [a]}, q: {every: 9, items: [a, b]}}', 'p: 4, q: 4', 'b'],
  ])('do not play the same exercise: %s', (_, pools, blocks, other) => {
    for (const plan of played(pools, blocks)) expect(plan.toSorted()).toEqual(['a', other, 'warm']);
  });

  it('play it twice where the pool holds nothing else', () => {
    for (const plan of played('{p: {every: 9, items: [a]}}', 'a: 4, p: 4')) expect(plan).toEqual(['warm', 'a', 'a']);
  });

  it('keep what one of them has drawn earlier today', () => {
    const begun: DayEntry = {
      ...KEPT,
      kind: 'block',
      at: '',
      day: DAY,
      routine: 'r',
      part: 'one',
      block: 'q',
      event: 'left',
      played: 30,
      length: 240,
      exercise: 'a',
    };
    for (const plan of played('{p: {every: 9, items: [a, b]}, q: {every: 9, items: [a, b]}}', 'p: 4, q: 4', [begun])) {
      expect(plan).toEqual(['warm', 'b', 'a']);
    }
  });
});
