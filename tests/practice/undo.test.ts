import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Climb } from '../../src/ladder/rule/climb.ts';
import { climbNow } from '../../src/practice/line/line-state.ts';
import type { Practice, PracticeAction } from '../../src/practice/line/line-on-stand.ts';
import { rehearse } from './rehearsal.ts';

/** The ladder as it was before the last thing that was kept. */
const withoutLast = (practice: Practice): Climb => climbNow({ ...practice, kept: practice.kept.slice(0, -1) });

describe('undo', () => {
  it('brings back rung, run and best', () => {
    const { press, until, state, climb } = rehearse({ rule: { cleanUp: 2 } });
    press('start-pause');
    until('breath');
    press('clean');
    until('breath');
    const before = climb();
    press('clean');
    expect(climb().best).not.toBeNull();
    press('undo');
    expect(climb()).toEqual(before);
    expect(state().due).not.toBeNull();
  });

  it('after a mark is taken back in the breathing bar, the program waits for the right one', () => {
    const { press, until, bar, climb } = rehearse();
    press('start-pause');
    until('breath');
    press('missed', 'undo');
    expect(bar()?.span.role).toBe('wait');
    press('clean');
    expect(climb().cleanRun).toBe(1);
    expect(bar()?.span.role).toBe('count-in');
  });

  it('in the middle of the next repetition it goes back to the old tempo at the next bar line', () => {
    const { press, until, bar, climb } = rehearse({ rule: { cleanUp: 1 }, exercise: { bars: 4 } });
    press('start-pause');
    const first = until('breath').tempo.bpm;
    press('clean');
    until('repetition');
    press('undo');
    expect(climb().bpm).toBe(first);
    expect(bar()?.span).toMatchObject({ role: 'count-in', tempo: { bpm: first } });
  });

  it('is exact after any sequence of keys, and the ladder never leaves its rungs', () => {
    const key = fc.constantFrom<PracticeAction | 'bar'>(
      'clean',
      'tense',
      'missed',
      'faster',
      'slower',
      'start-pause',
      'bar',
      'bar',
      'bar',
    );
    fc.assert(
      fc.property(fc.array(key, { maxLength: 80 }), (keys) => {
        const { press, bar, state, climb, rungs } = rehearse({ rule: { floor: 58, top: 66, target: 64, cleanUp: 2 } });
        const start = climb();
        for (const each of keys) {
          if (each === 'bar') bar();
          else press(each);
          expect(rungs()).toContain(climb().bpm);
        }
        if (state().due?.early) press('undo');
        while (state().kept.length > 0) {
          const before = withoutLast(state());
          press('undo');
          expect(climb()).toEqual(before);
        }
        expect(climb()).toEqual(start);
      }),
    );
  });
});
