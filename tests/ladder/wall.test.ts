import { describe, expect, it } from 'vitest';
import { dateOf } from '../../src/common/days.ts';
import { beliefFrom, markingOf, speedEstimate, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungFrom } from '../../src/ladder/rule/rungs.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { type Wall, wallOf } from '../../src/ladder/wall/wall.ts';
import { historyOf, type Played } from './histories.ts';
import { CLEAR, toldOfWalls } from './wall-players.ts';
import { BELOW, FALL, GOOD, LAST, LINE, REST, RUNGS, UNDER, WALL, at } from './wall-days.ts';

const RULE: LadderRule = { ...DEFAULT_RULE, missedDown: 2, target: 160 };
const MARKING = markingOf(0.3);
const PRIOR = weakPrior({ start: 90 });

type Days = readonly (readonly Played[])[];
type DayOf = (weeksAgo: number, weekday: number) => readonly Played[];

const wallIn = (history: LineHistory, day = LAST, rule = RULE): Wall | null =>
  wallOf({ history, rule, rungs: RUNGS, marking: MARKING, prior: PRIOR, day });

const wallAfter = (days: Days, day = LAST, rule = RULE): Wall | null =>
  wallIn({ ...historyOf(LINE, days, LAST), best: null }, day, rule);

/** Monday to Friday of so many weeks, the last of them ending the day before `LAST`, a Saturday. */
const weeks = (dayOf: DayOf, count = 9): Days =>
  Array.from({ length: 7 * count - 1 }, (_, i) => {
    const ago = 7 * count - 2 - i;
    const weekday = i % 7;
    return weekday < 5 ? dayOf(Math.floor((ago + 1) / 7), weekday) : REST;
  });

const lifted = (marks: readonly Played[], rungs: number): readonly Played[] =>
  marks.map(({ bpm, mark }) => ({ mark, bpm: rungFrom(RUNGS, bpm, rungs) }));

/** The same marks one rung of 3 % lower for every two weeks back: falls every day, and a gain of 1.5 % a week. */
const rising: DayOf = (ago) => lifted(FALL, -Math.ceil(ago / 2));
const still: DayOf = () => FALL;
/** As much at the same tempos without falling from one. */
const plateau = [...at(UNDER, 'ccctcc'), ...at(BELOW, 'cctcmc'), ...at(WALL, 'tcct')];

describe('a wall', () => {
  it('is a rung fallen from on most days while weeks of practice bring nothing', () => {
    expect(wallAfter(weeks(still))).toEqual({
      bpm: WALL,
      seen: 'falls',
      sentence:
        `${WALL} is a wall: you fell from there on 7 of the last 7 days of practice, ` +
        'and weeks of practice have not made this line faster.',
    });
  });

  it('is not falls alone: under any rule a player falls at the edge every day', () => {
    expect(wallAfter(weeks(rising))).toBeNull();
    expect(wallAfter([GOOD, FALL, FALL, GOOD, REST, FALL])).toBeNull();
    expect(wallAfter([FALL, FALL, FALL, REST, FALL, FALL, FALL])).toBeNull();
  });

  it('is not one bad day, however bad, nor nothing at all', () => {
    const awful = [...FALL, ...at(WALL, 'mm'), ...at(BELOW, 'mm'), ...at(WALL, 'mmmmmm')];
    expect(wallAfter([GOOD, GOOD, GOOD, GOOD, awful])).toBeNull();
    expect(wallAfter([awful])).toBeNull();
    expect(wallAfter([])).toBeNull();
  });

  it('is near the estimate where nothing was fallen from', () => {
    const days = weeks(() => plateau);
    const { tallies } = historyOf(LINE, days, LAST);
    const now = speedEstimate(beliefFrom(MARKING, tallies), PRIOR, LAST).bpm;
    const bpm = rungFrom(RUNGS, now, 1);
    expect(Math.abs(nearestRung(RUNGS, bpm) - nearestRung(RUNGS, WALL))).toBeLessThanOrEqual(4);
    expect(wallAfter(days)).toEqual({
      bpm,
      seen: 'flat',
      sentence: `A wall near ${bpm}: weeks of practice have not made this line faster.`,
    });
  });

  it('needs two days of practice in each of three weeks', () => {
    const onDays =
      (...kept: readonly number[]): DayOf =>
      (ago, weekday) =>
        ago === 1 && !kept.includes(weekday) ? REST : FALL;
    expect(wallAfter(weeks(onDays(0, 4)))).not.toBeNull();
    expect(wallAfter(weeks(onDays(4)))).toBeNull();
    const third: DayOf = (ago, weekday) => (ago === 3 && weekday > 0 ? REST : FALL);
    expect(wallAfter(weeks(third))).toBeNull();
    const fourth: DayOf = (ago) => (ago === 4 ? REST : FALL);
    expect(wallAfter(weeks(fourth))).not.toBeNull();
  });

  it('is judged by whole weeks, and said for a week', () => {
    // The last week ends on the Sunday after `LAST`: until then the six before it count.
    const days = weeks(still);
    const more: DayOf = (ago) => lifted(FALL, ago === 0 ? 6 : 0);
    expect(wallAfter(weeks(more), LAST + 1)).not.toBeNull();
    expect(wallAfter(days, LAST + 2)).not.toBeNull();
    expect(wallAfter(weeks(rising), LAST + 2)).toBeNull();
    // What is still to come is not known.
    expect(wallAfter(days, LAST - 7 * 8)).toBeNull();
  });

  it('is gone when the line was left alone for more than three weeks', () => {
    expect(wallAfter(weeks(still), LAST - 1 + 7)).not.toBeNull();
    expect(wallAfter(weeks(still), LAST - 1 + 22)).toBeNull();
  });

  it('is none at the target', () => {
    const now = speedEstimate(beliefFrom(MARKING, historyOf(LINE, weeks(still), LAST).tallies), PRIOR, LAST).bpm;
    expect(wallAfter(weeks(still), LAST, { ...RULE, target: now * 1.01 })).not.toBeNull();
    expect(wallAfter(weeks(still), LAST, { ...RULE, target: now * 0.99 })).toBeNull();
  });
});

