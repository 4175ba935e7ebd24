/** The block's clock and what was played are two things; each key of a running routine has one meaning. */
import { describe, expect, it } from 'vitest';
import type { BlockEntry } from '../../src/diary/entry.ts';
import { restoreRun } from '../../src/plan/run/interrupted-sitting.ts';
import { itemsOfPlan } from '../../src/plan/run/run-items.ts';
import { isRest } from '../../src/plan/today/plan-items.ts';
import { runView } from '../../src/plan/run/run-view.ts';
import { GAP, beginRun, isClockRunning, runOn } from '../../src/plan/run/running-routine.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { DAY, Sitting, asStored, restored, routine } from './sitting-by-clock.ts';

const question = (sitting: Sitting): string => runView(sitting.run, routine).question;

/** Scales, four minutes of them just over. */
const overScales = (): Sitting => new Sitting().do('start').wait(180).wait(240);
const recordsOf = (sitting: Sitting, block: string): readonly BlockEntry[] =>
  sitting.records.filter((one): one is BlockEntry => one.kind === 'block' && one.block === block);

describe('when the time of a block is up', () => {
  it('waiting counts as nothing, however long it is', () => {
    const sitting = overScales().wait(459);
    expect(sitting.run.phase).toBe('over');
    expect(sitting.item).toMatchObject({ title: 'Scales', played: 240 });
    expect(runView(sitting.run, routine)).toMatchObject({ left: '0:00', of: '4:00', played: '7:00', share: 1 });
    sitting.do('next');
    expect(recordsOf(sitting, 'scales').map(({ event, played }) => [event, played])).toEqual([
      ['started', 0],
      ['going', 60],
      ['going', 120],
      ['going', 180],
      ['done', 240],
    ]);
  });

  it('only what is played on counts, until it is paused', () => {
    const sitting = overScales().wait(30).do('start').wait(20);
    expect(sitting.run.phase).toBe('playing on');
    expect(runView(sitting.run, routine).remark).toBe('The time is up; what you play counts.');
    expect(sitting.item.played).toBe(260);
    sitting.do('pause').wait(40);
    expect(sitting.run.phase).toBe('over');
    sitting.do('start').wait(5).do('next');
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'done', played: 265, length: 240 });
    expect(sitting.run.phase).toBe('playing');
  });

  it('the journal hears once a minute of what is played on', () => {
    const sitting = overScales().do('start').wait(119);
    expect(sitting.blockEvents('scales').slice(-2)).toEqual(['done', 'done']);
    expect(sitting.lastOf('scales')).toMatchObject({ played: 300 });
  });

  it.each(['next', 'skip', 'back', 'leave'] as const)('nothing of what was played on is lost by %s', (action) => {
    const sitting = overScales().do('start').wait(20).do(action);
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'done', played: 260 });
  });

  it('a minute more goes on at once, also from what is played on', () => {
    expect(overScales().wait(30).do('extend').wait(10).item).toMatchObject({ played: 250, length: 300, state: 'open' });
    const sitting = overScales().do('start').wait(20).do('extend').wait(59);
    expect([sitting.run.phase, sitting.item.played, sitting.item.length]).toEqual(['playing', 319, 320]);
    expect(sitting.wait(1).run.phase).toBe('over');
  });

  it('a sleeping computer plays nothing on', () => {
    const sitting = overScales().do('start').wait(20);
    sitting.now += GAP + 1;
    sitting.wait(1);
    expect([sitting.run.phase, sitting.item.played]).toEqual(['over', 260]);
    expect(sitting.run.remark).toMatch(/^The computer slept or was stopped; that time does not count\./);
  });

  it('of one turn of a block, playing on does not make the whole block done', () => {
    const items = itemsOfPlan(
      todaysPlan(routine, { minutes: 40, before: playedBefore(DAY, [], []), seed: 1 }),
      playedBefore(DAY, [], []),
    );
    const [tones, scales] = items.slice(0, 2).map((item) => ({ ...item, atEnd: 'wait' as const }));
    if (tones === undefined || scales === undefined) throw new Error('no two blocks');
    const sitting = new Sitting([], beginRun(routine.id, [scales, tones, scales], 1000).run);
    sitting.do('start').wait(240).do('start').wait(61);
    expect(sitting.blockEvents('scales').slice(-2)).toEqual(['left', 'left']);
    sitting.do('next').wait(180).do('next').wait(240);
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'done', played: 541, length: 480 });
  });
});

describe('breaths', () => {
  it('have no seconds after the last one, and none are counted above it', () => {
    const sitting = new Sitting([], null, 3).do('start').wait(20);
    sitting.run = { ...sitting.run, items: sitting.run.items.map((item) => ({ ...item, atEnd: 'wait' as const })) };
    sitting.do('breath').do('breath').do('breath').wait(7);
    expect(runView(sitting.run, routine).count).toBe('3 of 4 breaths, 7 s on this one');
    sitting.do('breath').wait(30);
    expect([sitting.run.phase, runView(sitting.run, routine).count]).toEqual(['over', '4 of 4 breaths']);
    sitting.do('breath').do('start').wait(3).do('breath');
    expect([sitting.item.played, runView(sitting.run, routine).count]).toEqual([30, '4 of 4 breaths']);
  });

  it('that the time did not suffice for can be played on', () => {
    const sitting = new Sitting([], null, 3);
    sitting.run = { ...sitting.run, items: sitting.run.items.map((item) => ({ ...item, atEnd: 'wait' as const })) };
    sitting.do('start').wait(170).do('breath').wait(10).do('breath');
    expect([sitting.run.phase, runView(sitting.run, routine).count]).toEqual(['over', '1 of 4 breaths']);
    sitting.do('start').do('breath').do('breath').do('breath');
    expect([sitting.run.phase, runView(sitting.run, routine).count]).toEqual(['playing on', '4 of 4 breaths']);
  });

  it('begin anew in a block that is gone on with', () => {
    const sitting = new Sitting().do('start').wait(100).do('leave');
    const run = restored(asStored(sitting.records));
    expect(run && runView(run, routine).count).toBe('0 of 4 breaths, 0 s on this one');
    const back = new Sitting().do('start').wait(100).do('breath').wait(81).do('back');
    expect(runView(back.run, routine).count).toBe('0 of 4 breaths, 0 s on this one');
  });
});

