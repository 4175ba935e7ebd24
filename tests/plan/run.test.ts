import { KEPT } from '../diary/kept.ts';
import { type DayEntry, BREAK } from '../../src/diary/entry.ts';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { itemsOfPlan } from '../../src/plan/run/run-items.ts';
import { isRest } from '../../src/plan/today/plan-items.ts';
import { restoreRun } from '../../src/plan/run/interrupted-sitting.ts';
import { runView } from '../../src/plan/run/run-view.ts';
import {
  type Run,
  type RunAction,
  GAP,
  SAY_EVERY,
  beginRun,
  runOn,
  secondsLeft,
} from '../../src/plan/run/running-routine.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { DAY, Sitting, asStored, restored, routine } from './sitting-by-clock.ts';

describe('a running routine', () => {
  it('plays block after block, rests where it must, and ends', () => {
    const sitting = new Sitting();
    expect(sitting.run.phase).toBe('ready');
    sitting.do('start').wait(180);
    expect(sitting.title).toBe('Scales');
    expect(sitting.run.phase).toBe('playing');
    sitting.wait(241);
    expect(sitting.run.phase).toBe('over');
    expect(runView(sitting.run, routine).remark).toBe('Time is up: go on when you like, or stay.');
    sitting.do('next').wait(301).do('next').wait(121).do('next');
    expect(isRest(sitting.run.items[sitting.run.at] as never)).toBe(true);
    sitting.wait(121).wait(361).do('next');
    expect(sitting.run.phase).toBe('finished');
    // One gentle sound at each end: five blocks and a rest.
    expect(sitting.count('chime')).toBe(6);
    expect(sitting.blockEvents('scales')).toEqual(['started', 'going', 'going', 'going', 'done']);
    expect(sitting.blockEvents(BREAK)).toEqual([]);
  });

  it('shows the next block ahead', () => {
    expect(runView(new Sitting().run, routine)).toMatchObject({
      title: 'Tones',
      left: '3:00',
      next: 'next: Scales, 4 min',
      count: '0 of 4 breaths, 0 s on this one',
    });
  });

  it('counts the seconds of each breath', () => {
    const sitting = new Sitting().do('start').wait(20).do('breath').wait(7);
    expect(runView(sitting.run, routine).count).toBe('1 of 4 breaths, 7 s on this one');
  });

  it('ends a block of breaths with the last breath', () => {
    const sitting = new Sitting().do('start').wait(20).do('breath').do('breath').do('breath');
    expect(sitting.title).toBe('Tones');
    expect(sitting.do('breath').title).toBe('Scales');
  });

  it('counts a block as done from a third of it on, and one that was only looked at not at all', () => {
    const sitting = new Sitting().do('start').wait(180).wait(2).do('next').wait(100).do('next');
    const states = sitting.run.items.slice(0, 3).map(({ state }) => state);
    expect(states).toEqual(['done', 'skipped', 'done']);
    expect([sitting.blockEvents('scales').at(-1), sitting.blockEvents('thirds').at(-1)]).toEqual(['left', 'done']);
    const later = todaysPlan(routine, {
      minutes: 40,
      before: playedBefore(DAY, asStored(sitting.records), []),
      seed: 1,
    });
    expect(later.items.map(({ block }) => block)).toContain('scales');
    expect(later.leftOut.find(({ block }) => block === 'thirds')?.reason).toBe('done today');
    const tomorrow = playedBefore('2026-10-26', asStored(sitting.records), []);
    expect([...tomorrow.blockDay.keys()]).toEqual(['test/warm-up/tones', 'test/fingers/thirds']);
  });

  it('does not come back to it in the same sitting', () => {
    const sitting = new Sitting()
      .do('start')
      .wait(180)
      .wait(2)
      .do('next')
      .wait(301)
      .do('next')
      .wait(121)
      .do('next')
      .wait(121)
      .wait(361)
      .do('next');
    expect(sitting.run.phase).toBe('finished');
  });

  it('counts a block of breaths by its breaths, however fast they came', () => {
    const sitting = new Sitting().do('start').wait(20).do('breath').do('breath').do('breath').do('breath');
    expect(sitting.blockEvents('tones').at(-1)).toBe('done');
  });

  it('extends, skips, swaps and goes back', () => {
    const sitting = new Sitting().do('start').wait(10).do('extend');
    expect(runView(sitting.run, routine).of).toBe('4:00');
    sitting.do('skip');
    expect([sitting.title, sitting.run.phase, sitting.blockEvents('tones').at(-1)]).toEqual([
      'Scales',
      'ready',
      'skipped',
    ]);
    sitting.do('swap');
    expect(sitting.title).toBe('Thirds');
    sitting.do('start').wait(301).do('next');
    expect(sitting.title).toBe('Scales');
    sitting.do('back');
    expect([sitting.title, runView(sitting.run, routine).left]).toEqual(['Thirds', '1:00']);
  });

  it('counts no time while it is paused, and time over the end while it is played on', () => {
    const sitting = new Sitting().do('start').wait(30).do('pause').wait(500).do('start').wait(10);
    expect(secondsLeft(sitting.run.items[0] as never)).toBe(140);
    sitting.wait(140).wait(240).do('start').wait(45).do('next');
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'done', played: 285, length: 240 });
  });

  it('knows a sleeping computer by the gap between two ticks, and waits', () => {
    const sitting = new Sitting().do('start').wait(20);
    sitting.now += 3600;
    sitting.wait(1);
    expect(sitting.run.phase).toBe('paused');
    expect(sitting.run.remark).toBe('The computer slept or was stopped; that time does not count. 2:40 left.');
    sitting.do('start').wait(GAP - 1, GAP - 1);
    expect(secondsLeft(sitting.run.items[0] as never)).toBe(160 - (GAP - 1));
  });

  it('loses no more than one tick to a clock that goes back', () => {
    const sitting = new Sitting().do('start').wait(20);
    sitting.now -= 10_000;
    sitting.wait(20);
    expect(secondsLeft(sitting.run.items[0] as never)).toBe(141);
  });

  it('asks once after a block how tense it was', () => {
    const sitting = new Sitting().do('start').wait(180);
    expect(runView(sitting.run, routine).question).toBe('How tense? 0 none ... 4 very (Tones)');
    const { run, effects } = runOn(sitting.run, { type: 'tension', level: 3, now: sitting.now });
    expect(effects).toContainEqual({ do: 'record', record: { kind: 'tension', level: 3, exercise: 'tones' } });
    expect(runView(run, routine).question).toBe('');
  });
});

