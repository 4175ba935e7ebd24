/** What the click strikes in one bar: where, in which layer, how loud. Where it falls: common practice, no source. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSilentBar, isSilentBeat, strokesOfBar } from '../../src/music/sound/click-strokes.ts';
import { type Click, PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import { COMMON_TIME, type Meter, beatsOfBar, parseMeter } from '../../src/music/time/meter.ts';
import { QUARTER, type Ratio, add, compare, format, multiply, ratio } from '../../src/music/time/ratio.ts';

const meter = (text: string): Meter => {
  const read = parseMeter(text);
  if (typeof read === 'string') throw new Error(read);
  return read;
};

const strokes = (click: Partial<Click>, bar = COMMON_TIME, beat: Ratio = QUARTER) =>
  strokesOfBar(bar, { bpm: 60, beat }, { ...PLAIN_CLICK, ...click });

const SIGNS = { bar: '!', group: '*', beat: '', subdivision: '.' };
/** '0! 1/4 ...': where each stroke falls, and its layer as a sign. */
const struck = (click: Partial<Click>, bar?: Meter, beat?: Ratio): string =>
  strokes(click, bar, beat)
    .map(({ at, layer }) => `${format(at)}${SIGNS[layer]}`)
    .join(' ');

describe('one bar of the click', () => {
  it('strikes the bar, its groups and its beats, each at its own level', () => {
    expect(struck({})).toBe('0! 1/4 1/2 3/4');
    expect(struck({}, meter('7/8'), ratio(1, 8))).toBe('0! 1/8 1/4* 3/8 1/2* 5/8 3/4');
    expect(struck({}, meter('7/8'))).toBe('0! 1/4* 1/2*');
    const levels = { bar: 0.9, group: 0.7, beat: 0.5, subdivision: 0.2 };
    const gains = (click: Partial<Click>) =>
      strokes({ levels, ...click }, meter('4/8 (2+2)'), ratio(1, 8)).map((one) => one.gain);
    expect(gains({})).toEqual([0.9, 0.5, 0.7, 0.5]);
    expect(gains({ subdivision: 2 })).toEqual([0.9, 0.2, 0.5, 0.2, 0.7, 0.2, 0.5, 0.2]);
    expect(PLAIN_CLICK.levels).toEqual({ bar: 1, group: 0.75, beat: 0.6, subdivision: 0.3 });
  });

  it('is plain where nothing is said: every beat, on wood, always on', () => {
    expect(PLAIN_CLICK).toMatchObject({ on: 'beats', subdivision: 1, feel: 'even', voice: 'wood' });
    expect([PLAIN_CLICK.silentBars, PLAIN_CLICK.silentChance]).toEqual([null, null]);
  });

  it('leaves layers at level 0 out', () => {
    const levels = { ...PLAIN_CLICK.levels, beat: 0 };
    expect(struck({ levels })).toBe('0!');
    expect(struck({ levels: { ...levels, bar: 0, group: 0 } })).toBe('');
  });

  it.each([
    ['two even', { subdivision: 2 }, '0! 1/8. 1/4 3/8. 1/2 5/8. 3/4 7/8.'],
    ['two swung', { subdivision: 2, feel: 'swung' }, '0! 1/6. 1/4 5/12. 1/2 2/3. 3/4 11/12.'],
    ['two dotted', { subdivision: 2, feel: 'dotted' }, '0! 3/16. 1/4 7/16. 1/2 11/16. 3/4 15/16.'],
    ['three, which nothing swings', { subdivision: 3, feel: 'swung', on: [1] }, '0! 1/12. 1/6.'],
    ['four dotted', { subdivision: 4, feel: 'dotted', on: [1] }, '0! 3/32. 1/8. 7/32.'],
    ['four swung', { subdivision: 4, feel: 'swung', on: [1] }, '0! 1/12. 1/8. 5/24.'],
    ['six swung', { subdivision: 6, feel: 'swung', on: [1] }, '0! 1/18. 1/12. 5/36. 1/6. 2/9.'],
    ['five', { subdivision: 5, on: [2] }, '1/4 3/10. 7/20. 2/5. 9/20.'],
  ] as const)('divides beats into %s', (_, click, expected) => {
    expect(struck(click)).toBe(expected);
  });

  it("keeps the tempo's own subdivisions in longer and in shorter beats", () => {
    // 7/8 in quarters: the last group is a quarter and a half, and has three eighths.
    expect(struck({ subdivision: 2 }, meter('7/8'))).toBe('0! 1/8. 1/4* 3/8. 1/2* 5/8. 3/4.');
    // 2+3 sixteenths in eighths: a group of three is an eighth and a half.
    expect(struck({ subdivision: 2, on: [2] }, meter('2+3/16'), ratio(1, 8))).toBe('1/8* 3/16. 1/4.');
    expect(struck({ subdivision: 3, on: [2] }, meter('2+3/16'), ratio(1, 8))).toBe('1/8* 1/6. 5/24. 1/4. 7/24.');
    // A bar of one group that the beat does not fill is counted in the meter's unit, with one part of the beat in each.
    expect(struck({ subdivision: 2 }, { count: 3, unit: 8, groups: [3] })).toBe('0! 1/8 1/4');
  });

  it('strikes first beats, chosen beats or off-beats, and subdivisions only where a beat is struck', () => {
    expect(struck({ on: 'first', subdivision: 2 })).toBe('0! 1/8.');
    expect(struck({ on: [2, 4] })).toBe('1/4 3/4');
    expect(struck({ on: [4, 1], subdivision: 2 })).toBe('0! 1/8. 3/4 7/8.');
    expect(struck({ on: 'off-beats' })).toBe('1/8 3/8 5/8 7/8');
    expect(struck({ on: 'off-beats', feel: 'swung' })).toBe('1/6 5/12 2/3 11/12');
    expect(struck({ on: 'off-beats', feel: 'dotted' })).toBe('3/16 7/16 11/16 15/16');
  });

  it('has the off-beat of a dotted beat on its last third', () => {
    expect(struck({ on: 'off-beats' }, meter('6/8'), ratio(3, 8))).toBe('1/4 5/8');
    expect(struck({ on: 'off-beats', feel: 'dotted' }, meter('6/8'), ratio(3, 8))).toBe('1/4 5/8');
  });

  it('never strikes an off-beat twice, and the subdivisions about it once', () => {
    expect(struck({ on: 'off-beats', subdivision: 2 })).toBe('1/8 3/8 5/8 7/8');
    expect(struck({ on: 'off-beats', subdivision: 4 })).toBe(
      '1/16. 1/8 3/16. 5/16. 3/8 7/16. 9/16. 5/8 11/16. 13/16. 7/8 15/16.',
    );
    expect(struck({ on: 'off-beats', subdivision: 3 }, meter('6/8'), ratio(3, 8))).toBe('1/8. 1/4 1/2. 5/8');
  });

  it('says of each stroke which beat it belongs to', () => {
    expect(strokes({ subdivision: 2 }, meter('2/4')).map((one) => one.beat)).toEqual([0, 0, 1, 1]);
    expect(strokes({ on: 'off-beats' }, meter('2/4')).map((one) => one.beat)).toEqual([0, 1]);
  });

  it('is in order, inside the bar, and as many strokes as beats times parts where the beats are equal', () => {
    const meters = fc.constantFrom('4/4', '3/4', '6/8', '7/8', '5/8 (3+2)', '9/8', '2/2').map(meter);
    const feels = fc.constantFrom('even', 'swung', 'dotted');
    fc.assert(
      fc.property(meters, fc.integer({ min: 1, max: 8 }), feels, (bar, subdivision, feel) => {
        const unit = ratio(1, bar.unit);
        const all = strokes({ subdivision, feel: feel as Click['feel'] }, bar, unit);
        expect(all).toHaveLength(bar.count * subdivision);
        all.forEach((one, i) => {
          const beat = beatsOfBar(bar, unit)[one.beat];
          expect(beat && compare(one.at, beat.at) >= 0 && compare(one.at, add(beat.at, beat.length)) < 0).toBe(true);
          const before = all[i - 1];
          if (before) expect(compare(before.at, one.at)).toBeLessThan(0);
          if (feel === 'even') expect(one.at).toEqual(multiply(unit, ratio(i, subdivision)));
        });
      }),
    );
  });
});

