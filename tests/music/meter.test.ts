import { describe, expect, it } from 'vitest';
import { clickProblem, spanProblem } from '../../src/music/sound/click-strokes.ts';
import { COMMON_TIME, meterProblem, parseMeter, quarterTempo, tempoProblem } from '../../src/music/time/meter.ts';
import { PLAIN_CLICK, type Span } from '../../src/music/sound/sound-commands.ts';

describe('reading a meter', () => {
  it('takes the ways in which musicians write it', () => {
    expect(parseMeter('4/4')).toEqual(COMMON_TIME);
    expect(parseMeter('7/8 as 2+2+3')).toEqual({ count: 7, unit: 8, groups: [2, 2, 3] });
    expect(parseMeter('3+2+2/8')).toEqual({ count: 7, unit: 8, groups: [3, 2, 2] });
  });

  it(
    'groups as usual where nothing is said: compound in threes, asymmetric with the three last (common ' +
      'practice, no source)',
    () => {
      expect(parseMeter('12/8')).toMatchObject({ groups: [3, 3, 3, 3] });
      expect(parseMeter('7/8')).toMatchObject({ groups: [2, 2, 3] });
      expect(parseMeter('5/4')).toMatchObject({ groups: [2, 3] });
      expect(parseMeter('3/8')).toMatchObject({ groups: [3] });
      expect(parseMeter('3/4')).toMatchObject({ groups: [3] });
    },
  );

  it.each(['0/4', '7/8 as 2+2+2', '4/5', '4', '4/4 as', '99/4', '-3/4', '4/4 as 0+4'])(
    'says in one sentence what is wrong with %s',
    (text) => {
      expect(parseMeter(text)).toMatch(/^Meter .*\.$/);
    },
  );

  it('names the sum that does not add up', () => {
    expect(meterProblem({ count: 7, unit: 8, groups: [2, 2, 2] })).toBe(
      'Meter 7/8: the groups 2+2+2 add up to 6, not 7.',
    );
  });
});

describe('what cannot be played', () => {
  it('is a tempo outside 10 to 400', () => {
    expect(tempoProblem(10)).toBeNull();
    expect(tempoProblem(400)).toBeNull();
    for (const bpm of [401, 9.99, 0, NaN, Infinity]) expect(tempoProblem(bpm)).toContain('from 10 to 400');
  });

  it('is a click that is none', () => {
    const wrong = [
      { subdivision: 9 },
      { subdivision: 0 },
      { on: [5] },
      { on: [] },
      { silentBars: { play: 0, silent: 1 } },
      { silentChance: { p: 2, seed: 1 } },
    ];
    for (const part of wrong)
      expect(clickProblem({ ...PLAIN_CLICK, ...part }, COMMON_TIME, quarterTempo(60))).toMatch(/^Click: .*\.$/);
    expect(clickProblem(PLAIN_CLICK, COMMON_TIME, quarterTempo(60))).toBeNull();
  });

  it('is a span of no bars', () => {
    const span: Span = {
      id: 'x',
      role: 'free',
      tempo: quarterTempo(60),
      meter: COMMON_TIME,
      bars: 0,
      click: PLAIN_CLICK,
      gain: 1,
      model: [],
    };
    expect(spanProblem(span)).toMatch(/^Bars: /);
    expect(spanProblem({ ...span, bars: 4 })).toBeNull();
  });
});
