/** The end of a sitting in words. */
import { describe, expect, it } from 'vitest';
import { KEPT, ON_LADDER } from '../diary/kept.ts';
import type { BlockEntry, DayEntry } from '../../src/diary/entry.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { itemsOfPlan } from '../../src/plan/run/run-items.ts';
import { type Run, beginRun, runOn } from '../../src/plan/run/running-routine.ts';
import { type Summary, summaryOf } from '../../src/plan/run/sitting-summary.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';

const DAY = '2026-11-25';
const TEXT = `
breaks: 2 after 6
limits: {same kind: 9}
exercises: {w: {}, a: {title: Scales}, b: {}, c: {}, d: {}}
parts:
  - {part: One, blocks: [w: 4]}
  - {part: Two, blocks: [a: 3, b: 3, {play: c, want: 5, minutes: 3}, {play: d, want: 1, minutes: 3}, rest: 1]}
`;
const parsed = parseRoutine(TEXT, 'r.yaml', () => ({ trouble: 'none' }));
if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
const { routine } = parsed;

const before = playedBefore(DAY, [], []);
const begun: Run = beginRun('r', itemsOfPlan(todaysPlan(routine, { minutes: 60, before, seed: 1 }), before), 0).run;

const line = (exercise: string, change: Partial<LineHistory>): LineHistory => ({
  line: { exercise, articulation: 'single', key: 'Bb' },
  ...ON_LADDER,
  best: null,
  lastDay: DAY,
  tallies: [],
  ...change,
});

const tally = (bpm: number, clean: number, tense: number, missed: number, day = DAY) => ({
  day,
  bpm,
  clean,
  tense,
  missed,
});
const tension = (level: 0 | 1 | 2 | 3 | 4, exercise: string | null, day = DAY): DayEntry => ({
  ...KEPT,
  kind: 'tension',
  at: '',
  day,
  level,
  exercise,
});
const playedToday = (block: string, part = 'two'): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: DAY,
  routine: 'r',
  part,
  block,
  event: 'done',
  played: 180,
  length: 180,
  exercise: block,
});

interface Asked {
  readonly run?: Run;
  readonly records?: readonly DayEntry[];
  readonly lines?: readonly LineHistory[];
}
const summary = ({ run = begun, records = [], lines = [] }: Asked = {}): Summary =>
  summaryOf(routine, run, DAY, records, lines, 1);

describe('what was done', () => {
  it('is every block that was played or passed over, rests apart', () => {
    let run = begun;
    const send = (action: 'start' | 'next' | 'skip', now: number) => {
      ({ run } = runOn(run, { type: 'do', action, now }));
    };
    send('start', 0);
    for (let now = 5; now <= 100; now += 5) ({ run } = runOn(run, { type: 'tick', now }));
    send('next', 100);
    expect(run.items.slice(0, 2).map(({ kind }) => kind)).toEqual(['technique', 'rest']);
    for (let now = 105; now <= 250; now += 5) ({ run } = runOn(run, { type: 'tick', now }));
    send('skip', 250);
    const { done, total } = summary({ run });
    expect(done.map(({ title, state }) => `${title} ${state}`).slice(0, 2)).toEqual([
      'W done',
      expect.stringMatching(/skipped$/),
    ]);
    expect(done[0]).toEqual({ title: 'W', played: '1:40', of: '4:00', state: 'done' });
    expect(done.every(({ title }) => title !== 'Rest')).toBe(true);
    expect(total).toBe('2:10');
  });

  it('is nothing of what is still open', () => {
    expect(summary()).toMatchObject({ done: [], total: '0:00', bests: [], heldBack: [] });
  });
});

describe('new bests', () => {
  it('are those of today, also of lines that the routine does not have', () => {
    const lines = [
      line('a', { best: { bpm: 96, day: DAY } }),
      line('b', { best: { bpm: 80, day: '2026-11-24' } }),
      line('gone', { best: { bpm: 70, day: DAY } }),
    ];
    expect(summary({ lines }).bests).toEqual([
      { line: 'Scales, single, in B♭', bpm: 96 },
      { line: 'gone · single · Bb', bpm: 70 },
    ]);
  });
});

describe('what held back', () => {
  const heldBack = (...tallies: readonly ReturnType<typeof tally>[]) =>
    summary({ lines: [line('a', { tallies })] }).heldBack;

  it('is the tempo at which most was missed or tense today', () => {
    expect(
      heldBack(tally(60, 1, 0, 2), tally(66, 1, 1, 3), tally(72, 1, 2, 0), tally(99, 0, 0, 9, '2026-11-24')),
    ).toEqual(['Scales, single, in B♭: 1 of 5 clean at 66, 1 tense.']);
    expect(heldBack(tally(60, 1, 0, 2))).toEqual(['Scales, single, in B♭: 1 of 3 clean at 60.']);
  });

  it('is nothing where little was missed, or too little played', () => {
    expect(heldBack(tally(60, 2, 0, 1))).toHaveLength(1);
    expect(heldBack(tally(60, 5, 0, 2))).toEqual([]);
    expect(heldBack(tally(60, 1, 2, 0))).toHaveLength(1);
    expect(heldBack(tally(60, 3, 2, 0))).toEqual([]);
    expect(heldBack(tally(60, 0, 0, 2))).toEqual([]);
    expect(heldBack()).toEqual([]);
  });

  it('is tension from 3 of 4 on', () => {
    const records = [tension(2, 'a'), tension(3, 'a'), tension(4, null), tension(4, 'a', '2026-11-24')];
    expect(summary({ records }).heldBack).toEqual(['Tension 4 of 4.', 'Tension 3 of 4 after Scales.']);
    expect(summary({ records: [tension(3, 'gone')] }).heldBack).toEqual(['Tension 3 of 4 after gone.']);
  });

  it('is the heaviest first, three at most', () => {
    const lines = [5, 1, 2.5, 3].map((weight, i) =>
      line(`x${i}`, { tallies: [tally(60, 1, weight % 1 === 0 ? 0 : 1, Math.floor(weight) + (weight === 1 ? 1 : 0))] }),
    );
    const said = summary({ lines, records: [tension(4, null)] }).heldBack;
    expect(said.map((sentence) => sentence.split(/[ .]/)[0])).toEqual(['x0', 'Tension', 'x3']);
  });
});

describe('tomorrow', () => {
  it('begins after the warm-up with what counts most then, three at most, and no rest', () => {
    const records = [playedToday('w', 'one'), ...['a', 'b', 'c', 'd'].map((block) => playedToday(block))];
    const lines = [line('b', { tallies: [tally(60, 0, 0, 5)] }), line('a', { tallies: [tally(60, 5, 0, 0)] })];
    expect(summary({ records, lines }).tomorrow).toEqual([
      { title: 'C', reason: 'every day, played yesterday, you want it often' },
      { title: 'B', reason: 'every day, played yesterday, 0 % clean lately' },
      { title: 'Scales', reason: 'every day, played yesterday' },
    ]);
  });
});
