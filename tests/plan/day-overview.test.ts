/** The day by parts: what is planned, what was played. */
import { describe, expect, it } from 'vitest';
import { KEPT } from '../diary/kept.ts';
import type { BlockEntry } from '../../src/diary/entry.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { type DayOverview, dayOverview } from '../../src/plan/today/day-overview.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';

const DAY = '2026-11-25';
const TEXT = `
routine: Test
instrument: flute
breaks: 2 after 8
limits: {same kind: 9}
exercises: {w: {material: Sheet}, a: {}, b: {kind: study}}
pools: {p: {every: 9, items: [b]}}
parts:
  - {part: One, warm up: yes, blocks: [{play: w, minutes: 4, least: 4}]}
  - {part: Two, blocks: [{play: a, minutes: 5, least: 5}, rest: 3, {draw: p, minutes: 3, least: 3}]}
  - {part: Three, blocks: [{do: Listen, minutes: 2, least: 2, want: 1}]}
`;
const parsed = parseRoutine(TEXT, 'r.yaml', () => ({ trouble: 'none' }));
if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
const { routine } = parsed;

const today = (part: string, block: string, event: BlockEntry['event'], played: number): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: DAY,
  routine: 'r',
  part,
  block,
  event,
  played,
  length: 240,
  exercise: null,
});

function overview(minutes: number, records: readonly BlockEntry[] = []): DayOverview {
  const before = playedBefore(DAY, records, []);
  return dayOverview(routine, todaysPlan(routine, { minutes, before, seed: 1 }), before, records);
}

const states = ({ parts }: DayOverview) =>
  parts.map(({ state, blocks }) => `${state}: ${blocks.map((block) => block.state).join(', ')}`);

describe('the day', () => {
  it('has its parts, without the rests of the file', () => {
    const day = overview(60);
    expect(day).toMatchObject({ day: DAY, title: 'Test', instrument: 'flute', available: 60, materials: ['Sheet'] });
    expect(day.parts.map(({ id, title, minutes }) => [id, title, minutes])).toEqual([
      ['one', 'One', 4],
      ['two', 'Two', 8],
      ['three', 'Three', 2],
    ]);
    expect(day.parts[1]?.blocks.map(({ id, title, kind, minutes }) => [id, title, kind, minutes])).toEqual([
      ['a', 'A', 'technique', 5],
      ['p', 'B', 'study', 3],
    ]);
    expect(states(day)).toEqual(['open: open', 'open: open, open', 'open: open']);
    expect([day.doneToday, day.load.toCome, day.load.minutes]).toEqual([0, 14, 0]);
    expect(day.planned).toBeGreaterThan(14);
    expect(day.sentences.length).toBeGreaterThan(2);
  });

  it('has what is left out with its own minutes and the reason', () => {
    const [, two, three] = overview(6).parts;
    expect(two?.blocks[1]).toMatchObject({ title: 'P', state: 'left out', minutes: 3, reason: 'no time left' });
    expect([two?.minutes, two?.state, three?.minutes]).toEqual([0, 'open', 2]);
  });

  it('tells what was done, begun and skipped, of this routine only', () => {
    const records = [
      today('one', 'w', 'done', 240),
      today('two', 'a', 'left', 60),
      today('two', 'p', 'skipped', 0),
      today('three', 'listen', 'skipped', 0),
      { ...today('one', 'w', 'done', 600), routine: 'other' },
      { ...today('one', 'w', 'done', 600), routine: 'r-two' },
    ];
    const day = overview(60, records);
    expect(states(day)).toEqual(['done: done', 'begun: begun, skipped', 'done: skipped']);
    expect(day.parts[0]?.blocks[0]).toMatchObject({ played: 240, minutes: 4, reason: 'done today' });
    expect(day.parts[1]?.blocks[0]).toMatchObject({ played: 60, minutes: 4, reason: 'begun today, 1:00 played' });
    expect([day.doneToday, day.load.minutes, day.load.toCome]).toEqual([5, 25, 4]);
  });

  it('knows a part as begun by a block that is done, and one that was looked at as open', () => {
    expect(states(overview(60, [today('two', 'a', 'done', 0)]))[1]).toBe('begun: done, open');
    expect(states(overview(60, [today('two', 'a', 'skipped', 0)]))[1]).toBe('open: skipped, open');
    expect(states(overview(60, [today('two', 'a', 'started', 0)]))[1]).toBe('open: open, open');
    expect(states(overview(1, [today('one', 'w', 'done', 1), today('two', 'a', 'left', 10)]))[1]).toBe(
      'begun: begun, left out',
    );
  });
});
