/** Nobody is counted in twice, and nothing is cut short: when a mark, a tempo or a full disk comes at an odd moment. */
import { describe, expect, it } from 'vitest';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { beginWay } from '../../src/practice/line/way-being-played.ts';
import { type Rehearsal, rehearse } from './rehearsal.ts';

const TENS = { step: { by: 'beats', bpm: 10 }, floor: 40, top: 120, start: 100, target: 120 } as const;

const roles = ({ bar }: Rehearsal, bars: number) =>
  Array.from({ length: bars }, () => {
    const { role, tempo } = bar()!.span;
    return `${role} ${tempo.bpm}`;
  });

describe('a late mark while the slow repetition of an alternating exercise is played', () => {
  const slow = (rule: object): Rehearsal => {
    const one = rehearse({
      exercise: { noMark: 'repeat', bars: 2 },
      rule: { ...TENS, order: 'alternate', slowShare: 0.6, ...rule },
    });
    one.press('start-pause');
    one.until('breath');
    one.until('repetition');
    expect(one.state().phase).toBe('slow');
    return one;
  };

  it('leaves it alone where the ladder stays', () => {
    const one = slow({});
    one.press('tense');
    expect(roles(one, 3)).toEqual(['repetition 60', 'count-in 100', 'repetition 100']);
  });

  it('leads anew to another tempo', () => {
    const one = slow({ cleanUp: 1 });
    one.press('clean');
    expect(roles(one, 2)).toEqual(['count-in 66', 'repetition 66']);
  });

  it('leads anew to another tempo, though the slow repetition under way has that very one', () => {
    const one = slow({ slowShare: 0.9, missedDown: 1 });
    one.press('missed');
    expect(one.climb().bpm).toBe(90);
    expect(roles(one, 2)).toEqual(['count-in 81', 'repetition 81']);
  });
});

describe('after a way round a wall', () => {
  it('the player breathes out before the ladder goes on, though its tempo is another one now', () => {
    const one = rehearse({ exercise: { breathBars: 3 }, rule: { ...TENS, start: 60 } });
    const [way] = waysRound({ wall: 110, rungs: one.rungs(), tongued: true, notes: 9, beats: 4 });
    one.apply((practice) => beginWay(practice, way!, 110));
    one.press('start-pause');
    while (one.state().way) one.bar();
    expect(one.climb().bpm).toBe(100);
    expect(roles(one, 3)).toEqual([expect.stringMatching(/^breath/), expect.stringMatching(/^breath/), 'count-in 100']);
  });
});

describe('on a full disk', () => {
  it('a repetition that was called missed half way goes on, to its bar to breathe', () => {
    const one = rehearse({ diskFull: true, exercise: { noMark: 'repeat', bars: 3 }, rule: TENS });
    one.press('start-pause');
    one.until('repetition');
    one.press('clean', 'missed');
    expect(roles(one, 3)).toEqual(['repetition 100', 'repetition 100', 'breath 100']);
  });
});
