import { describe, expect, it } from 'vitest';
import { happenedNow } from '../../src/practice/line/what-happened.ts';
import { rehearse } from '../practice/rehearsal.ts';

const RULE = { cleanUp: 3, missedDown: 2, step: { by: 'beats', bpm: 4 }, floor: 60, top: 120, start: 80 } as const;

/** A repetition is played to its end and marked in the breath. */
function marked(sitting: ReturnType<typeof rehearse>, ...marks: readonly ('clean' | 'tense' | 'missed')[]) {
  for (const mark of marks) {
    sitting.until('repetition');
    sitting.until('breath');
    sitting.press(mark);
  }
  return happenedNow(sitting.state());
}

function started(options: Parameters<typeof rehearse>[0] = { rule: RULE }) {
  const sitting = rehearse(options);
  sitting.press('start-pause');
  return sitting;
}

describe('what the last key came to', () => {
  it('is told with the run that it makes, towards the climb and towards the fall', () => {
    expect(marked(started(), 'clean')).toMatchObject({ outcome: 'clean', run: 1, of: 3 });
    expect(marked(started(), 'clean', 'clean')).toMatchObject({ outcome: 'clean', run: 2, of: 3 });
    expect(marked(started(), 'clean', 'tense')).toMatchObject({ outcome: 'tense', run: 0, of: 3 });
    expect(marked(started(), 'clean', 'missed')).toMatchObject({ outcome: 'missed', run: 1, of: 2 });
    expect(marked(started(), 'clean', 'clean', 'clean')).toMatchObject({ outcome: 'climbed', bpm: 84 });
    expect(marked(started(), 'missed', 'missed')).toMatchObject({ outcome: 'fallen', bpm: 76 });
  });

  it('is no climb on the top rung, and no fall on the lowest', () => {
    expect(marked(started({ rule: { ...RULE, top: 80, target: 80 } }), 'clean', 'clean', 'clean')?.outcome).toBe(
      'held',
    );
    expect(marked(started({ rule: { ...RULE, floor: 80 } }), 'missed', 'missed')?.outcome).toBe('missed');
  });

  it('goes with the count-in where it was a mark, and stays through it where the ladder moved', () => {
    const sitting = started();
    marked(sitting, 'clean');
    sitting.until('count-in');
    expect(happenedNow(sitting.state())).toBeNull();
    marked(sitting, 'clean', 'clean');
    sitting.until('count-in');
    expect(happenedNow(sitting.state())?.outcome).toBe('climbed');
    sitting.until('repetition');
    expect(happenedNow(sitting.state())).toBeNull();
  });

  it('says that something was taken back, an early mark too', () => {
    const sitting = started();
    sitting.until('repetition');
    sitting.press('tense');
    expect(sitting.state().due?.early).toBe('tense');
    sitting.press('undo');
    expect(happenedNow(sitting.state())).toMatchObject({ outcome: 'taken back', run: 0, of: 3 });
    sitting.until('breath');
    sitting.press('clean', 'undo');
    expect(happenedNow(sitting.state())).toMatchObject({ outcome: 'taken back', run: 0, of: 3 });
  });

  it('is gone once the player pauses, starts anew or moves the tempo by hand', () => {
    for (const key of ['start-pause', 'faster'] as const) {
      const sitting = started();
      marked(sitting, 'clean');
      sitting.press(key);
      expect(happenedNow(sitting.state())).toBeNull();
    }
  });
});
