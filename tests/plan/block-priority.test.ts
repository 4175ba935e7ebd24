/** How much each block counts today, and why, in one line. */
import { describe, expect, it } from 'vitest';
import { KEPT, ON_LADDER } from '../diary/kept.ts';
import type { BlockEntry } from '../../src/diary/entry.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { dayPlus } from '../../src/common/days.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { type Candidate, blockPriorities, isCandidate } from '../../src/plan/today/block-priority.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';

const DAY = '2026-11-25';
/** A day so many days before today. */
const ago = (days: number): string => dayPlus(DAY, -days);

function routineOf(blocks: string, more = ''): Routine {
  const exercises = 'exercises: {warm: {}, a: {tempo: 60 -> 120}, b: {kind: study}, c: {}}';
  const parts = `- {part: One, warm up: yes, blocks: [warm: 2]}\n- {part: Two, blocks: [${blocks}]}`;
  const text = `${exercises}\n${more}\nparts:\n${parts}`;
  const parsed = parseRoutine(text, 'r.yaml', () => ({ trouble: 'none' }));
  if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

const played = (block: string, days: number, change: Partial<BlockEntry> = {}): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: ago(days),
  routine: 'r',
  part: 'two',
  block,
  event: 'done',
  played: 240,
  length: 240,
  exercise: block,
  ...change,
});

/** Something that was played long ago, so that nothing waits from the first day on. */
const LONG_AGO = played('gone', 100, { exercise: null });

interface Asked {
  readonly more?: string;
  readonly records?: readonly BlockEntry[];
  readonly lines?: readonly LineHistory[];
}

/** What is said of every block of the second part; ties count as nothing. */
function weighed(blocks: string, { more = '', records = [], lines = [] }: Asked = {}) {
  const routine = routineOf(blocks, more);
  const before = playedBefore(DAY, [LONG_AGO, ...records], lines);
  return blockPriorities(routine, routine.parts.slice(1), before, () => 0);
}

function candidate(block: string, asked: Asked = {}): Candidate {
  const [found] = weighed(block, asked);
  if (found === undefined || !isCandidate(found)) throw new Error(found?.reason ?? 'nothing');
  return found;
}

const line = (exercise: string, change: Partial<LineHistory> = {}): LineHistory => ({
  line: { exercise, articulation: 'slurred', key: 'C' },
  ...ON_LADDER,
  lastDay: ago(1),
  best: null,
  tallies: [],
  ...change,
});

const tallies = (clean: number, missed: number, days = 1): Partial<LineHistory> => ({
  lastDay: ago(days),
  tallies: [{ day: ago(days), bpm: 60, clean, tense: 0, missed }],
});

/** Weakness of what has no marks yet: a judgement of this program's, 0.3. */
const UNMARKED = 1.3;

describe('a block counts', () => {
  it.each([
    ['the longer it was not played, up to three times its days', 'a: 4', [1, 2, 3, 4], [1, 2, 3, 3]],
    ['by its own days', '{play: a, minutes: 4, every: 2 days}', [1, 2], [0.5, 10]],
    ['ten times when its day has come', '{play: a, minutes: 4, every: 2 days}', [2, 4, 6, 8], [10, 20, 30, 30]],
    ['from the day before on where it is due every three days', '{play: a, every: 3 days}', [1, 2], [1 / 3, 20 / 3]],
    ['from two days before on where it is due every week', '{play: a, every: week}', [4, 5], [4 / 7, 50 / 7]],
    ['every six days from the day before', '{play: a, every: 6 days}', [4, 5], [4 / 6, 50 / 6]],
  ])('%s', (_, block, days, expected) => {
    const found = days.map((one) => candidate(block, { records: [played('a', one)] }).priority / UNMARKED);
    found.forEach((priority, i) => expect(priority).toBeCloseTo(expected[i] as number, 9));
  });

  it('a tenth at least, where it was played today already outside of this block', () => {
    const records = [played('other', 0, { exercise: 'a' })];
    expect(candidate('a: 4', { records }).priority).toBeCloseTo(0.1 * UNMARKED, 9);
    expect(candidate('a: 4', { records }).reason).toBe('every day, played today already');
  });

  it('by how much it is wanted', () => {
    const wanted = [1, 3, 5].map((want) => candidate(`{play: a, want: ${want}}`, { records: [played('a', 1)] }));
    expect(wanted.map(({ priority }) => Math.round((priority / UNMARKED) * 3))).toEqual([1, 3, 5]);
    expect(wanted.map(({ reason }) => reason)).toEqual([
      'every day, played yesterday, you want it seldom',
      'every day, played yesterday',
      'every day, played yesterday, you want it often',
    ]);
    expect(candidate('{play: a, want: 4}').reason).toBe('not played yet, you want it often');
    expect(candidate('{play: a, want: 2}').reason).toBe('not played yet, you want it seldom');
  });

  it('ten times where it is in every day', () => {
    const found = candidate('{play: a, always: yes}', { records: [played('a', 1)] });
    expect(found.priority).toBeCloseTo(10 * UNMARKED, 9);
    expect(found.reason).toBe('every day');
  });

  it('as much as it is weak: half what was not clean, half what is missing to the target', () => {
    const weak = (change: Partial<LineHistory>): number =>
      candidate('a: 4', { records: [played('a', 1)], lines: [line('a', change)] }).priority;
    expect(weak({})).toBeCloseTo(1.3, 9);
    expect(weak(tallies(8, 2))).toBeCloseTo(1 + (0.2 + 1) / 2, 9);
    expect(weak({ ...tallies(10, 0), best: { bpm: 90, day: ago(9) } })).toBeCloseTo(1 + 0.25 / 2, 9);
    expect(weak({ ...tallies(10, 0), best: { bpm: 150, day: ago(9) } })).toBeCloseTo(1, 9);
  });

  it('a tenth of a minute where it is a rest', () => {
    const rest = candidate('rest: 3');
    expect([rest.priority, rest.reason, rest.exercise, rest.kind]).toEqual([0.1, 'rest', null, 'rest']);
  });

  it('as much as any other but for chance, which settles ties', () => {
    const routine = routineOf('a: 4');
    const [found] = blockPriorities(routine, routine.parts.slice(1), playedBefore(DAY, [LONG_AGO], []), () => 0.5);
    expect(found && isCandidate(found) && found.priority).toBeCloseTo(candidate('a: 4').priority * (1 + 5e-7), 12);
  });
});