/** A day of practice that ended on a rung, by its number. */
const fallFrom = (rung: number): readonly Played[] => [...at(RUNGS[rung - 1]!, 'ccc'), ...at(RUNGS[rung]!, 'mm')];

/** Weeks of standing still, then days that ended on these rungs. */
const namedBy = (...last: readonly (readonly Played[])[]): Wall | null => {
  const before = weeks(() => plateau, 8);
  const first = last.slice(0, -2).flatMap((day) => [day]);
  return wallAfter([
    ...before,
    REST,
    ...first,
    ...Array.from({ length: 5 - first.length }, () => REST),
    ...last.slice(-2),
  ]);
};

const rungs = (...numbers: readonly number[]): readonly (readonly Played[])[] => numbers.map(fallFrom);

describe('falls near each other', () => {
  it.each([
    ['the commonest', [32, 32, 31], 32],
    ['the commonest, seen first or last', [31, 32, 32], 32],
    ['the commonest, though a lower one is the newest', [32, 31, 31], 31],
    ['of two as common the lower, seen first', [31, 31, 32, 32], 31],
    ['of two as common the lower, seen last', [32, 32, 31, 31], 31],
    ['the lowest of three, where the newest is between', [31, 33, 32], 31],
  ] as const)('name the wall: %s, %s', (_, numbers, rung) => {
    expect(namedBy(...rungs(...numbers))).toMatchObject({ bpm: RUNGS[rung], seen: 'falls' });
  });

  it('count within one rung of the newest, and no further; two are too few', () => {
    expect(namedBy(...rungs(32, 28, 32, 32))?.sentence).toContain('on 3 of the last 7 days');
    expect(namedBy(...rungs(31, 32, 33))?.seen).toBe('flat');
    expect(namedBy(...rungs(32, 32))?.seen).toBe('flat');
  });

  it('are not where half of the repetitions are clean, nor missed too seldom', () => {
    const [half, less, once] = [at(WALL, 'ccmm'), at(WALL, 'ccmmt'), at(WALL, 'cttm')];
    expect(namedBy(half, half, half)?.seen).toBe('flat');
    expect(namedBy(less, less, less)).toMatchObject({ bpm: WALL, seen: 'falls' });
    expect(namedBy(once, once, once)?.seen).toBe('flat');
  });

  it('are where the day was fastest, whatever came after', () => {
    const early = [...at(WALL, 'cmm'), ...at(BELOW, 'mm')];
    expect(namedBy(early, early, early)).toMatchObject({ bpm: WALL, seen: 'falls' });
  });
});

describe('a wall that has been held', () => {
  const falls = { ...historyOf(LINE, weeks(still), LAST), best: null };
  /** The Sunday on which progress was judged. */
  const JUDGED = LAST - 6;

  it.each<[string, number, number, boolean]>([
    ['when it was judged still stands', WALL, JUDGED, true],
    ['since then is gone', WALL, JUDGED + 1, false],
    ['above itself since then is gone', RUNGS[33]!, JUDGED + 1, false],
    ['below itself only still stands', BELOW, JUDGED + 1, true],
  ])('%s', (_, bpm, day, stands) => {
    expect(wallIn({ ...falls, best: { bpm, day: dateOf(day) } }) !== null).toBe(stands);
  });
});

describe('of simulated players (a smaller sample of `npm run compare:walls`)', () => {
  const WIDE = { ...DEFAULT_RULE, floor: 20, top: 480, target: 400, cleanUp: 3 };

  it.each([1, 2])('few weeks of those who gain are told, most of those who stopped: 3 up, %d down', (missedDown) => {
    const { gaining, stoppedBy, boundBy } = toldOfWalls(24, CLEAR, { ...WIDE, missedDown }, 9000);
    // 5 % is aimed at; the weeks of a player hang together, so 24 players are some 60 chances: twice the error of that.
    expect(gaining).toBeLessThan(0.05 + 2 * Math.sqrt((0.05 * 0.95) / 60));
    // By three weeks two thirds are told or so, who knew everything would tell nearly all: a fifth more for luck.
    expect(stoppedBy[2]).toBeGreaterThan(0.5);
    expect(boundBy[2]).toBeGreaterThan(stoppedBy[2]! - 0.2);
    expect(stoppedBy.at(-1)).toBeGreaterThan(0.8 - 2 * Math.sqrt((0.8 * 0.2) / 24));
  });
});
