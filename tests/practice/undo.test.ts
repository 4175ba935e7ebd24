import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PracticeAction } from '../../src/practice/line/line-on-stand.ts';
import { rehearse } from './rehearsal.ts';

describe('undo', () => {
  it('brings back rung, run and best', () => {
    const { press, until, state } = rehearse({ rule: { cleanUp: 2 } });
    press('start-pause');
    until('breath');
    press('clean');
    until('breath');
    const before = state().climb;
    press('clean');
    expect(state().climb.best).not.toBeNull();
    press('undo');
    expect(state().climb).toEqual(before);
    expect(state().due).not.toBeNull();
  });

  it('after a mark is taken back in the breathing bar, the program waits for the right one', () => {
    const { press, until, bar, state } = rehearse();
    press('start-pause');
    until('breath');
    press('missed', 'undo');
    expect(bar()?.span.role).toBe('wait');
    press('clean');
    expect(state().climb.cleanRun).toBe(1);
    expect(bar()?.span.role).toBe('count-in');
  });

  it('in the middle of the next repetition it goes back to the old tempo at the next bar line', () => {
    const { press, until, bar, state } = rehearse({ rule: { cleanUp: 1 }, exercise: { bars: 4 } });
    press('start-pause');
    const first = until('breath').tempo.bpm;
    press('clean');
    until('repetition');
    press('undo');
    expect(state().climb.bpm).toBe(first);
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
        const { press, bar, state } = rehearse({ rule: { floor: 58, top: 66, target: 64, cleanUp: 2 } });
        const start = state().climb;
        for (const each of keys) {
          if (each === 'bar') bar();
          else press(each);
          expect(state().rungs).toContain(state().climb.bpm);
        }
        if (state().due?.early) press('undo');
        for (let k = state().done.length; k > 0; k -= 1) {
          // An undo may leave an early mark nowhere, but never a climb that differs from before.
          const { before } = state().done.at(-1)!;
          press('undo');
          expect(state().climb).toEqual(before);
        }
        expect(state().climb).toEqual(start);
      }),
    );
  });
});
