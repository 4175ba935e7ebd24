import { describe, expect, it } from 'vitest';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import { isSilentBar } from '../../src/music/sound/click-strokes.ts';
import { rehearse } from './rehearsal.ts';

/** What silences beats in the first three repetitions. */
const seeds = (): readonly (number | undefined)[] => {
  const { press, until } = rehearse({ exercise: { click: { ...PLAIN_CLICK, silentChance: { p: 0.5, seed: 1 } } } });
  press('start-pause');
  return [1, 2, 3].map(() => {
    const seed = until('repetition').click.silentChance?.seed;
    until('breath');
    press('clean');
    return seed;
  });
};

describe('the repetition cycle', () => {
  it('counts in, plays, breathes, and waits softly for the mark', () => {
    const { press, bar } = rehearse();
    press('start-pause');
    const roles = Array.from({ length: 6 }, () => bar()?.span.role);
    expect(roles).toEqual(['count-in', 'repetition', 'repetition', 'breath', 'wait', 'wait']);
  });

  it('lets other beats fall silent by chance in each repetition, and the same ones again for the same sitting', () => {
    const drawn = seeds();
    expect(drawn).not.toContain(undefined);
    expect(new Set(drawn).size).toBe(3);
    expect(seeds()).toEqual(drawn);
  });

  it('counts bars of silence over the repetitions: of two bars each, every second one is silent', () => {
    const click = { ...PLAIN_CLICK, silentBars: { play: 2, silent: 2 } };
    const { press, until } = rehearse({ exercise: { click } });
    press('start-pause');
    const silent = Array.from({ length: 4 }, () => {
      const span = until('repetition');
      until('breath');
      press('clean');
      return [0, 1].map((bar) => isSilentBar(span.click, bar));
    });
    expect(silent).toEqual([
      [false, false],
      [true, true],
      [false, false],
      [true, true],
    ]);
  });

  it('counts in again at the new tempo only after the breathing bar, and never changes tempo inside a span', () => {
    const { press, until, bar, climb } = rehearse({ rule: { cleanUp: 1, start: 60 } });
    press('start-pause');
    until('breath');
    press('clean');
    expect(climb().bpm).toBeGreaterThan(60);
    const next = bar();
    expect(next?.span.role).toBe('count-in');
    expect(next?.span.tempo.bpm).toBe(climb().bpm);
  });

  it('a mark that comes while waiting leads on at the next bar line', () => {
    const { press, until, bar } = rehearse();
    press('start-pause');
    until('wait');
    bar();
    press('clean');
    expect(bar()?.span.role).toBe('count-in');
  });

  it('a clean given early counts at the end of the repetition', () => {
    const { press, until, drafts, climb } = rehearse();
    press('start-pause');
    until('repetition');
    press('clean');
    expect(drafts).toEqual([]);
    expect(climb().cleanRun).toBe(0);
    until('breath');
    expect(drafts).toMatchObject([{ kind: 'mark', mark: 'clean', by: 'player' }]);
    expect(climb().cleanRun).toBe(1);
  });

  it('the last word given early is the one that counts, and undo takes it back', () => {
    const { press, until, drafts } = rehearse();
    press('start-pause');
    until('repetition');
    press('clean', 'tense');
    until('breath');
    expect(drafts).toMatchObject([{ mark: 'tense' }]);
    press('undo');
    until('wait');
    expect(drafts).toHaveLength(2);
  });

  it('a missed half way ends the repetition at the next bar line, with a bar to breathe', () => {
    const { press, until, bar, drafts } = rehearse({ exercise: { bars: 8 } });
    press('start-pause');
    until('repetition');
    bar();
    press('missed');
    expect(drafts).toMatchObject([{ mark: 'missed' }]);
    expect([bar()?.span.role, bar()?.span.role]).toEqual(['breath', 'count-in']);
  });

  it('one repetition takes one mark, however often the pedal is tapped', () => {
    const { press, until, drafts, answer } = rehearse();
    press('start-pause');
    until('breath');
    press('clean', 'clean', 'missed');
    expect(drafts).toHaveLength(1);
    expect(answer()).toMatch(/marked/);
  });

  it('without a mark it repeats at the same tempo where the exercise says so; a late mark still counts', () => {
    const { press, until, drafts, climb } = rehearse({ exercise: { noMark: 'repeat' } });
    press('start-pause');
    until('breath');
    const again = until('count-in');
    expect(again.tempo.bpm).toBe(climb().bpm);
    expect(drafts).toEqual([]);
    press('clean');
    expect(drafts).toHaveLength(1);
    until('repetition');
  });

  it('without a mark it counts as clean where the exercise says so, and the count-in is at the new tempo', () => {
    const { press, until, drafts, climb } = rehearse({ exercise: { noMark: 'clean' }, rule: { cleanUp: 1 } });
    press('start-pause');
    const first = until('count-in').tempo.bpm;
    until('breath');
    const second = until('count-in').tempo.bpm;
    expect(drafts).toMatchObject([{ mark: 'clean', by: 'rule', bpm: first, next: second }]);
    expect(second).toBeGreaterThan(first);
    expect(climb().bpm).toBe(second);
  });

  it('alternation goes slowly before each repetition at tempo, and only the latter is marked', () => {
    const { press, bar, drafts } = rehearse({
      rule: { order: 'alternate', slowShare: 0.5, start: 100 },
      exercise: { bars: 1 },
    });
    press('start-pause');
    const sounded = Array.from({ length: 5 }, () => bar()?.span);
    expect(sounded.map((span) => `${span?.role} ${span?.tempo.bpm}`)).toEqual([
      'count-in 50',
      'repetition 50',
      'count-in 100',
      'repetition 100',
      'breath 100',
    ]);
    press('clean');
    expect(drafts).toMatchObject([{ bpm: 100 }]);
  });
});

describe('keys in between', () => {
  it('a nudge starts at the next bar line with a count-in and drops the repetition under way', () => {
    const { press, until, bar, state, climb } = rehearse();
    press('start-pause');
    until('repetition');
    press('faster');
    const span = bar()?.span;
    expect(span?.role).toBe('count-in');
    expect(span?.tempo.bpm).toBe(climb().bpm);
    expect(state().due).toBeNull();
  });

  it('pausing after a repetition keeps its mark due; pausing within one drops it', () => {
    const { press, until, drafts } = rehearse();
    press('start-pause');
    until('breath');
    press('start-pause', 'clean');
    expect(drafts).toHaveLength(1);
    press('start-pause');
    until('repetition');
    press('start-pause', 'clean');
    expect(drafts).toHaveLength(1);
  });

  it('nothing counts that is not on disk', () => {
    const { press, until, state, climb } = rehearse({ diskFull: true, rule: { cleanUp: 1 } });
    press('start-pause');
    until('breath');
    const before = climb();
    press('clean');
    expect(climb()).toEqual(before);
    expect(state().due).not.toBeNull();
  });

  it('the drone goes on and off at any time', () => {
    const { press, commands } = rehearse();
    press('drone', 'start-pause', 'drone');
    expect(
      commands.map((command) => (command.ask === 'drone' ? (command.drone?.tonic ?? 'off') : command.ask)),
    ).toEqual([58, 'play', 'off']);
  });
});
