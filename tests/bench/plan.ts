/** Figures of the plan: reading routine files, fitting, the day out of ten years of records. */
import { KEPT } from '../diary/kept.ts';
import { type BlockEntry, type DayEntry } from '../../src/diary/entry.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seeded } from '../../src/common/chance.ts';
import { dayOverview } from '../../src/plan/today/day-overview.ts';
import { dayPlus } from '../../src/common/days.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';

import type { Block, Routine } from '../../src/plan/routine/routine.ts';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { routinesOf } from '../../src/runtime/files/routine-cache.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { findRoutine } from '../../src/runtime/files/routine-finder.ts';

interface Row {
  readonly what: string;
  readonly figure: number;
  readonly unit: string;
  /** The target, where there is one. */
  readonly below: number | null;
}

/** The median of several runs in milliseconds, the first one left out. */
function timed(runs: number, work: (run: number) => void): number {
  const times = Array.from({ length: runs + 1 }, (_, run) => {
    const start = performance.now();
    work(run);
    return performance.now() - start;
  });
  return times.slice(1).sort((a, b) => a - b)[Math.floor(runs / 2)] ?? Number.NaN;
}

const KINDS = ['sound', 'flexibility', 'technique', 'articulation', 'study'] as const;
const TODAY = '2026-11-25';

/** Two hundred blocks of all kinds, a third of them high load. */
function large(routine: Routine): Routine {
  const chance = seeded(5);
  const [model] = routine.parts.flatMap(({ blocks }) => blocks);
  if (model === undefined) throw new Error('the routine holds no block');
  const blocks = Array.from({ length: 200 }, (_, i): Block => {
    const minutes = 3 + Math.floor(chance() * 10);
    return {
      ...model,
      id: `block-${i}`,
      content: { is: 'body' },
      kind: KINDS[Math.floor(chance() * KINDS.length)] ?? 'study',
      minutes,
      least: Math.ceil(minutes / 2),
      want: 1 + Math.floor(chance() * 5),
      everyDays: 1 + Math.floor(chance() * 5),
      highLoad: chance() < 0.3,
      warmUp: i < 3,
      always: i < 3,
    };
  });
  return { ...routine, parts: [{ id: 'all', title: 'All', blocks }] };
}

/** A year of days with twelve blocks each: as much as the journal's cache hands over. */
function records(routine: Routine): readonly DayEntry[] {
  const blocks = routine.parts.flatMap((part) => part.blocks.map((block) => ({ part, block })));
  return Array.from({ length: 400 }, (_, n) => dayPlus(TODAY, n - 399)).flatMap((day) =>
    blocks.map(({ part, block }): BlockEntry => ({
      ...KEPT,
      kind: 'block',
      at: `${day}T18:00:00+01:00`,
      day,
      routine: routine.id,
      part: part.id,
      block: block.id,
      event: 'done',
      played: 300,
      length: 300,
      exercise: null,
    })),
  );
}

export async function benchPlan(): Promise<readonly Row[]> {
  const data = mkdtempSync(join(tmpdir(), 'standside-bench-'));
  await routinesOf(data);
  const start = performance.now();
  await routinesOf(data);
  const cached = performance.now() - start;
  rmSync(data, { recursive: true });
  const folder = join(packageRoot(), 'routines');
  const loaded = loadRoutines([folder]);
  const { routine } = findRoutine(loaded, 'cornet-daily');
  const many = large(routine);
  const past = records(routine);
  const plan = todaysPlan(routine, { minutes: 60, before: playedBefore(TODAY, [], []), seed: 1 });
  const fitted = (minutes: number): number =>
    timed(7, (seed) => void todaysPlan(many, { minutes, before: playedBefore(TODAY, [], []), seed }));
  return [
    {
      what: `read ${loaded.routines.length + loaded.collections.length} routine files`,
      figure: timed(5, () => void loadRoutines([folder])),
      unit: 'ms',
      below: null,
    },
    { what: 'the same from the cache', figure: cached, unit: 'ms', below: 20 },
    { what: 'fit 200 blocks into 60 minutes', figure: fitted(60), unit: 'ms', below: 100 },
    { what: 'fit 200 blocks into 120 minutes', figure: fitted(120), unit: 'ms', below: 100 },
    {
      what: `the day out of ${past.length} records`,
      figure: timed(7, () => void dayOverview(routine, plan, playedBefore(TODAY, past, []), past)),
      unit: 'ms',
      below: 100,
    },
  ];
}
