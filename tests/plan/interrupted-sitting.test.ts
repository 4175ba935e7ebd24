/** A sitting gone on with from the journal alone. */
import { describe, expect, it } from 'vitest';
import { KEPT } from '../diary/kept.ts';
import { BREAK, type BlockEntry, type DayEntry, type PlanEntry, type PlannedItem } from '../../src/diary/entry.ts';
import { restoreRun } from '../../src/plan/run/interrupted-sitting.ts';
import type { Run } from '../../src/plan/run/running-routine.ts';
import { DAY, routine } from './sitting-by-clock.ts';

const planned = (block: string, change: Partial<PlannedItem> = {}): PlannedItem => ({
  part: 'fingers',
  block,
  length: 300,
  before: 0,
  exercise: null,
  ...change,
});

const plan = (items: readonly PlannedItem[], change: Partial<PlanEntry> = {}): PlanEntry => ({
  ...KEPT,
  kind: 'plan',
  at: '',
  day: DAY,
  routine: 'test',
  items,
  ...change,
});

const block = (
  name: string,
  event: BlockEntry['event'],
  played: number,
  change: Partial<BlockEntry> = {},
): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: DAY,
  routine: 'test',
  part: 'fingers',
  block: name,
  event,
  played,
  length: 300,
  exercise: null,
  ...change,
});

const BREAKING = planned(BREAK, { length: 120 });
const restored = (...records: readonly DayEntry[]): Run | null => restoreRun(routine, DAY, records, 7);
const states = (run: Run | null) => run?.items.map(({ title, played, state }) => `${title} ${played} ${state}`);

const THREE = [planned('scales'), planned('thirds'), planned('stretch')];

describe('a sitting that is gone on with', () => {
  it('stands as it was, ready, at the clock of now', () => {
    const run = restored(plan(THREE), block('scales', 'going', 60));
    expect(run).toMatchObject({ routine: 'test', at: 0, phase: 'ready', clock: 7, unsaid: 0, breaths: 0, asked: null });
    expect(run?.breathAt).toBe(60);
    expect(states(run)).toEqual(['Scales 60 open', 'Thirds 0 open', 'Stretch 0 open']);
    expect(run?.items.map(({ begun }) => begun)).toEqual([true, undefined, undefined]);
    expect(run?.items[0]).toMatchObject({ turn: null, reason: '', length: 300, before: 0 });
  });

  it("is the day's last one with this routine, and only what came after it counts", () => {
    const run = restored(
      plan([planned('stretch')]),
      block('scales', 'done', 300),
      plan(THREE),
      block('thirds', 'left', 20),
      block('stretch', 'left', 90, { routine: 'other' }),
      block('stretch', 'left', 90, { day: '2026-10-24' }),
      plan([planned('scales')], { routine: 'other' }),
      plan([planned('scales')], { day: '2026-10-24' }),
    );
    expect(states(run)).toEqual(['Scales 0 open', 'Thirds 20 open', 'Stretch 0 open']);
  });

  it('is none where there is no plan, nothing was played since, or nothing is left', () => {
    expect(restored(block('scales', 'left', 60))).toBeNull();
    expect(restored(plan(THREE))).toBeNull();
    expect(restored(plan([planned('scales')]), block('scales', 'done', 300))).toBeNull();
    expect(restored(plan([planned('scales'), BREAKING]), block('scales', 'done', 300))).toBeNull();
    expect(restored(plan([planned('gone')]), block('gone', 'left', 60))).toBeNull();
    expect(restored(plan([planned('scales', { part: 'gone' })]), block('scales', 'left', 60))).toBeNull();
  });

  it('knows what is done: all of it played, or said to be; half a second is nothing', () => {
    const state = (event: BlockEntry['event'], played: number) =>
      restored(plan(THREE), block('scales', event, played), block('thirds', 'left', 1))?.items[0]?.state;
    expect([state('left', 299.5), state('left', 299.4), state('done', 120), state('skipped', 120)]).toEqual([
      'done',
      'open',
      'done',
      'skipped',
    ]);
    expect(state('skipped', 300)).toBe('done');
  });

  it('takes time that was added to a block over', () => {
    const run = restored(plan(THREE), block('scales', 'going', 310, { length: 360 }));
    expect(run?.items[0]).toMatchObject({ length: 360, played: 310, state: 'open' });
    const shorter = restored(plan(THREE), block('scales', 'going', 100, { length: 200 }));
    expect(shorter?.items[0]?.length).toBe(300);
  });

  it('fills the turns of a block one after the other, added time in the last', () => {
    const turns = [planned('scales', { length: 180 }), planned('thirds'), planned('scales', { length: 180 })];
    const run = restored(plan(turns), block('scales', 'left', 250, { length: 420 }));
    expect(run?.items.map(({ played, length, state }) => [played, length, state])).toEqual([
      [180, 180, 'done'],
      [0, 300, 'open'],
      [70, 240, 'open'],
    ]);
    expect(run?.items.map(({ turn }) => turn)).toEqual([{ n: 1, of: 2 }, null, { n: 2, of: 2 }]);
    expect(run?.at).toBe(2);
  });

  it('does not count what was played before this sitting twice', () => {
    const items = [planned('scales', { before: 100, length: 200 }), planned('thirds')];
    const run = restored(plan(items), block('scales', 'left', 150, { length: 300 }));
    expect(run?.items[0]).toMatchObject({ played: 50, length: 200, before: 100, state: 'open' });
    expect(restored(plan(items), block('scales', 'left', 40))?.items[0]?.played).toBe(0);
  });

  it('has rests as over that lie before the last thing played, and no others', () => {
    const items = [planned('scales'), BREAKING, planned('thirds'), BREAKING, planned('stretch')];
    const run = restored(plan(items), block('scales', 'done', 300), block('thirds', 'left', 30));
    expect(states(run)).toEqual([
      'Scales 300 done',
      'Rest 120 done',
      'Thirds 30 open',
      'Rest 0 open',
      'Stretch 0 open',
    ]);
    expect(run?.items[1]).toMatchObject({ kind: 'rest', length: 120, turn: null });
    const skipped = restored(plan(items), block('scales', 'left', 30), block('thirds', 'skipped', 0));
    expect(skipped?.items[1]?.state).toBe('done');
  });

  it('ignores rests and other blocks in the records', () => {
    const run = restored(plan(THREE), block('gone', 'left', 9), block(BREAK, 'left', 9), block('scales', 'left', 60));
    expect(states(run)?.[0]).toBe('Scales 60 open');
  });
});