const heardBars = (silentBars: Click['silentBars']) =>
  Array.from({ length: 8 }, (_, bar) => (isSilentBar({ ...PLAIN_CLICK, silentBars }, bar) ? '-' : 'x')).join('');

describe('bars of silence', () => {
  it('follow so many that are played', () => {
    expect(heardBars(null)).toBe('xxxxxxxx');
    expect(heardBars({ play: 2, silent: 2 })).toBe('xx--xx--');
    expect(heardBars({ play: 3, silent: 1 })).toBe('xxx-xxx-');
    expect(heardBars({ play: 1, silent: 2, barsBefore: 1 })).toBe('--x--x--');
    expect(heardBars({ play: 2, silent: 2, barsBefore: 7 })).toBe('-xx--xx-');
  });
});

const together = (a: readonly boolean[], b: readonly boolean[]): number =>
  a.filter((one, i) => one && b[i]).length / a.length;

const share = (of: readonly boolean[]): number => of.filter(Boolean).length / of.length;

const silent = (p: number, seed: number, bars: number, beats = 4): readonly boolean[] =>
  Array.from({ length: bars * beats }, (_, i) =>
    isSilentBeat({ ...PLAIN_CLICK, silentChance: { p, seed } }, Math.floor(i / beats), i % beats),
  );

describe('beats left out by chance', () => {
  it('are none without a chance, none at 0 and all at 1', () => {
    expect(isSilentBeat(PLAIN_CLICK, 0, 0)).toBe(false);
    expect(share(silent(0, 1, 500))).toBe(0);
    expect(share(silent(1, 1, 500))).toBe(1);
  });

  it('are about as many as asked for, on every beat of the bar and for every seed', () => {
    // Four standard errors of a share of 0.3: over 2000 beats 0.041, over 500 seeds 0.082.
    for (const beat of [0, 1, 2, 3]) {
      const column = silent(0.3, 5, 2000).filter((_, i) => i % 4 === beat);
      expect(Math.abs(share(column) - 0.3)).toBeLessThan(0.041);
    }
    const bySeed = Array.from({ length: 500 }, (_, seed) => silent(0.3, seed, 1, 1)[0] ?? false);
    expect(Math.abs(share(bySeed) - 0.3)).toBeLessThan(0.082);
  });

  it('do not go together from beat to beat, bar to bar or seed to seed', () => {
    // Two independent ones at one half are together in a quarter; four standard errors over 4000 are 0.027.
    const drawn = silent(0.5, 9, 1001);
    expect(Math.abs(together(drawn.slice(0, 4000), drawn.slice(1)) - 0.25)).toBeLessThan(0.027);
    expect(Math.abs(together(drawn.slice(0, 4000), drawn.slice(4)) - 0.25)).toBeLessThan(0.027);
    expect(Math.abs(together(silent(0.5, 10, 1000), silent(0.5, 11, 1000)) - 0.25)).toBeLessThan(0.027);
  });
});
