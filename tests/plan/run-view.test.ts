/** A running routine in words and numbers. */
import { isWellBegun } from '../../src/plan/run/done-or-looked-at.ts';
import { describe, expect, it } from 'vitest';
import { type RunItem } from '../../src/plan/run/run-items.ts';
import { runView } from '../../src/plan/run/run-view.ts';
import { type Run, beginRun, current, secondsLeft } from '../../src/plan/run/running-routine.ts';
import { runItem as item } from './hand-made-items.ts';
import { Sitting, routine } from './sitting-by-clock.ts';

const rest = item('break', { title: 'Rest', kind: 'rest', length: 120 });
const runOf = (...items: readonly RunItem[]): Run => beginRun('test', items, 0).run;
const view = (run: Run) => runView(run, routine);

describe('what the screen needs of a run', () => {
  it('is the block at hand, in its part', () => {
    const run = runOf(item('A', { played: 75, part: 'warm-up' }), item('B'));
    expect(view(run)).toMatchObject({ phase: 'ready', part: 'Warm-up', title: 'A', kind: 'technique' });
    expect(view(run)).toMatchObject({ left: '3:45', of: '5:00', share: 0.25, count: '', question: '' });
    expect(view({ ...run, at: 1 }).part).toBe('Fingers');
  });

  it('is what comes next, in whole halves of a minute', () => {
    const next = (change: Partial<RunItem>) => view(runOf(item('A'), item('B', change))).next;
    expect(next({})).toBe('next: B, 5 min');
    expect(next({ played: 40 })).toBe('next: B, 4:30 min');
    expect(next({ played: 50 })).toBe('next: B, 4 min');
    expect(next({ length: 10 })).toBe('next: B, 0:30 min');
    expect(view(runOf(item('A'))).next).toBe('');
  });

  it('is what to get for it, if that is not on the stand yet', () => {
    const next = (now: string | null, then: string | null) =>
      view(runOf(item('A', { material: now }), item('B', { material: then }))).nextMaterial;
    expect([next('X', 'Y'), next(null, 'Y'), next('X', 'X'), next('X', null)]).toEqual(['Y', 'Y', '', '']);
    expect(view(runOf(item('A', { material: 'X' }))).nextMaterial).toBe('');
  });

  it('is the whole sitting, a piece for each block', () => {
    const run = runOf(item('A', { state: 'done', played: 300 }), rest, item('B', { state: 'skipped' }), item('C'));
    expect(view({ ...run, at: 3 }).blocks).toEqual([
      { title: 'A', state: 'done', minutes: 5, isRest: false },
      { title: 'Rest', state: 'open', minutes: 2, isRest: true },
      { title: 'B', state: 'skipped', minutes: 5, isRest: false },
      { title: 'C', state: 'now', minutes: 5, isRest: false },
    ]);
    expect(view({ ...run, at: 3 })).toMatchObject({ played: '5:00', total: '15:00' });
    expect(view({ ...run, at: 0, phase: 'finished' }).blocks[0]?.state).toBe('done');
  });

  it('is nothing where nothing is at hand', () => {
    const run = runOf();
    expect(run.phase).toBe('finished');
    expect(view(run)).toMatchObject({ part: '', title: 'Test', kind: 'rest', left: '', of: '', share: 1, count: '' });
    expect(view(run).remark).toBe('That was all.');
    expect(view(runOf(item('A', { length: 0 }))).share).toBe(1);
    expect(view(runOf(item('A', { played: 400 }))).share).toBe(1);
  });

  it('is its turn and its breaths', () => {
    const turn = { n: 2, of: 3 };
    expect(view(runOf(item('A', { turn }))).count).toBe('turn 2 of 3');
    expect(view(runOf(item('A', { turn, breaths: 8 }))).count).toBe('turn 2 of 3, 0 of 8 breaths, 0 s on this one');
  });

  it('is what the keys do now', () => {
    const remark = (phase: Run['phase'], said = '') => view({ ...runOf(item('A')), phase, remark: said }).remark;
    expect([remark('ready'), remark('playing'), remark('paused'), remark('left')]).toEqual([
      'Ready when you are.',
      '',
      'The clock waits.',
      '',
    ]);
    expect(remark('paused', 'Something else.')).toBe('Something else.');
  });

  it('is the question after a block', () => {
    const asked = { title: 'Scales', exercise: 'scales' };
    expect(view({ ...runOf(item('A')), asked }).question).toBe('How tense? 0 none ... 4 very (Scales)');
  });
});

describe('a block', () => {
  it('is well begun from a third of all its turns on, earlier today included', () => {
    const turns = (played: number, before = 0) => [item('A', { played, before }), item('A', { before })];
    expect([isWellBegun(turns(199)), isWellBegun(turns(200))]).toEqual([false, true]);
    expect([isWellBegun(turns(99, 150)), isWellBegun(turns(100, 150))]).toEqual([false, true]);
    expect(isWellBegun([])).toBe(true);
  });

  it('never has less than nothing left', () => {
    expect([secondsLeft(item('A', { played: 310 })), secondsLeft(item('A', { played: 10 }))]).toEqual([0, 290]);
  });
});