describe('the reason of a block', () => {
  it.each<readonly [string, string, readonly BlockEntry[], string]>([
    ['never played', 'a: 4', [], 'not played yet'],
    ['never played, and pressing', '{play: a, every: 2 days}', [], 'not played yet'],
    ['played yesterday', 'a: 4', [played('a', 1)], 'every day, played yesterday'],
    ['played days ago', 'a: 4', [played('a', 5)], 'every day, played 5 days ago'],
    ['not its day', '{play: a, every: 4 days}', [played('a', 1)], 'due: 1 of 4 days'],
    ['its day', '{play: a, every: 2 days}', [played('a', 2)], 'due now: 2 of 2 days'],
  ])('%s', (_, block, records, reason) => {
    expect(candidate(block, { records }).reason).toBe(reason);
  });

  it('tells a share of clean repetitions under 70 %', () => {
    const reason = (clean: number) =>
      candidate('a: 4', { records: [played('a', 1)], lines: [line('a', tallies(clean, 10 - clean))] }).reason;
    expect(reason(6)).toBe('every day, played yesterday, 60 % clean lately');
    expect(reason(7)).toBe('every day, played yesterday');
  });

  it('tells that it was begun today, and how far it came', () => {
    const records = [played('a', 0, { event: 'left', played: 125, length: 300 })];
    const found = candidate('a: 5', { records });
    expect(found.reason).toBe('begun today, 2:05 played');
    expect([found.full, found.least]).toEqual([5 - 125 / 60, 5 - 125 / 60]);
  });

  it('of a warm-up is that it comes first', () => {
    const routine = routineOf('a: 4');
    const [warm] = blockPriorities(routine, routine.parts, playedBefore(DAY, [], []), () => 0);
    expect(warm?.reason).toBe('warm-up, always first');
  });
});

describe('a block of today', () => {
  const today = (change: Partial<BlockEntry>, block = 'a: 4') =>
    weighed(block, { records: [played('a', 0, change)] })[0];

  it.each([
    [{ event: 'done' as const }, 'done today'],
    [{ event: 'skipped' as const, played: 0 }, 'skipped today'],
    [{ event: 'left' as const, played: 211 }, 'done today'],
  ])('that was %j is %s', (change, reason) => {
    const found = today(change);
    expect(found && isCandidate(found)).toBe(false);
    expect(found?.reason).toBe(reason);
  });

  it('has what is left of it, and of what was added', () => {
    expect(today({ event: 'left', played: 210 })).toMatchObject({ full: 0.5, least: 0.5 });
    expect(today({ event: 'left', played: 60, length: 420 })).toMatchObject({ full: 6, least: 2 });
    expect(today({ event: 'going', played: 60, length: 120 })).toMatchObject({ full: 3, least: 2 });
  });
});

