import { describe, expect, it } from 'vitest';
import { dateOf } from '../../src/common/days.ts';
import { NO_BELIEF, afterTallies, markingOf, speedEstimate, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungFrom } from '../../src/ladder/rule/rungs.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { type Wall, wallOf } from '../../src/ladder/wall/wall.ts';
import { historyOf, type Played } from './histories.ts';
import { BELOW, FALL, GOOD, LAST, LINE, REST, RUNGS, UNDER, WALL, at } from './wall-days.ts';

const RULE: LadderRule = { ...DEFAULT_RULE, missedDown: 2, target: 160 };
const MARKING = markingOf(0.3);
const PRIOR = weakPrior({ start: 90 });

/** Two days in each of five weeks, no more: the last of the week, and the fourth. */
const TWICE = [0, 3, 7, 10, 14, 17, 21, 24, 28, 31];
/** What was known before that: enough not to move any more. */
const LONG_AGO = [40, 41, 42, 43, 44, 45, 46, 47, 48, 49];

type Days = readonly (readonly Played[])[];

const wallIn = (history: LineHistory, day = LAST, rule = RULE): Wall | null =>
  wallOf({ history, rule, rungs: RUNGS, marking: MARKING, prior: PRIOR, day });

const wallAfter = (days: Days, day = LAST): Wall | null => wallIn(historyOf(LINE, days, LAST), day);

describe('a wall', () => {
  it('is a rung fallen from on three days', () => {
    expect(wallAfter([GOOD, FALL, FALL, GOOD, REST, FALL])).toMatchObject({ bpm: WALL, seen: 'falls' });
    expect(wallAfter([GOOD, FALL, FALL, GOOD, REST, FALL])?.sentence).toBe(
      `${WALL} is a wall: you fell from there on 3 of the last 5 days of practice.`,
    );
    expect(wallAfter([FALL, REST, FALL, REST, FALL])?.sentence).toContain('on 3 of the last 3 days');
  });

  it('is not one bad day, however bad', () => {
    const awful = [...FALL, ...at(WALL, 'mm'), ...at(BELOW, 'mm'), ...at(WALL, 'mmmmmm')];
    expect(wallAfter([GOOD, GOOD, GOOD, GOOD, awful])).toBeNull();
    expect(wallAfter([awful])).toBeNull();
    expect(wallAfter([])).toBeNull();
  });

  it('is not three falls in three days running, nor two', () => {
    expect(wallAfter([GOOD, FALL, FALL, FALL])).toBeNull();
    expect(wallAfter([FALL, REST, REST, REST, REST, FALL])).toBeNull();
  });

  it('is where the day was fastest, whatever came after', () => {
    const early = [...at(WALL, 'cmm'), ...at(BELOW, 'mm')];
    expect(wallAfter([early, REST, early, REST, early])?.bpm).toBe(WALL);
  });

  it('is not where half of the repetitions are clean', () => {
    const [half, less] = [at(WALL, 'ccmm'), at(WALL, 'ccmmt')];
    expect(wallAfter([half, REST, half, REST, half])).toBeNull();
    expect(wallAfter([less, REST, less, REST, less])?.bpm).toBe(WALL);
    const clean = at(WALL, 'ccccmm');
    expect(wallAfter([clean, REST, clean, REST, clean])).toBeNull();
  });

  it('is seen in the last seven days of practice only', () => {
    const falls = [FALL, REST, FALL, REST, FALL];
    expect(wallAfter([...falls, GOOD, GOOD, GOOD, GOOD])?.sentence).toContain('on 3 of the last 7 days');
    expect(wallAfter([...falls, GOOD, GOOD, GOOD, GOOD, GOOD])).toBeNull();
    expect(wallAfter([GOOD, GOOD, ...falls, GOOD, GOOD, GOOD])?.sentence).toContain('on 3 of the last 7 days');
  });

  it('counts what was played up to the day that is asked about', () => {
    const falls: Days = [FALL, REST, FALL, REST, FALL];
    expect(wallAfter(falls, LAST)).not.toBeNull();
    expect(wallAfter(falls, LAST - 1)).toBeNull();
  });

  it('is gone when the line was left alone for more than three weeks', () => {
    expect(wallAfter([FALL, FALL, REST, REST, FALL], LAST + 21)).not.toBeNull();
    expect(wallAfter([FALL, FALL, REST, REST, FALL], LAST + 22)).toBeNull();
  });
});

/** A day of practice that ended on a rung, by its number. */
const fallFrom = (rung: number): readonly Played[] => [...at(RUNGS[rung - 1]!, 'ccc'), ...at(RUNGS[rung]!, 'mm')];

/** Every other day, so that they are far enough apart. */
const wallOfFalls = (...rungs: readonly number[]): Wall | null =>
  wallIn({
    ...historyOf(
      LINE,
      rungs.flatMap((rung) => [REST, fallFrom(rung)]),
      LAST,
    ),
    best: null,
  });

describe('falls from rungs near each other', () => {
  it.each([
    ['the commonest', [32, 32, 31], 32],
    ['the commonest, seen first or last', [31, 32, 32], 32],
    ['the commonest, though a lower one is the newest', [32, 31, 31], 31],
    ['of two as common the lower, seen first', [31, 31, 32, 32], 31],
    ['of two as common the lower, seen last', [32, 32, 31, 31], 31],
    ['the lowest of three, where the newest is between', [31, 33, 32], 31],
  ] as const)('have the wall at %s: %s', (_, rungs, rung) => {
    expect(wallOfFalls(...rungs)?.bpm).toBe(RUNGS[rung]);
  });

  it('count together within one rung of the newest, and no further', () => {
    expect(wallOfFalls(32, 28, 32, 32)?.sentence).toContain('on 3 of the last 4 days');
    expect(wallOfFalls(31, 32, 33)).toBeNull();
    expect(wallOfFalls(26, 29, 32)).toBeNull();
  });
});

