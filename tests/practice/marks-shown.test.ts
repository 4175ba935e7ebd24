/** What the screen is told of the last key: which sign stands there, from when, and until when. */
import { describe, expect, it } from 'vitest';
import { happenedNow } from '../../src/practice/line/what-happened.ts';
import { type Rehearsal, rehearse } from './rehearsal.ts';

const shown = ({ state }: Rehearsal): string | null => {
  const now = happenedNow(state());
  return now && `${now.outcome} ${now.run} of ${now.of} at ${now.bpm}`;
};

const TENS = { step: { by: 'beats', bpm: 10 }, floor: 40, top: 120, start: 80, target: 120 } as const;

/** A repetition was played and its bar to breathe has begun. */
function breathing(options: Parameters<typeof rehearse>[0] = {}): Rehearsal {
  const one = rehearse({ ...options, rule: { ...TENS, cleanUp: 2, missedDown: 2, ...options.rule } });
  one.press('start-pause');
  one.until('breath');
  return one;
}

describe('of a mark', () => {
  it.each([
    ['clean', 'clean 1 of 2 at 80'],
    ['tense', 'tense 0 of 2 at 80'],
    ['missed', 'missed 1 of 2 at 80'],
  ] as const)('%s is told how far it has come', (mark, told) => {
    const one = breathing();
    one.press(mark);
    expect(shown(one)).toBe(told);
  });

  it('missed ones are counted by what moves the ladder down, clean ones by what moves it up', () => {
    const one = breathing({ rule: { cleanUp: 4, missedDown: 3 } });
    one.press('clean');
    expect(shown(one)).toBe('clean 1 of 4 at 80');
    one.until('breath');
    one.press('missed');
    expect(shown(one)).toBe('missed 1 of 3 at 80');
    one.until('breath');
    one.press('missed');
    expect(shown(one)).toBe('missed 2 of 3 at 80');
  });

  it('a climb and a fall are told with the new tempo', () => {
    const up = breathing({ rule: { cleanUp: 1 } });
    up.press('clean');
    expect(shown(up)).toBe('climbed 1 of 1 at 90');
    const down = breathing({ rule: { missedDown: 1 } });
    down.press('missed');
    expect(shown(down)).toBe('fallen 1 of 1 at 70');
  });

  it('on the top rung enough clean ones hold it; one fewer does not', () => {
    const one = breathing({ rule: { start: 120 } });
    one.press('clean');
    expect(shown(one)).toBe('clean 1 of 2 at 120');
    one.until('breath');
    one.press('clean');
    expect(shown(one)).toBe('held 2 of 2 at 120');
  });

  it('of a repetition at a tempo that the ladder has left, counts from one', () => {
    // 'repeat' goes on at the old tempo, so the second mark is of a repetition at 80 though the ladder is at 90.
    const one = breathing({ exercise: { noMark: 'repeat' }, rule: { cleanUp: 2 } });
    one.press('clean');
    one.until('repetition');
    one.press('start-pause', 'faster', 'start-pause');
    one.until('breath');
    one.press('clean');
    expect(shown(one)).toBe('clean 1 of 2 at 90');
  });
});

describe('for how long', () => {
  it('a mark is shown until the next count-in, a move of the ladder and a rung held through it', () => {
    for (const [rule, mark, isThrough] of [
      [{}, 'clean', false],
      [{}, 'tense', false],
      [{}, 'missed', false],
      [{ cleanUp: 1 }, 'clean', true],
      [{ missedDown: 1 }, 'missed', true],
      [{ cleanUp: 1, start: 120 }, 'clean', true],
    ] as const) {
      const one = breathing({ rule });
      one.press(mark);
      expect(shown(one)).not.toBeNull();
      one.until('count-in');
      expect(shown(one) !== null).toBe(isThrough);
    }
  });

  it('a mark that came late, in the count-in, is shown in it, and while the slow repetition is led into', () => {
    const late = breathing({ exercise: { noMark: 'repeat' } });
    late.until('count-in');
    late.press('tense');
    expect(shown(late)).toBe('tense 0 of 2 at 80');
    const slow = breathing({ exercise: { noMark: 'repeat' }, rule: { order: 'alternate' } });
    slow.until('repetition');
    expect(slow.state().phase).toBe('slow');
    slow.press('tense');
    expect(shown(slow)).toBe('tense 0 of 2 at 80');
  });

  it('a mark of before is not shown in the count-in that goes slowly', () => {
    const one = breathing({ rule: { order: 'alternate' } });
    one.press('tense');
    one.until('count-in');
    expect(shown(one)).toBeNull();
  });

  it('a tempo by hand ends it', () => {
    const one = breathing({ rule: { cleanUp: 1 } });
    one.press('clean');
    expect(shown(one)).toBe('climbed 1 of 1 at 90');
    one.press('faster');
    expect(shown(one)).toBeNull();
  });
});

describe('after a pause', () => {
  it('a mark given in silence is shown in silence, and starting again ends it', () => {
    const one = breathing({ rule: { cleanUp: 1 } });
    one.press('start-pause', 'clean');
    expect(shown(one)).toBe('climbed 1 of 1 at 90');
    one.press('start-pause');
    expect(shown(one)).toBeNull();
  });
});

describe('of a mark that is taken back', () => {
  it('is told with the run as it is again, where the key came: in the bar to breathe and in the count-in', () => {
    const one = breathing({ rule: { cleanUp: 3 } });
    one.press('clean');
    one.until('breath');
    one.press('clean', 'undo');
    expect(shown(one)).toBe('taken back 1 of 3 at 80');
    one.press('clean');
    one.until('count-in');
    one.press('undo');
    expect(shown(one)).toBe('taken back 1 of 3 at 80');
    one.until('repetition');
    expect(shown(one)).toBeNull();
  });

  it('an early verdict too, at once', () => {
    const one = rehearse({ rule: TENS });
    one.press('start-pause');
    one.until('repetition');
    one.press('clean');
    expect(shown(one)).toBeNull();
    one.press('undo');
    expect(shown(one)).toBe('taken back 0 of 3 at 80');
  });
});
