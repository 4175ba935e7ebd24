/** Taking back within the cycle of a line, its bars to breathe, and what clicks in which of them. */
import { describe, expect, it } from 'vitest';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import { marksNow } from '../../src/practice/line/line-state.ts';
import { type Rehearsal, rehearse } from './rehearsal.ts';

const chains = ({ commands }: Rehearsal) =>
  commands.flatMap((command) => (command.ask === 'play' || command.ask === 'then' ? [command.spans] : []));

describe('taking back', () => {
  it('says when there is nothing, and an early verdict leaves the repetition due at its tempo', () => {
    const { press, until, answer, drafts } = rehearse({ rule: { start: 80 } });
    press('undo');
    expect(answer()).toBe('Nothing to take back on this line.');
    press('start-pause');
    until('repetition');
    press('clean', 'undo');
    expect(drafts).toEqual([]);
    until('breath');
    expect(drafts).toEqual([]);
    press('tense');
    expect(drafts).toMatchObject([{ mark: 'tense', bpm: 80 }]);
  });

  it('of the newest of several marks leaves that one due, at its own tempo', () => {
    const { press, until, state, drafts } = rehearse({ rule: { cleanUp: 1, start: 80 } });
    press('start-pause');
    until('breath');
    press('clean');
    const second = until('repetition').tempo.bpm;
    until('breath');
    press('clean', 'undo');
    expect(second).toBeGreaterThan(80);
    expect(state().due).toEqual({ bpm: second, early: null });
    press('missed');
    expect(drafts.at(-1)).toMatchObject({ kind: 'mark', mark: 'missed', bpm: second });
  });

  it('of a tempo by hand makes no mark due', () => {
    const { press, until, state } = rehearse();
    press('start-pause');
    until('breath');
    press('clean', 'faster', 'undo');
    expect(state().due).toBeNull();
    expect(marksNow(state())).toEqual(['clean']);
  });

  it('while the next repetition is counted in, or goes slowly, leaves the old one alone', () => {
    const plain = rehearse();
    plain.press('start-pause');
    plain.until('breath');
    plain.press('clean');
    plain.until('count-in');
    const { length } = plain.commands;
    plain.press('undo');
    expect(plain.state().due).toBeNull();
    // The ladder stands where it stood: nothing is counted in anew.
    expect(plain.commands).toHaveLength(length);
    expect(plain.bar()?.span.role).toBe('repetition');
    const slow = rehearse({ rule: { order: 'alternate', start: 100 } });
    slow.press('start-pause');
    slow.until('breath');
    slow.press('clean');
    expect(slow.until('repetition').tempo.bpm).toBeLessThan(100);
    slow.press('undo');
    expect(slow.state().due).toBeNull();
    expect(slow.bar()?.span.role).toBe('repetition');
  });

  it('of a missed half way breathes from the next bar line and waits for the right mark', () => {
    const { press, until, bar } = rehearse({ exercise: { bars: 8 } });
    press('start-pause');
    until('repetition');
    press('missed', 'undo');
    expect([bar()?.span.role, bar()?.span.role, bar()?.span.role]).toEqual(['breath', 'wait', 'wait']);
    press('clean');
    expect(bar()?.span.role).toBe('count-in');
  });

  it('after a pause starts no sound', () => {
    const { press, until, state, commands } = rehearse();
    press('start-pause');
    until('breath');
    press('start-pause', 'clean', 'undo');
    expect(state()).toMatchObject({ phase: 'stopped', due: { early: null } });
    expect(commands.at(-1)).toEqual({ ask: 'stop' });
  });
});

describe('the bars to breathe', () => {
  const roles = ({ bar }: Rehearsal, bars: number) => Array.from({ length: bars }, () => bar()?.span.role);

  it('are played out before the next count-in, marked early in them or not at all', () => {
    const marked = rehearse({ exercise: { breathBars: 2 } });
    marked.press('start-pause');
    marked.until('breath');
    marked.press('clean');
    expect(roles(marked, 2)).toEqual(['breath', 'count-in']);
    for (const noMark of ['repeat', 'clean'] as const) {
      const unmarked = rehearse({ exercise: { breathBars: 2, noMark } });
      unmarked.press('start-pause');
      unmarked.until('breath');
      expect(roles(unmarked, 2)).toEqual(['breath', 'count-in']);
    }
  });

  it('after the mark is taken back in them, nothing is cut short, whatever the exercise does without one', () => {
    for (const [noMark, next] of [
      ['wait', 'wait'],
      ['repeat', 'count-in'],
      ['clean', 'count-in'],
    ] as const) {
      const one = rehearse({ exercise: { breathBars: 2, noMark } });
      one.press('start-pause');
      one.until('breath');
      one.press('missed', 'undo');
      expect(roles(one, 2)).toEqual(['breath', next]);
    }
  });
});

describe('the click', () => {
  it('is on every beat while the player counts and breathes, whatever the exercise leaves out', () => {
    const click = {
      ...PLAIN_CLICK,
      on: 'off-beats',
      silentBars: { play: 1, silent: 1 },
      silentChance: { p: 0.5, seed: 3 },
    } as const;
    const one = rehearse({ exercise: { click } });
    one.press('start-pause');
    for (const { role, click: sounds } of chains(one)[0]!) {
      expect(sounds).toMatchObject(
        role === 'repetition' ? { on: 'off-beats' } : { on: 'beats', silentBars: null, silentChance: null },
      );
    }
  });

  it('names each span of a sitting differently, a slow one too', () => {
    const one = rehearse({ rule: { order: 'alternate', start: 100 } });
    one.press('start-pause');
    for (let k = 0; k < 3; k += 1) {
      one.until('breath');
      one.press('clean');
    }
    const ids = chains(one).flatMap((spans) => spans.map(({ id }) => id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.slice(0, 4)).toEqual(['0-slow-count-in', '1-slow-repetition', '2-count-in', '3-repetition']);
  });

  it('waits after the breathing bar only where the exercise waits', () => {
    const roles = (noMark: 'wait' | 'repeat' | 'clean') => {
      const one = rehearse({ exercise: { noMark } });
      one.press('start-pause');
      return chains(one)[0]!.map(({ role }) => role);
    };
    expect(roles('wait')).toEqual(['count-in', 'repetition', 'breath', 'wait']);
    expect(roles('repeat')).toEqual(['count-in', 'repetition', 'breath']);
    expect(roles('clean')).toEqual(['count-in', 'repetition', 'breath']);
  });
});