describe('moving between blocks', () => {
  const titles = (sitting: Sitting, ...actions: readonly Parameters<Sitting['do']>[0][]) =>
    actions.map((action) => sitting.do(action).title);

  it('comes back to what was left open, and rests only before work', () => {
    const open = (items: readonly RunItem[], at: number) => new Sitting([], { ...runOf(...items), at });
    const items = [item('A'), rest, item('B', { state: 'done' }), item('C')];
    expect(titles(open(items, 3), 'skip')).toEqual(['A']);
    expect(titles(open(items, 0), 'skip')).toEqual(['Rest']);
    expect(titles(open([item('A'), rest], 0), 'skip')).toEqual(['Test']);
    expect(titles(open([item('A'), rest, item('B', { state: 'done' })], 0), 'skip')).toEqual(['Test']);
  });

  it('skips every open turn of a block, and of a rest that rest only', () => {
    const turns = [item('A'), item('B'), item('A'), rest, item('C'), rest, item('D')];
    const sitting = new Sitting([], runOf(...turns)).do('skip');
    expect(sitting.run.items.flatMap(({ state }, i) => (state === 'skipped' ? [i] : []))).toEqual([0, 2]);
    sitting.do('skip');
    expect(sitting.title).toBe('Rest');
    sitting.do('skip');
    expect([sitting.title, sitting.run.items[5]?.state]).toEqual(['C', 'open']);
  });

  it('swaps with the next open block that is no rest', () => {
    const sitting = new Sitting([], runOf(item('A', { played: 9 }), rest, item('B', { state: 'done' }), item('C')));
    sitting.do('start').do('swap');
    expect(sitting.run.items.map(({ title }) => title)).toEqual(['C', 'Rest', 'B', 'A']);
    expect([sitting.run.phase, sitting.lastOf('A')?.event]).toEqual(['ready', 'left']);
    expect(sitting.effects.at(-1)).toMatchObject({ do: 'open', item: { title: 'C' } });
    sitting.do('next').do('next');
    expect(sitting.title).toBe('A');
    expect(sitting.do('swap').run.remark).toBe('There is nothing after this block to swap it with.');
  });

  it('swaps neither a rest nor what is over', () => {
    const rests = new Sitting([], runOf(rest, item('A'))).do('swap');
    expect([rests.title, rests.run.remark]).toEqual(['Rest', 'There is nothing after this block to swap it with.']);
    const over = new Sitting([], runOf(item('A', { length: 5 }), item('B'))).do('start').wait(5).do('swap');
    expect([over.title, over.run.phase]).toEqual(['A', 'over']);
  });

  it('goes back to the block before, over rests, and gives it a minute where it was over', () => {
    const sitting = new Sitting([], { ...runOf(item('A', { played: 280, state: 'done' }), rest, item('B')), at: 2 });
    sitting.do('start').wait(5).do('back');
    expect(sitting.item).toMatchObject({ title: 'A', length: 340, state: 'open' });
    expect([sitting.run.phase, sitting.run.unsaid, sitting.lastOf('B')?.event]).toEqual(['ready', 0, 'left']);
    expect(sitting.do('back').run.remark).toBe('This is the first block.');
    const early = new Sitting([], { ...runOf(item('A', { played: 240 }), item('B')), at: 1 }).do('back');
    expect(early.item.length).toBe(300);
    expect(early.records.filter(({ kind }) => kind === 'block')).toEqual([]);
  });

  it('goes back from the end, where nothing else happens any more', () => {
    const sitting = new Sitting([], runOf(item('A', { length: 5 }))).do('start').wait(5).do('next');
    expect(sitting.run.phase).toBe('finished');
    expect(titles(sitting, 'start', 'skip', 'next', 'extend', 'pause')).toEqual(
      Array.from({ length: 5 }, () => 'Test'),
    );
    sitting.wait(30);
    expect([sitting.do('back').title, sitting.wait(30).item.played]).toEqual(['A', 5]);
    expect(sitting.do('start').wait(30).item.played).toBe(35);
  });

  it('does nothing after leaving', () => {
    const sitting = new Sitting().do('start').wait(5).do('leave').do('start').do('back').wait(20);
    expect([sitting.run.phase, current(sitting.run)?.played]).toEqual(['left', 5]);
  });

  it('extends a block that plays by a minute, and one that was passed over from what was played', () => {
    const sitting = new Sitting().do('start').wait(5).do('extend');
    expect([sitting.item.length, sitting.run.phase, sitting.lastOf('tones')?.event]).toEqual([240, 'playing', 'going']);
    const ready = new Sitting([], runOf(item('A', { played: 400 }))).do('extend');
    expect([ready.item.length, ready.run.phase]).toEqual([460, 'ready']);
  });

  it('takes a key for the block that was there when it was pressed', () => {
    const sitting = new Sitting().do('start').wait(175);
    sitting.now += 6;
    sitting.do('skip');
    expect([sitting.title, sitting.run.items[0]?.state]).toEqual(['Scales', 'done']);
  });

  it('lets a slower clock be late by more', () => {
    const run = { ...runOf(item('A')), gap: 40 };
    const sitting = new Sitting([], run).do('start');
    sitting.now += 40;
    sitting.wait(1);
    expect(sitting.run.phase).toBe('paused');
    const other = new Sitting([], run).do('start');
    other.now += 39;
    expect([other.wait(1).run.phase, other.item.played]).toEqual(['playing', 40]);
  });
});
