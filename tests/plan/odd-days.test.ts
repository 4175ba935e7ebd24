/** Days and files that are out of the ordinary: what the plan, the overview and the load make of them. */
import { describe, expect, it } from 'vitest';
import { KEPT } from '../diary/kept.ts';
import type { BlockEntry } from '../../src/diary/entry.ts';
import { dayPlus } from '../../src/common/days.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { narrowedBy } from '../../src/plan/rotation/block-narrowing.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { blockPriorities, isCandidate } from '../../src/plan/today/block-priority.ts';
import { dayOverview } from '../../src/plan/today/day-overview.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { weekLoad } from '../../src/plan/today/week-load.ts';
import { Sitting } from './sitting-by-clock.ts';

const DAY = '2026-11-25';

function routineOf(text: string): Routine {
  const parsed = parseRoutine(text, 'r.yaml', () => ({ trouble: 'none' }));
  if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

const played = (day: string, minutes: number, change: Partial<BlockEntry> = {}): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: '',
  day,
  routine: 'r',
  part: 'one',
  block: 'scales',
  event: 'done',
  played: minutes * 60,
  length: minutes * 60,
  exercise: null,
  ...change,
});

const planOf = (routine: Routine, minutes = 30, records: readonly BlockEntry[] = []) => {
  const before = playedBefore(DAY, records, []);
  return { before, plan: todaysPlan(routine, { minutes, before, seed: 1 }) };
};

describe('a block whose file gives it another exercise now', () => {
  it('is as due as the block, for the new exercise was never played', () => {
    const routine = routineOf(
      'exercises: {w: {}, new: {}}\nparts: [{part: Zero, blocks: [w: 1]}, {part: One, blocks: [new: 5]}]',
    );
    const { before } = planOf(routine, 30, [played(dayPlus(DAY, -3), 5, { block: 'new', exercise: 'old' })]);
    const [block] = blockPriorities(routine, routine.parts.slice(1), before, () => 0);
    expect(block && isCandidate(block) && block.reason).toMatch(/played 3 days ago/);
  });
});

describe('what a block is called', () => {
  const routine = routineOf(
    `exercises: {a: {title: Scales, breaths: 7}, b: {title: Study, kind: study, breaths: 9}}
pools: {p: {every: 9, items: [b]}}
parts:
  - part: One
    blocks:
      - {play: a, title: Slow scales, kind: music, minutes: 5, breaths: 3}
      - {draw: p, title: Drawn, kind: sound, minutes: 5}`,
  );

  it('is its own title and kind, but what was drawn has the title and the kind of the exercise', () => {
    const { before, plan } = planOf(routine);
    const said = blockPriorities(routine, routine.parts, before, () => 0).flatMap((one) =>
      isCandidate(one) ? [`${one.title}, ${one.kind}`] : [],
    );
    expect(said).toEqual(['Slow scales, music', 'Study, study']);
    const overview = dayOverview(routine, plan, before, []);
    expect(overview.parts[0]?.blocks.map(({ title, kind }) => `${title}, ${kind}`)).toEqual(said);
  });

  it('counts the breaths that the block asks for, else those of the exercise', () => {
    expect(planOf(routine).plan.items.map(({ breaths }) => breaths)).toEqual([3, 9]);
  });
});

describe('the overview of a day', () => {
  it('says why a block is not there, and nothing of one that the plan has passed over without a word', () => {
    const routine = routineOf(
      'exercises: {a: {}, b: {}}\nparts: [{part: One, blocks: [a: 5]}, {part: Two, blocks: [b: 5]}]',
    );
    const before = playedBefore(DAY, [], []);
    const half = todaysPlan(routine, { minutes: 30, before, seed: 1, parts: ['one'] });
    const reasons = dayOverview(routine, half, before, []).parts.flatMap(({ blocks }) =>
      blocks.map(({ reason }) => reason),
    );
    expect(reasons).toEqual([expect.stringMatching(/\w/), '']);
  });
});

describe('the load of a week', () => {
  it('knows a lay-off whatever the order in which the days were kept: two journals merged by id may mix them', () => {
    // Played daily to the tenth day before today, then nothing, then today: nine days without playing.
    const days = [30, 29, 28, 27, 20, 12, 10].map((ago) => played(dayPlus(DAY, -ago), 60));
    const warned = (records: readonly BlockEntry[]) => weekLoad(DAY, [...records, played(DAY, 50)], 0).warning;
    expect(warned(days)).toMatch(/^9 days without playing/);
    expect(warned(days.toReversed())).toBe(warned(days));
  });

  it('makes no figure up where nothing was played before', () => {
    const records = [played(dayPlus(DAY, -20), 0), played(DAY, 20)];
    expect(weekLoad(DAY, records, 0)).toMatchObject({ usual: null, warning: null });
  });
});

describe('a block in a sitting', () => {
  it('narrows its exercise to its own keys and ways of tonguing; outside a sitting nothing is narrowed', () => {
    const block = { keys: ['C'], articulations: ['double'], length: 600 };
    expect(narrowedBy(block)).toMatchObject({ keys: ['C'], articulations: ['double'] });
    expect(narrowedBy({ ...block, keys: null })).toMatchObject({ keys: null, articulations: ['double'] });
    expect(narrowedBy(null)).toMatchObject({ keys: null, articulations: null });
  });

  it('goes through its keys once where it is shorter than four minutes', () => {
    const block = { keys: null, articulations: null };
    expect([239, 240].map((length) => narrowedBy({ ...block, length }).once)).toEqual([true, false]);
    expect(narrowedBy(null).once).toBe(false);
  });

  it('that is over sounds again with a minute more, and once', () => {
    const sitting = new Sitting().do('start').wait(180).wait(240);
    expect(sitting.run.phase).toBe('over');
    const before = sitting.count('play');
    sitting.do('extend');
    expect(sitting.count('play')).toBe(before + 1);
    sitting.do('extend');
    expect(sitting.count('play')).toBe(before + 1);
  });

  it('that was started and gone on from in the same second is told as left, not passed over', () => {
    const sitting = new Sitting().do('start').do('next');
    expect(sitting.blockEvents('tones')).toEqual(['started', 'left']);
  });
});
