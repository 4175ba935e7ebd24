import { KEPT, ON_LADDER } from '../diary/kept.ts';
import { type LineHistory } from '../../src/ladder/speed/line-history.ts';
import { type BlockEntry, type DayEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';
import { dayOverview } from '../../src/plan/today/day-overview.ts';
import { todaysPlan, wrongMinutes } from '../../src/plan/today/todays-plan.ts';
import { TURN, keepsLimits } from '../../src/plan/today/blocks-in-turns.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { type Plan, isRest, totalMinutes } from '../../src/plan/today/plan-items.ts';

import type { Routine } from '../../src/plan/routine/routine.ts';
import { itemsOfPlan } from '../../src/plan/run/run-items.ts';
import { beginRun, runOn } from '../../src/plan/run/running-routine.ts';
import { summaryOf } from '../../src/plan/run/sitting-summary.ts';

const DAY = '2026-11-25';
const parsed = parseRoutine(
  `
routine: Test
instrument: flute
breaks: 5 after 25
limits: {high load: 6, same kind: 2}
exercises:
  tones: {kind: sound, material: The long-tone sheet}
  scales: {tempo: 60 -> 120}
  thirds: {material: The yellow book}
  fast: {kind: articulation, load: high}
  higher: {kind: articulation, load: high}
  a: {kind: study}
  b: {kind: study}
pools: {studies: {every: 4 days, items: [a, b]}}
parts:
  - {part: Warm-up, warm up: yes, blocks: [tones: 4]}
  - {part: Fingers, blocks: [scales: 6, thirds: 6]}
  - {part: Tongue, blocks: [fast: 4, higher: 4, {play: fast, minutes: 3, every: 5 days}]}
  - {part: Studies, blocks: [studies: 8, {do: Listen, minutes: 2, want: 1}]}
`,
  't.yaml',
  () => ({ trouble: 'none' }),
);
if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
const routine: Routine = parsed.routine;

const record = (part: string, block: string, change: Partial<BlockEntry> = {}): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day: DAY,
  routine: 't',
  part,
  block,
  event: 'done',
  played: 240,
  length: 240,
  exercise: block,
  ...change,
});

const plan = (
  minutes: number,
  records: readonly DayEntry[] = [],
  lines: readonly LineHistory[] = [],
  order: Plan['order'] = 'blocked',
): Plan => todaysPlan(routine, { minutes, before: playedBefore(DAY, records, lines), seed: 1, order });

const titles = ({ items }: Plan): readonly string[] => items.map(({ title }) => title);
const why = (p: Plan, block: string): string => p.leftOut.find((one) => one.block === block)?.reason ?? '';

describe('a plan', () => {
  it('begins with the warm-up even where it alone has room', () => {
    expect(titles(plan(1))).toEqual(['Tones']);
    expect(totalMinutes(plan(1).items)).toBe(1);
  });

  it('counts one minute as one', () => {
    expect(plan(1).sentences[0]).toMatch(/^1 minute: 1 of .*, 1 minute of work/);
    expect(plan(5, [], []).sentences.join(' ')).not.toMatch(/\b1 minutes/);
  });

  it('goes on after the warm-up when that was played today', () => {
    const later = plan(6, [record('warm-up', 'tones')]);
    expect(titles(later)).not.toContain('Tones');
    expect(later.items.length).toBeGreaterThan(0);
    expect(why(later, 'tones')).toBe('done today');
  });

  it('gives a block that was cut off what is left of it', () => {
    const later = plan(120, [
      record('warm-up', 'tones'),
      record('fingers', 'scales', { event: 'left', played: 130, length: 360 }),
    ]);
    const scales = later.items.find(({ block }) => block === 'scales');
    expect(scales?.minutes).toBe(3.5);
    expect(scales?.reason).toBe('begun today, 2:10 played');
  });

  it('says in one line why each block is in or out', () => {
    const lines: readonly LineHistory[] = [
      {
        line: { exercise: 'scales', articulation: 'slurred', key: 'C' },
        ...ON_LADDER,
        lastDay: '2026-11-22',
        best: { bpm: 66, day: '2026-11-20' },
        tallies: [{ day: '2026-11-22', bpm: 69, clean: 4, tense: 2, missed: 4 }],
      },
    ];
    const small = plan(16, [record('tongue', 'fast-2', { day: '2026-11-20', exercise: 'fast' })], lines);
    expect(small.items[0]?.reason).toBe('warm-up, always first');
    expect(plan(200, [], lines).items.find(({ block }) => block === 'scales')?.reason).toBe(
      'every day, played 3 days ago, 40 % clean lately',
    );
    expect(small.items.find(({ block }) => block === 'fast-2')?.reason).toBe('due now: 5 of 5 days');
    expect(small.leftOut.map(({ reason }) => reason)).toContain('no time left');
    // Three blocks of articulation, and two at most may stand in a row.
    expect(plan(200).leftOut.map(({ reason }) => reason)).toContain(
      'it would be more than 2 of its kind (articulation) in a row',
    );
  });

  it('gathers what has to be on the stand, each once, and explains itself', () => {
    expect(plan(200).materials).toEqual(['The long-tone sheet', 'The yellow book']);
    expect(plan(10).sentences[1]).toMatch(/^Shortened to make room: [A-Z].* \(\d of \d\)/);
    expect(plan(30).sentences[0]).toMatch(/^30 minutes: \d of 8 blocks, [\d.]+ minutes of work/);
  });

  it('rests between two demanding blocks that would be too much together', () => {
    const items = plan(200).items;
    const demanding = items.filter(({ highLoad }) => highLoad);
    expect(demanding.length).toBe(2);
    expect(keepsLimits(items, routine.limits)).toBe(true);
    expect(items.some(isRest)).toBe(true);
  });

  it('in turns takes the same minutes, and neighbours alternate by three minutes', () => {
    const [blocked, turns] = [plan(60), plan(60, [], [], 'interleaved')];
    expect(totalMinutes(turns.items)).toBe(totalMinutes(blocked.items));
    expect(turns.items.some(({ turn }) => turn !== null)).toBe(true);
    for (const { turn, minutes } of turns.items) if (turn !== null) expect(minutes).toBeGreaterThanOrEqual(TURN);
    expect(
      turns.items
        .filter(({ turn }) => turn !== null)
        .every(({ block }, i, all) => i === 0 || block !== all[i - 1]?.block),
    ).toBe(true);
    expect(turns.sentences.at(-1)).not.toBe(blocked.sentences.at(-1));
  });

  it('plans chosen parts only', () => {
    const tongue = todaysPlan(routine, { minutes: 30, before: playedBefore(DAY, [], []), seed: 1, parts: ['tongue'] });
    expect(new Set(tongue.items.map(({ part }) => part))).toEqual(new Set(['tongue']));
  });

  it.each([
    [0, '0 minutes cannot be planned; write a number from 1 to 600.'],
    [9999, '9999 minutes cannot be planned; write a number from 1 to 600.'],
    [Number.NaN, 'NaN minutes cannot be planned; write a number from 1 to 600.'],
    [25, null],
  ])('of %d minutes: %s', (minutes, said) => {
    expect(wrongMinutes(minutes)).toBe(said);
  });
});