describe('the day on which a block was last played', () => {
  const reason = (blocks: string, records: readonly BlockEntry[]) =>
    weighed(blocks, { records }).map((found) => found.reason);

  it("is its exercise's, where it alone plays it", () => {
    expect(reason('a: 4', [played('elsewhere', 1, { exercise: 'a' })])).toEqual(['every day, played yesterday']);
    expect(reason('a: 4', [played('a', 3), played('elsewhere', 1, { exercise: 'a' })])).toEqual([
      'every day, played yesterday',
    ]);
    expect(reason('a: 4', [played('elsewhere', 3, { exercise: 'a' }), played('a', 1)])).toEqual([
      'every day, played yesterday',
    ]);
  });

  it('is its own, where several blocks play its exercise', () => {
    expect(reason('a: 4, {play: a, minutes: 3}', [played('a', 2)])).toEqual([
      'every day, played 2 days ago',
      'not played yet',
    ]);
  });

  it('is its own, where it plays none', () => {
    expect(reason('{do: Listen, minutes: 3}', [played('listen', 2, { exercise: null })])).toEqual([
      'every day, played 2 days ago',
    ]);
  });
});

describe('a pool', () => {
  const more = 'pools: {p: {every: 4 days, items: [a, b, c]}}';
  const drawn = (records: readonly BlockEntry[], blocks = 'p: 4') =>
    weighed(blocks, { more, records }).map((found) => (isCandidate(found) ? found.exercise : found.reason));

  it('gives what has waited longest, and what was never played before the rest', () => {
    expect(drawn([played('a', 2), played('b', 3), played('c', 1)])).toEqual(['b']);
    expect(drawn([played('a', 2), played('b', 1)])).toEqual(['c']);
    // What was never played has waited since anything was.
    expect(drawn([played('a', 200), played('b', 100)])).toEqual(['c']);
    expect(drawn([played('a', 200), played('b', 100), played('c', 99)])).toEqual(['a']);
  });

  it('gives every block another one, and none twice a day', () => {
    const records = [played('a', 3), played('b', 2), played('c', 1)];
    expect(drawn(records, 'p: 4, p: 3, p: 2, p: 1')).toEqual([
      'a',
      'b',
      'c',
      'everything in its pool was played today',
    ]);
    expect(drawn([...records, played('other', 0, { exercise: 'a' })])).toEqual(['b']);
  });

  it('goes on with what was begun today', () => {
    const records = [played('a', 3), played('p', 0, { exercise: 'c', event: 'left', played: 60 })];
    expect(drawn(records)).toEqual(['c']);
  });

  it('shows its exercise, with what would come instead', () => {
    const records = [played('a', 3), played('b', 2), played('c', 1)];
    const found = candidate('p: 4', { more, records });
    expect(found).toMatchObject({ title: 'A', kind: 'technique', exercise: 'a' });
    expect(found.instead).toEqual([
      { exercise: 'b', title: 'B', kind: 'study', reason: 'due: 2 of 4 days' },
      { exercise: 'c', title: 'C', kind: 'technique', reason: 'due: 1 of 4 days' },
    ]);
    expect(candidate('a: 4').instead).toEqual([]);
  });

  // With i items due within d days, i/d of a draw is needed each day; one day before its day an item presses already.
  it.each([
    ['three waiting for a day', [1, 1, 1], 0.5 + 3 / 3, 10],
    ['one for two days, two for one', [2, 1, 1], 0.5 + 3 / 3, 10],
    ['one whose day has come', [3, 0, 0], 0.5 + 1, 10],
    ['one just played and two of today', [1, 0, 0], 0.5 + 1 / 3, 1],
    ['two of yesterday', [1, 1, 0], 0.5 + 2 / 3, 1],
    ['all long due', [40, 40, 40], 3, 10],
  ])('presses by what it still has to reach: %s', (_, days, due, must) => {
    const records = ['a', 'b', 'c'].map((name, i) => played(`x-${name}`, days[i] ?? 0, { exercise: name }));
    expect(candidate('p: 4', { more, records }).priority / UNMARKED).toBeCloseTo(must * due, 9);
  });

  it('says of what presses that its day has come', () => {
    const records = ['a', 'b', 'c'].map((name) => played(`x-${name}`, 1, { exercise: name }));
    expect(candidate('p: 4', { more, records }).reason).toBe('due now: 1 of 4 days');
  });

  it('lets chance settle which of two that waited as long', () => {
    const routine = routineOf('p: 4', more);
    const records = ['a', 'b', 'c'].map((name) => played(`x-${name}`, 1, { exercise: name }));
    const first = (chances: readonly number[]) => {
      let i = 0;
      const chance = () => chances[i++ % chances.length] as number;
      const [found] = blockPriorities(routine, routine.parts.slice(1), playedBefore(DAY, records, []), chance);
      return found && isCandidate(found) ? found.exercise : null;
    };
    expect(first([0.9, 0.1, 0.5])).toBe('b');
    expect(first([0.2, 0.7, 0.1])).toBe('c');
  });
});
