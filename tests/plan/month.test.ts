import { KEPT } from '../diary/kept.ts';
import { BREAK, type BlockEntry } from '../../src/diary/entry.ts';
import { readFileSync } from 'node:fs';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { type Chance, seeded } from '../../src/common/chance.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { daysBetween } from '../../src/common/days.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { type Plan, isRest, totalMinutes } from '../../src/plan/today/plan-items.ts';

import type { Routine } from '../../src/plan/routine/routine.ts';

const parsed = parseRoutine(readFileSync('routines/cornet-daily.yaml', 'utf8'), 'cornet-daily.yaml', () => ({
  trouble: 'none',
}));
if (!('routine' in parsed)) throw new Error('the cornet routine is not sound');
const routine: Routine = parsed.routine;

const dayAfter = (day: string, n: number): string =>
  DateTime.fromISO(day, { zone: 'utc' }).plus({ days: n }).toISODate() ?? '';

/** Plays a plan until a lesson cuts it off, and writes down what was played. */
function played(plan: Plan, day: string, chance: Chance): readonly BlockEntry[] {
  const seconds = totalMinutes(plan.items) * 60;
  let left = chance() < 0.3 ? Math.floor(seconds * chance()) : seconds;
  const records: BlockEntry[] = [];
  for (const item of plan.items) {
    const length = item.minutes * 60;
    const time = Math.min(left, length);
    left -= time;
    if (time === 0) break;
    if (item.block === BREAK) continue;
    const event = time === length ? 'done' : 'left';
    records.push({
      ...KEPT,
      kind: 'block',
      at: `${day}T12:00:00Z`,
      day,
      routine: routine.id,
      part: item.part,
      block: item.block,
      event,
      played: time,
      length,
      exercise: item.exercise,
    });
  }
  return records;
}

interface Sitting {
  readonly day: string;
  readonly minutes: number;
  readonly plan: Plan;
  readonly first: boolean;
}

function month(seed: number): { sittings: readonly Sitting[]; records: readonly BlockEntry[] } {
  const chance = seeded(seed);
  const records: BlockEntry[] = [];
  const sittings: Sitting[] = [];
  for (let n = 0; n < 28; n += 1) {
    const day = dayAfter('2026-10-10', n);
    const count = 1 + Math.floor(chance() * 3);
    for (let s = 0; s < count; s += 1) {
      const minutes = s === 0 ? 20 + Math.floor(chance() * 40) : 3 + Math.floor(chance() * 25);
      const plan = todaysPlan(routine, { minutes, before: playedBefore(day, records, []), seed: seed * 1000 + n });
      const warmed = records.some((one) => one.day === day);
      sittings.push({ day, minutes, plan, first: !warmed });
      records.push(...played(plan, day, chance));
    }
  }
  return { sittings, records };
}

/** Longest stretch of high-load minutes without other work or a rest between. */
function mostHighLoad(plan: Plan): number {
  let [high, most] = [0, 0];
  for (const item of plan.items) {
    high = item.highLoad ? high + item.minutes : 0;
    most = Math.max(most, high);
  }
  return most;
}

const seeds = [1, 2, 3, 4, 5];

describe('a month of random minutes and interruptions', () => {
  const months = seeds.map((seed) => ({ seed, ...month(seed) }));
  const all = months.flatMap(({ sittings }) => sittings);

  it('never goes over the minutes', () => {
    for (const { plan, minutes } of all) expect(totalMinutes(plan.items)).toBeLessThanOrEqual(minutes);
  });

  it('begins every day with a warm-up', () => {
    for (const { plan, first, day } of all) if (first) expect(plan.items[0]?.warmUp, day).toBe(true);
  });

  it('keeps the high-load limit, and never plays longer than 25 minutes without a rest', () => {
    for (const { plan } of all) {
      expect(mostHighLoad(plan)).toBeLessThanOrEqual(routine.limits.highLoad);
      let playing = 0;
      for (const item of plan.items) {
        // Breathing and stretching are no playing.
        playing = isRest(item) ? 0 : playing + (item.kind === 'body' ? 0 : item.minutes);
        expect(playing).toBeLessThanOrEqual(routine.breaks?.after ?? Infinity);
      }
    }
  });

  it.each(routine.pools.map((pool) => [pool.id, pool] as const))(
    'reaches everything in the pool %s within its period',
    (_, pool) => {
      for (const { seed, records } of months) {
        for (const item of pool.items) {
          const days = records
            .filter(
              ({ exercise, event, length, played: time }) =>
                exercise === item && (event === 'done' || time >= length / 2),
            )
            .map(({ day }) => day);
          const marks = ['2026-10-10', ...days, '2026-11-06'];
          const gaps = marks.slice(1).map((day, i) => daysBetween(marks[i] as string, day));
          expect(Math.max(...gaps), `${item}, month ${seed}`).toBeLessThanOrEqual(pool.everyDays);
        }
      }
    },
  );

  it('is the same month again from the same seed', () => {
    expect(month(3).sittings.map(({ plan }) => plan)).toEqual(months[2]?.sittings.map(({ plan }) => plan));
  });
});
