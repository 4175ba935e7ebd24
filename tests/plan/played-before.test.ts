/** What the records say about blocks and exercises up to a day. */
import { describe, expect, it } from 'vitest';
import { KEPT, ON_LADDER } from '../diary/kept.ts';
import { BREAK, type BlockEntry, type DayEntry } from '../../src/diary/entry.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';

const DAY = '2026-11-25';

const played = (day: string, change: Partial<BlockEntry> = {}): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day,
  routine: 'r',
  part: 'p',
  block: 'scales',
  event: 'done',
  played: 300,
  length: 300,
  exercise: 'a',
  ...change,
});

const line = (change: Partial<LineHistory>): LineHistory => ({
  line: { exercise: 'a', articulation: 'slurred', key: 'C' },
  ...ON_LADDER,
  lastDay: '',
  best: null,
  tallies: [],
  ...change,
});

const tally = (day: string, clean: number, tense: number, missed: number) => ({ day, bpm: 60, clean, tense, missed });

describe('what was played before', () => {
  it('is nothing at first', () => {
    expect(playedBefore(DAY, [], [])).toEqual({
      day: DAY,
      firstDay: DAY,
      blockDay: new Map(),
      today: new Map(),
      form: new Map(),
    });
  });

  it('is the last day of each block before today, and how it stands today', () => {
    const records = [
      played('2026-11-20'),
      played('2026-11-22'),
      played(DAY, { event: 'left', played: 20 }),
      played(DAY, { event: 'going', played: 80 }),
      played('2026-11-26'),
    ];
    const before = playedBefore(DAY, records, []);
    expect([...before.blockDay]).toEqual([['r/p/scales', '2026-11-22']]);
    expect([...before.today]).toEqual([['r/p/scales', records[3]]]);
    expect(before.firstDay).toBe('2026-11-20');
  });

  it('counts a day from half of the block on, or where it was done', () => {
    const lastDay = (change: Partial<BlockEntry>) => {
      const before = playedBefore(DAY, [played('2026-11-22', change)], []);
      return [before.blockDay.get('r/p/scales'), before.form.get('a')?.lastDay];
    };
    expect(lastDay({ event: 'left', played: 149 })).toEqual([undefined, undefined]);
    expect(lastDay({ event: 'left', played: 150 })).toEqual(['2026-11-22', '2026-11-22']);
    expect(lastDay({ event: 'done', played: 10 })).toEqual(['2026-11-22', '2026-11-22']);
    expect(lastDay({ exercise: null })).toEqual(['2026-11-22', undefined]);
  });

  it('has no rests and no other records', () => {
    const others: readonly DayEntry[] = [
      played('2026-11-20', { block: BREAK }),
      { ...KEPT, kind: 'note', at: '', day: '2026-11-01', text: 'x' },
    ];
    const before = playedBefore(DAY, others, []);
    expect([before.blockDay.size, before.today.size, before.firstDay]).toEqual([0, 0, '2026-11-20']);
  });
});

describe('how an exercise went lately', () => {
  it('is the share of clean repetitions in the fortnight up to the day on which it was last played', () => {
    const lines = [
      line({ lastDay: '2026-11-10', tallies: [tally('2026-10-27', 10, 0, 0), tally('2026-10-28', 1, 1, 1)] }),
      line({ lastDay: '2026-11-09', tallies: [tally('2026-11-09', 2, 0, 0)] }),
    ];
    expect(playedBefore(DAY, [], lines).form.get('a')).toEqual({ lastDay: '2026-11-10', clean: 3 / 5, best: null });
  });

  it('is the mean of the bests of its lines, and nothing of other exercises', () => {
    const lines = [
      line({ best: { bpm: 90, day: DAY } }),
      line({ best: { bpm: 110, day: DAY } }),
      line({}),
      line({ line: { exercise: 'b', articulation: 'slurred', key: 'C' }, best: { bpm: 200, day: DAY } }),
    ];
    const { form } = playedBefore(DAY, [], lines);
    expect(form.get('a')).toEqual({ lastDay: '', clean: null, best: 100 });
    expect(form.get('b')?.best).toBe(200);
  });

  it('has the later of the days of marks and of blocks', () => {
    const lines = [line({ lastDay: '2026-11-20', tallies: [tally('2026-11-20', 3, 0, 1)] })];
    const lastDay = (day: string) => playedBefore(DAY, [played(day)], lines).form.get('a');
    expect(lastDay('2026-11-19')).toMatchObject({ lastDay: '2026-11-20', clean: 0.75 });
    expect(lastDay('2026-11-21')).toMatchObject({ lastDay: '2026-11-21', clean: 0.75 });
    expect(lastDay(DAY)).toMatchObject({ lastDay: DAY });
    expect(lastDay('2026-11-26')).toMatchObject({ lastDay: '2026-11-20' });
  });
});
