/** Bars of silence are counted from repetition to repetition: whoever wrote 'play 2, silent 2' hears just that. */
import { describe, expect, it } from 'vitest';
import { type Click, PLAIN_CLICK, type Span } from '../../src/music/sound/sound-commands.ts';
import { onsetsBetween, chainSpans } from '../../src/music/sound/timeline.ts';
import { EXACT_ZERO, seconds } from '../../src/music/time/exact-seconds.ts';
import { COMMON_TIME, quarterTempo } from '../../src/music/time/meter.ts';
import { cycle } from '../../src/practice/line/repetition-cycle.ts';
import { rehearse } from '../practice/rehearsal.ts';

type SilentBars = NonNullable<Click['silentBars']>;

/** The spans of one repetition, with what was played before it. */
function spansOf(bars: number, silentBars: SilentBars, repetitionsPlayed: number): readonly Span[] {
  const { state } = rehearse({ exercise: { bars, click: { ...PLAIN_CLICK, silentBars } } });
  return cycle({ ...state(), barsBegun: repetitionsPlayed * bars }, 240).spans;
}

/** Bars of the repetitions in which anything is struck, numbered on from 1; a bar at 240 lasts a second. */
function struck(repetitions: readonly Span[]): readonly number[] {
  const chain = chainSpans(repetitions, EXACT_ZERO);
  return [...new Set([...onsetsBetween(chain, 0, 100)].map(({ at }) => Math.floor(seconds(at)) + 1))];
}

/** So many repetitions of so many bars, one after the other, the bars between them left out. */
const struckOver = (repetitions: number, bars: number, silentBars: SilentBars): readonly number[] =>
  struck(
    Array.from({ length: repetitions }, (_, played) =>
      spansOf(bars, silentBars, played).filter(({ role }) => role === 'repetition'),
    ).flat(),
  );

describe('bars of silence', () => {
  it('come in every second repetition of two bars where two are played and two are silent', () => {
    expect(struckOver(4, 2, { play: 2, silent: 2 })).toEqual([1, 2, 5, 6]);
  });

  it.each([
    [4, 4, { play: 2, silent: 2 }, [1, 2, 5, 6, 9, 10, 13, 14]],
    [4, 3, { play: 2, silent: 2 }, [1, 2, 5, 6, 9, 10]],
    [5, 1, { play: 3, silent: 1 }, [1, 2, 3, 5]],
    [3, 2, { play: 1, silent: 4 }, [1, 6]],
  ])('go on counting over %i repetitions of %i bars', (repetitions, bars, silentBars, expected) => {
    expect(struckOver(repetitions, bars, silentBars)).toEqual(expected);
  });

  it('count the slow repetition of an alternation too, and leave counting in and breathing struck', () => {
    const { state } = rehearse({
      exercise: { bars: 2, click: { ...PLAIN_CLICK, silentBars: { play: 2, silent: 2 } } },
      rule: { order: 'alternate' },
    });
    const silentIn = cycle(state(), 240).spans.map(({ role, click }) => [role, click.silentBars?.barsBefore ?? null]);
    expect(silentIn).toEqual([
      ['count-in', null],
      ['repetition', 0],
      ['count-in', null],
      ['repetition', 2],
      ['breath', null],
      ['wait', null],
    ]);
    expect(cycle({ ...state(), barsBegun: 6 }, 240).spans[1]?.click.silentBars).toEqual({
      play: 2,
      silent: 2,
      barsBefore: 6,
    });
  });

  it('begin with the span where nothing else is said', () => {
    const span: Span = {
      id: 'free',
      role: 'free',
      tempo: quarterTempo(240),
      meter: COMMON_TIME,
      bars: 5,
      click: { ...PLAIN_CLICK, silentBars: { play: 1, silent: 1 } },
      gain: 1,
      model: [],
    };
    expect(struck([span])).toEqual([1, 3, 5]);
  });
});
