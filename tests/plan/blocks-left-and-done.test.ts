/** What the journal hears of a block that is left, in the odd cases: come back to, skipped, or counted in breaths. */
import { describe, expect, it } from 'vitest';
import type { RunItem } from '../../src/plan/run/run-items.ts';
import { runView } from '../../src/plan/run/run-view.ts';
import { beginRun } from '../../src/plan/run/running-routine.ts';
import { Sitting, asStored, restored, routine } from './sitting-by-clock.ts';

describe('a block that lies ready after a part of it was played', () => {
  it('is done when the player goes on from it, if the part was a third or more', () => {
    const sitting = new Sitting().do('start').wait(180).wait(100).do('next').do('back');
    expect(sitting.item).toMatchObject({ title: 'Scales', played: 100 });
    // A hundred of four minutes are more than a third; it was said to be done, and coming back opens it again.
    sitting.do('next');
    expect(sitting.run.items[1]).toMatchObject({ title: 'Scales', state: 'done' });
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'done', played: 100 });
  });

  it('is passed over in silence when nothing of it was played', () => {
    const sitting = new Sitting().do('start').wait(180).do('pause').do('skip');
    const { length } = sitting.records;
    sitting.do('next');
    expect(sitting.records).toHaveLength(length);
  });

  it('gone on with the next start, asks for its tension when it is left', () => {
    const morning = new Sitting().do('start').wait(180).wait(30).do('leave');
    const noon = new Sitting(morning.records, restored(asStored(morning.records)));
    expect(noon.item).toMatchObject({ title: 'Scales', played: 30 });
    noon.do('next');
    expect(noon.run.asked?.title).toBe('Scales');
    expect(noon.lastOf('scales')).toMatchObject({ event: 'left', played: 30 });
  });
});

describe('after a block was skipped half way', () => {
  it('the next one owes the journal nothing: leaving at once says nothing of it', () => {
    const sitting = new Sitting().do('start').wait(180).wait(40).do('skip');
    expect(sitting.lastOf('scales')).toMatchObject({ event: 'skipped', played: 40 });
    sitting.do('leave');
    expect(sitting.blockEvents('thirds')).toEqual([]);
  });

  it('its first minute is said when it is over, not sooner', () => {
    const sitting = new Sitting().do('start').wait(180).wait(40).do('skip').do('start').wait(59);
    expect(sitting.blockEvents('thirds')).toEqual(['started']);
    sitting.wait(1);
    expect(sitting.blockEvents('thirds')).toEqual(['started', 'going']);
  });
});

describe('breaths', () => {
  it('of one block do not make it done by the number that another asks for', () => {
    const [tones] = new Sitting().run.items as readonly [RunItem, ...RunItem[]];
    const of = (block: string, breaths: number): RunItem => ({ ...tones, block, title: block, breaths, atEnd: 'wait' });
    const sitting = new Sitting([], beginRun('test', [of('many', 40), of('few', 3)], 1000).run);
    sitting.do('start').wait(5).do('breath').do('breath').do('breath').do('next');
    expect(sitting.lastOf('many')).toMatchObject({ event: 'left' });
    expect(sitting.run.items[0]?.state).toBe('skipped');
  });
});

describe('a block that was played on past its time', () => {
  it('has all of it when the sitting is gone on with', () => {
    const sitting = new Sitting().do('start').wait(180).wait(240).do('start').wait(45).do('leave');
    const run = restored(asStored(sitting.records));
    expect(run?.items[1]).toMatchObject({ title: 'Scales', played: 285, length: 240, state: 'done' });
  });
});

describe('what is written and said', () => {
  it('is in tenths of a second, however finely the clock counts', () => {
    const begun = new Sitting().do('start').wait(0.123, 0.123).do('extend').do('leave');
    expect(begun.lastOf('tones')).toMatchObject({ played: 0.1, length: 240 });
    // 180.456 s played of three minutes; come back to, it gets a minute more than was played.
    const over = new Sitting();
    over.run = { ...over.run, gap: 1000 };
    over.do('start').wait(180.456, 180.456).do('back').do('start').do('leave');
    expect(over.lastOf('tones')).toMatchObject({ played: 180.5, length: 240.5 });
  });

  it('of the sleep or of where the sitting goes on is over when the clock runs again', () => {
    const sitting = new Sitting().do('start').wait(20);
    sitting.now += 3600;
    sitting.wait(1);
    expect(runView(sitting.run, routine).remark).toMatch(/slept/);
    sitting.do('start');
    expect(runView(sitting.run, routine).remark).toBe('');
    const morning = new Sitting().do('start').wait(60).do('leave');
    const noon = new Sitting(morning.records, restored(asStored(morning.records)));
    expect(runView(noon.run, routine).remark).toMatch(/^Go on with/);
    expect(runView(noon.do('start').run, routine).remark).toBe('');
  });
});