describe('gone on with', () => {
  it('after leaving, with the very second', () => {
    const sitting = new Sitting().do('start').wait(180).wait(241).do('next').wait(140).do('leave');
    const run = restored(asStored(sitting.records));
    expect(run?.remark).toBe('Go on with part two, block two (Thirds): 2:40 left.');
    expect(run?.items.slice(0, 3).map(({ state }) => state)).toEqual(['done', 'done', 'open']);
    // What was drawn for the block stays drawn, even when it was cut off in its first minute.
    expect(run?.items.map(({ begun }) => begun ?? false).slice(0, 4)).toEqual([true, true, true, false]);
  });

  it('in the words of the list it was begun from, whatever the file holds besides', () => {
    const known = playedBefore(DAY, [], []);
    const plan = todaysPlan(routine, { minutes: 40, before: known, seed: 1, parts: ['warm-up', 'tongue'] });
    const sitting = new Sitting([], beginRun(routine.id, itemsOfPlan(plan, known), 1000).run);
    sitting.records.push({ ...KEPT, kind: 'plan', routine: routine.id, items: sitting.run.items, at: '', day: DAY });
    sitting.do('start').wait(180).wait(60).do('leave');
    expect(restored(asStored(sitting.records))?.remark).toBe('Go on with part two, block one (Tongue): 5:00 left.');
  });

  it('from the block that was played last, not from one before it that was only looked at', () => {
    const sitting = new Sitting().do('start').wait(180).wait(2).do('next').wait(301).do('leave');
    expect(restored(asStored(sitting.records))?.remark).toBe('Go on with part two, block three (Stretch): 2:00 left.');
  });

  it('after a power cut, a minute short at most', () => {
    const sitting = new Sitting().do('start').wait(180).wait(241).do('next').wait(140);
    expect(restored(asStored(sitting.records))?.remark).toBe('Go on with part two, block two (Thirds): 3:00 left.');
  });

  it('not at all when there is nothing left or nothing was begun', () => {
    expect(restored(new Sitting().records)).toBeNull();
    const whole = new Sitting([], null, 3).do('start').wait(200);
    expect(restored(whole.records)).toBeNull();
    expect(restored([])).toBeNull();
  });

  it('with what the file still has, when a block was taken out of it', () => {
    const sitting = new Sitting().do('start').wait(60);
    const shorter: Routine = { ...routine, parts: routine.parts.filter(({ id }) => id !== 'fingers') };
    const run = restoreRun(shorter, DAY, sitting.records, 0);
    expect(run?.items.filter((item) => !isRest(item)).map(({ title }) => title)).toEqual(['Tones', 'Tongue']);
  });

  it('a second time, on top of what was played before', () => {
    const first = new Sitting().do('start').wait(70).do('leave');
    const second = new Sitting(first.records, restored(first.records)).do('start').wait(50).do('leave');
    expect(restored(asStored(second.records))?.remark).toBe('Go on with part one, block one (Tones): 1:00 left.');
  });

  it('in any state, after anything: what was played is never more than a minute off, and leaving loses nothing', () => {
    const action = fc.constantFrom<RunAction | number>(
      'start',
      'pause',
      'next',
      'extend',
      'skip',
      'swap',
      'back',
      3,
      20,
      90,
      200,
    );
    fc.assert(
      fc.property(
        fc.array(action, { maxLength: 25 }),
        fc.boolean(),
        fc.constantFrom<'blocked' | 'interleaved'>('blocked', 'interleaved'),
        (actions, leaves, order) => {
          const known = playedBefore(DAY, [], []);
          const begun = beginRun(
            routine.id,
            itemsOfPlan(todaysPlan(routine, { minutes: 40, before: known, seed: 1, order }), known),
            1000,
          );
          const sitting = new Sitting([], begun.run);
          sitting.records.push({ ...(begun.effects[0] as { record: object }).record, at: '', day: DAY } as DayEntry);
          for (const one of actions)
            if (typeof one === 'number') sitting.wait(one, 5);
            else sitting.do(one);
          if (leaves) sitting.do('leave');
          const run = restored(asStored(sitting.records));
          if (run === null) return;
          for (const { block, part } of sitting.run.items.filter((item) => !isRest(item))) {
            const played = ({ items }: Run): number =>
              items
                .filter((item) => item.block === block && item.part === part)
                .reduce((sum, item) => sum + item.played, 0);
            expect(Math.abs(played(sitting.run) - played(run))).toBeLessThanOrEqual(leaves ? 0.11 : SAY_EVERY + 5);
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});