describe('where it goes on', () => {
  const where = (items: readonly PlannedItem[], ...records: readonly DayEntry[]) =>
    restored(plan(items), ...records)?.remark;

  it('is the block that was being played', () => {
    expect(where(THREE, block('scales', 'left', 30), block('thirds', 'left', 60))).toBe(
      'Go on with part one, block two (Thirds): 4:00 left.',
    );
  });

  it('is the first open one after a block that was done, else the first that is open at all', () => {
    expect(where(THREE, block('scales', 'left', 30), block('thirds', 'done', 300))).toBe(
      'Go on with part one, block three (Stretch): 5:00 left.',
    );
    expect(where(THREE, block('thirds', 'skipped', 0), block('stretch', 'done', 300))).toBe(
      'Go on with part one, block one (Scales): 5:00 left.',
    );
  });

  it('is the block that was only just begun, though none of its time was written down', () => {
    expect(restored(plan(THREE), block('thirds', 'started', 0))?.at).toBe(1);
  });

  it('is the next in turn where a whole turn of a block was played, not that block’s next one', () => {
    const turns = [planned('scales'), planned('thirds'), planned('scales')];
    expect(restored(plan(turns), block('scales', 'going', 300, { length: 600 }))?.at).toBe(1);
    expect(restored(plan(turns), block('scales', 'going', 310, { length: 600 }))?.at).toBe(2);
  });

  it('is a rest where one comes before the next open block', () => {
    const items = [planned('scales'), BREAKING, planned('tongue', { part: 'tongue' })];
    expect(where(items, block('scales', 'done', 300))).toBe('Go on with part one (Rest): 2:00 left.');
    expect(
      where([...items, BREAKING], block('scales', 'left', 300), block('tongue', 'done', 300, { part: 'tongue' })),
    ).toBe(undefined);
  });

  it('is counted by the parts and blocks of this sitting', () => {
    const items = [planned('tones', { part: 'warm-up' }), BREAKING, ...THREE];
    expect(where(items, block('tones', 'done', 300, { part: 'warm-up' }), block('scales', 'left', 10))).toBe(
      'Go on with part two, block one (Scales): 4:50 left.',
    );
  });
});