describe('a wall that has been held', () => {
  const falls = historyOf(LINE, [FALL, FALL, REST, REST, FALL], LAST);
  const FIRST = LAST - 4;

  it.each<[string, number, number, boolean]>([
    ['on the day of the first fall still stands', WALL, FIRST, true],
    ['before the first fall still stands', WALL, FIRST - 9, true],
    ['since then is gone', WALL, FIRST + 1, false],
    ['above itself since then is gone', RUNGS[33]!, FIRST + 1, false],
    ['below itself only still stands', BELOW, FIRST + 1, true],
  ])('%s', (_, bpm, day, stands) => {
    expect(wallIn({ ...falls, best: { bpm, day: dateOf(day) } }) !== null).toBe(stands);
  });

  it('or never, stands', () => {
    expect(wallIn({ ...falls, best: null })?.bpm).toBe(WALL);
  });

  it('is gone in practice too', () => {
    const held = [...at(BELOW, 'ccc'), ...at(WALL, 'ccc'), ...at(RUNGS[33]!, 'tm')];
    expect(wallAfter([FALL, FALL, REST, REST, FALL, held])).toBeNull();
  });
});

// A week ends with its last day and holds six more.
const moved = (from: number, to: number): number[] => TWICE.map((ago) => (ago === from ? to : ago));

const plateau = [...at(UNDER, 'ccctcc'), ...at(BELOW, 'cctcmc'), ...at(WALL, 'tcmt')];

/** Marks of the plateau, so many rungs lower that many days ago: three per cent a week. */
const rising = (ago: number): readonly Played[] =>
  plateau.map(({ bpm, mark }) => ({ mark, bpm: rungFrom(RUNGS, bpm, -Math.ceil(ago / 7)) }));

/** Practice so many days before the last. */
const practised = (marks: (ago: number) => readonly Played[], ...ago: readonly number[]): LineHistory => {
  const first = Math.max(...ago);
  const days = Array.from({ length: first + 1 }, (_, i) => (ago.includes(first - i) ? marks(first - i) : REST));
  return { ...historyOf(LINE, days, LAST), best: null };
};

const estimate = (history: LineHistory, until: number): number =>
  speedEstimate(
    afterTallies(
      MARKING,
      NO_BELIEF,
      history.tallies.filter(({ day }) => day <= dateOf(until)),
    ),
    PRIOR,
    until,
  ).bpm;

describe('an estimate that weeks of practice do not move', () => {
  const flat = practised(() => plateau, ...TWICE, ...LONG_AGO);
  it('is a wall at the next rung, said so', () => {
    const bpm = rungFrom(RUNGS, estimate(flat, LAST), 1);
    expect(Math.abs(nearestRung(RUNGS, bpm) - nearestRung(RUNGS, WALL))).toBeLessThanOrEqual(3);
    expect(wallIn(flat)).toEqual({
      bpm,
      seen: 'flat',
      sentence: `A wall near ${bpm}: 4 weeks of practice have not made this line faster.`,
    });
  });

  it('needs two days of practice in each of five weeks', () => {
    TWICE.forEach((left) => {
      const fewer = TWICE.filter((ago) => ago !== left);
      expect(wallIn(practised(() => plateau, ...fewer, ...LONG_AGO)), `without ${left} days ago`).toBeNull();
    });
    expect(wallIn(practised(() => plateau, ...moved(3, 6), ...LONG_AGO))).not.toBeNull();
    expect(wallIn(practised(() => plateau, ...moved(3, 8), ...LONG_AGO))).toBeNull();
    expect(wallIn(practised(() => plateau, ...moved(3, 7), ...LONG_AGO))).toBeNull();
    expect(wallIn(practised(() => plateau, ...moved(31, 34), ...LONG_AGO))).not.toBeNull();
    expect(wallIn(practised(() => plateau, ...moved(31, 35), ...LONG_AGO))).toBeNull();
  });

  it('is none where the estimate rose by two per cent or more', () => {
    const history = practised(rising, ...TWICE, ...LONG_AGO);
    expect(estimate(history, LAST) / estimate(history, LAST - 28)).toBeGreaterThan(1.02);
    expect(wallIn(history)).toBeNull();
  });

  it('is none where too little is known to say so', () => {
    expect(wallIn(practised(() => at(UNDER, 't'), ...TWICE))).toBeNull();
  });

  it('is none at the target', () => {
    const now = estimate(flat, LAST);
    expect(wallIn(flat, LAST, { ...RULE, target: now * 1.001 })).not.toBeNull();
    expect(wallIn(flat, LAST, { ...RULE, target: now })).toBeNull();
    expect(wallIn(flat, LAST, { ...RULE, target: now * 0.9 })).toBeNull();
  });

  it('says nothing about two weeks', () => {
    const weeks = Array.from({ length: 61 }, (_, i) => (i % 3 === 0 ? plateau : REST));
    expect(wallAfter(weeks)).toMatchObject({ seen: 'flat' });
    expect(wallAfter(weeks.slice(-14))).toBeNull();
  });
});