describe('each key means one thing', () => {
  it('next goes to the next block, also from one that lies ready, and then starts no clock', () => {
    const sitting = new Sitting().do('next');
    expect([sitting.title, sitting.run.phase]).toEqual(['Scales', 'ready']);
    sitting.wait(30).do('next');
    expect([sitting.title, sitting.run.phase]).toEqual(['Thirds', 'ready']);
    expect(sitting.run.items.slice(0, 2).map(({ state, played }) => [state, played])).toEqual([
      ['skipped', 0],
      ['skipped', 0],
    ]);
    expect(sitting.records.filter(({ kind }) => kind === 'block')).toEqual([]);
  });

  it('next of every block that lies ready comes to the end', () => {
    const sitting = new Sitting();
    for (let n = 0; n < 10; n += 1) sitting.do('next');
    expect(sitting.run.phase).toBe('finished');
  });

  it.each([
    ['playing', (sitting: Sitting) => sitting.wait(1), 'playing'],
    ['paused', (sitting: Sitting) => sitting.wait(1).do('pause'), 'ready'],
    ['over', (sitting: Sitting) => sitting.wait(240), 'playing'],
    ['playing on', (sitting: Sitting) => sitting.wait(240).do('start'), 'playing'],
  ] as const)('next from a block that is %s', (phase, bring, after) => {
    const sitting = bring(new Sitting().do('start').wait(180));
    expect([sitting.title, sitting.run.phase]).toEqual(['Scales', phase]);
    expect([sitting.do('next').title, sitting.run.phase]).toEqual(['Thirds', after]);
  });

  it('next of a block that lies ready after a first part of it leaves it for later today', () => {
    const sitting = new Sitting().do('start').wait(180).wait(30).do('next').do('back').do('next');
    expect([sitting.title, sitting.run.phase, sitting.lastOf('scales')?.event]).toEqual(['Thirds', 'ready', 'left']);
  });

  it('start never stops and pause never starts', () => {
    const sitting = new Sitting().do('pause');
    expect([sitting.run.phase, isClockRunning(sitting.run)]).toEqual(['ready', false]);
    expect([sitting.do('start').do('start').run.phase, isClockRunning(sitting.run)]).toEqual(['playing', true]);
    expect([sitting.do('pause').do('pause').run.phase, isClockRunning(sitting.run)]).toEqual(['paused', false]);
    const over = overScales();
    expect([over.do('pause').run.phase, isClockRunning(over.run)]).toEqual(['over', false]);
    expect([over.do('start').do('start').run.phase, isClockRunning(over.run)]).toEqual(['playing on', true]);
  });

  it.each([
    ['start', 'play'],
    ['pause', 'still'],
  ] as const)('%s says so to what sounds, once', (action, effect) => {
    const sitting = overScales().do('start');
    if (action === 'start') sitting.do('pause');
    const before = sitting.count(effect);
    sitting.do(action).do(action);
    expect(sitting.count(effect)).toBe(before + 1);
  });

  it('skip leaves out what is open of a block, and does not take back what was done', () => {
    expect(overScales().do('skip').lastOf('scales')?.event).toBe('done');
    expect(new Sitting().do('start').wait(180).wait(9).do('skip').lastOf('scales')).toMatchObject({
      event: 'skipped',
      played: 9,
    });
  });
});

describe('tension', () => {
  it('is asked of a block of which something was played', () => {
    expect(question(new Sitting().do('start').wait(1).do('next'))).toMatch(/^How tense\? .*\(Tones\)/);
  });

  it('is not asked of one that was not played', () => {
    expect(question(new Sitting().do('start').do('next'))).toBe('');
    expect(question(new Sitting().do('next'))).toBe('');
    expect(question(new Sitting().do('start').wait(5).do('next').do('next'))).toMatch(/\(Tones\)$/);
  });

  it('may be told during the rest after it, and at the end', () => {
    const sitting = new Sitting().do('start').wait(180).wait(240).do('next').wait(300).do('next').wait(120).do('next');
    expect(isRest(sitting.item)).toBe(true);
    sitting.wait(121);
    expect(question(sitting)).toMatch(/\(Stretch\)$/);
    sitting.wait(361).do('next');
    expect([sitting.run.phase, question(sitting).slice(-8)]).toEqual(['finished', '(Tongue)']);
    const { run, effects } = runOn(sitting.run, { type: 'tension', level: 2, now: sitting.now });
    expect(effects).toEqual([{ do: 'record', record: { kind: 'tension', level: 2, exercise: 'tongue' } }]);
    expect(runOn(run, { type: 'tension', level: 2, now: sitting.now })).toEqual({ run, effects: [] });
  });
});

describe('a sitting that was interrupted while its block waited', () => {
  it('has what was played of it, and not the waiting', () => {
    const sitting = overScales().wait(400);
    const run = restoreRun(routine, DAY, asStored(sitting.records), 0);
    expect(run?.items.slice(0, 2).map(({ state, played }) => [state, played])).toEqual([
      ['done', 180],
      ['done', 240],
    ]);
  });
});