describe('the day', () => {
  it('shows what was done of it, part by part', () => {
    const records = [
      record('warm-up', 'tones'),
      record('fingers', 'scales', { event: 'left', played: 60, length: 360 }),
      record('tongue', 'higher', { event: 'skipped', played: 0 }),
    ];
    const view = dayOverview(routine, plan(20, records), playedBefore(DAY, records, []), records);
    expect(view.parts.map(({ state }) => state)).toEqual(['done', 'begun', 'open', 'open']);
    expect(view.parts.flatMap(({ blocks }) => blocks).map(({ id, state }) => [id, state])).toEqual(
      expect.arrayContaining([
        ['tones', 'done'],
        ['scales', 'begun'],
        ['higher', 'skipped'],
      ]),
    );
    expect(view.doneToday).toBe(5);
    expect(view.planned).toBeLessThanOrEqual(20);
    expect(view.load.line).toMatch(/^\d+ min this week with today$/);
  });
});

describe('the end of a sitting', () => {
  it('tells what was done, reached and held back, and where to start tomorrow', () => {
    let { run } = beginRun('t', itemsOfPlan(plan(200), playedBefore(DAY, [], [])), 0);
    run = runOn(run, { type: 'do', action: 'start', now: 0 }).run;
    for (let now = 5; now <= 240; now += 5) run = runOn(run, { type: 'tick', now }).run;
    const lines: readonly LineHistory[] = [
      {
        line: { exercise: 'scales', articulation: 'slurred', key: 'C' },
        ...ON_LADDER,
        lastDay: DAY,
        best: { bpm: 66, day: DAY },
        tallies: [
          { day: DAY, bpm: 69, clean: 1, tense: 1, missed: 3 },
          { day: DAY, bpm: 66, clean: 3, tense: 0, missed: 0 },
        ],
      },
    ];
    const records: readonly DayEntry[] = [
      record('warm-up', 'tones'),
      { ...KEPT, kind: 'tension', at: '', day: DAY, level: 3, exercise: 'tones' },
    ];
    const summary = summaryOf(routine, run, DAY, records, lines, 1);
    expect(summary.done[0]).toEqual({ title: 'Tones', played: '4:00', of: '4:00', state: 'done' });
    expect(summary.bests).toEqual([{ line: 'Scales, slurred, in C', bpm: 66 }]);
    expect(summary.heldBack).toEqual([
      'Scales, slurred, in C: 1 of 5 clean at 69, 1 tense.',
      'Tension 3 of 4 after Tones.',
    ]);
    expect(summary.tomorrow).toHaveLength(3);
    expect(summary.tomorrow.every(({ reason }) => reason !== '')).toBe(true);
  });
});
