/** Today's proposal after some of it was played: it stays, less what is done. */
import { describe, expect, it } from 'vitest';
import type { BlockEvent, DayEntry } from '../../src/diary/entry.ts';
import { planLeft } from '../../src/plan/today/plan-as-played.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { DAY, routine } from '../practice/daily-sitting.ts';

const first = playedBefore(DAY, [], []);
const plan = todaysPlan(routine, { minutes: 75, before: first, seed: 1 });
const words = (items: typeof plan.items) => items.map(({ title, minutes }) => `${title} ${minutes}`);

let n = 0;
const record = (k: number, event: BlockEvent, played: number): DayEntry => {
  const { part, block, exercise, minutes } = plan.items[k]!;
  const id = `018bcfe5-0000-7000-8000-${String((n += 1)).padStart(12, '0')}`;
  const stamp = { v: 1 as const, id, at: `${DAY}T10:00:00Z`, day: DAY };
  return { ...stamp, kind: 'block', routine: routine.id, part, block, event, played, length: minutes * 60, exercise };
};
const after = (...records: readonly DayEntry[]) => playedBefore(DAY, records, []);

describe('a proposal', () => {
  it('that nothing was played of stays what it is', () => {
    expect(planLeft(plan, first, first)).toEqual(plan);
  });

  it('goes on without what is done or skipped, everything else in its place and for its minutes', () => {
    const left = planLeft(plan, first, after(record(0, 'done', 180), record(2, 'skipped', 0)));
    expect(words(left?.items ?? [])).toEqual(words(plan.items.filter((_, i) => i !== 0 && i !== 2)));
  });

  it('has what was begun as much shorter, and says so', () => {
    const left = planLeft(plan, first, after(record(1, 'left', 120)));
    expect(left?.items[1]).toMatchObject({
      minutes: (plan.items[1]?.minutes ?? 0) - 2,
      reason: 'begun today, 2:00 played',
    });
  });

  it('counts what was played before it was made only once', () => {
    const then = after(record(1, 'left', 60));
    const made = todaysPlan(routine, { minutes: 75, before: then, seed: 1 });
    const at = made.items.findIndex(({ block }) => block === plan.items[1]?.block);
    const left = planLeft(made, then, after(record(1, 'left', 60), record(1, 'left', 120)));
    expect(left?.items[at]?.minutes).toBe((made.items[at]?.minutes ?? 0) - 1);
  });

  it('looked at twice is as long as looked at once', () => {
    const [one, two] = [after(record(1, 'left', 60)), after(record(1, 'left', 150))];
    const once = planLeft(plan, first, two);
    const twice = planLeft(planLeft(plan, first, one)!, one, two);
    expect(words(twice?.items ?? [])).toEqual(words(once?.items ?? []));
  });

  it('that is over is none', () => {
    const all = plan.items.map((_, k) => record(k, 'done', 60));
    expect(planLeft(plan, first, after(...all))).toBeNull();
  });

  it('keeps no rest at its beginning or end', () => {
    const at = plan.items.findIndex(({ kind }) => kind === 'rest');
    expect(at).toBeGreaterThan(0);
    const before = plan.items.slice(0, at).map((_, k) => record(k, 'done', 60));
    expect(planLeft(plan, first, after(...before))?.items[0]?.kind).not.toBe('rest');
  });
});
