import { KEPT } from '../diary/kept.ts';
import { BREAK, type BlockEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';
import { CAUTION } from '../../src/plan/ease/caution.ts';
import { dayPlus } from '../../src/common/days.ts';
import { minutesByDay, weekLoad } from '../../src/plan/today/week-load.ts';

const played = (day: string, minutes: number, block = 'scales'): BlockEntry => ({
  ...KEPT,
  kind: 'block',
  at: `${day}T10:00:00Z`,
  day,
  routine: 'r',
  part: 'p',
  block,
  event: 'done',
  played: minutes * 60,
  length: minutes * 60,
  exercise: null,
});

/** So many minutes on each of these days, counted back from today. */
const back = (today: string, ago: readonly number[], minutes: number): readonly BlockEntry[] =>
  ago.map((n) => played(dayPlus(today, -n), minutes)).toReversed();

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

describe("the week's load", () => {
  const today = '2026-11-25';

  it('counts the newest record of a block on each day', () => {
    expect(minutesByDay([played(today, 3), played(today, 5), played(today, 4, 'thirds')]).get(today)).toBe(9);
  });

  it('counts no rests, and nothing that is only planned', () => {
    expect(minutesByDay([played(today, 3), played(today, 5, BREAK)]).get(today)).toBe(3);
    expect(weekLoad(today, [played(today, 12)], 25)).toEqual({
      minutes: 12,
      toCome: 25,
      usual: null,
      line: '37 min this week with today',
      warning: null,
    });
    expect(weekLoad(today, [played(today, 12)], 0).line).toBe('12 min this week');
    expect(weekLoad(today, [], 0).line).toBe('0 min this week');
  });

  it('is of seven days, today among them, compared with the four weeks before', () => {
    expect(weekLoad(today, back(today, range(0, 34), 30), 15)).toEqual({
      minutes: 210,
      toCome: 15,
      usual: 210,
      line: '225 min this week with today (usually 210)',
      warning: null,
    });
    const edges = [played(dayPlus(today, -6), 1), played(dayPlus(today, -7), 10), played(dayPlus(today, -34), 100)];
    expect(weekLoad(today, edges, 0)).toMatchObject({ minutes: 1, usual: 27.5 });
    expect(weekLoad(today, [played(dayPlus(today, -35), 100), played(dayPlus(today, 1), 100)], 0)).toMatchObject({
      minutes: 0,
      usual: null,
    });
  });

  it('warns of a jump: of what was played, else of what the plan would make of it', () => {
    const before = back(today, range(7, 34), 20);
    const week = (minutes: number, toCome: number) =>
      weekLoad(today, [...before, ...back(today, range(0, 6), minutes)], toCome).warning;
    expect(week(40, 60)).toBe(`280 minutes this week are a jump from your usual 140: increase gradually. ${CAUTION}`);
    expect(week(25, 60)).toBe(
      `235 minutes this week with what is planned are a jump from your usual 140: increase gradually. ${CAUTION}`,
    );
    expect(week(25, 35)).toBeNull();
    expect(week(30, 0)).toBeNull();
    expect(week(30, 0.1)).toMatch(/^210 minutes this week with what is planned are a jump/);
  });

  // Gradually after a lay-off, never straight into heavy playing: rules of an injury-prevention guide for musicians, as
  // reported in 2009.
  describe('after a lay-off', () => {
    const records = back(today, range(12, 30), 40);
    const warning = (more: readonly BlockEntry[], toCome: number) =>
      weekLoad(today, [...records, ...more], toCome).warning;

    it('warns of a jump, but not of a gentle return', () => {
      expect(warning([], 40)).toBe(
        '11 days without playing, and 40 minutes today with what is planned after a usual 40: come back gradually, ' +
          `never straight into heavy playing. ${CAUTION}`,
      );
      expect(warning([played(today, 25)], 40)).toContain('and 25 minutes today after a usual 40');
      expect(warning([], 20)).toBeNull();
      expect(warning([], 20.5)).not.toBeNull();
    });

    it('goes on warning for a week after the return, and says how long it was', () => {
      expect(warning([played(dayPlus(today, -2), 10)], 35)).toContain('9 days without playing');
      expect(warning([played(dayPlus(today, -4), 10)], 35)).toContain('7 days without playing');
      expect(warning([played(dayPlus(today, -5), 10)], 35)).toBeNull();
    });

    it('is over a week after the return', () => {
      const short = back(today, range(20, 30), 40);
      const returned = (ago: number) => weekLoad(today, [...short, played(dayPlus(today, -ago), 10)], 35).warning;
      expect(returned(6)).toContain('13 days without playing');
      expect(returned(7)).toBe(null);
    });

    it('compares with the days that were played in the four weeks before it', () => {
      const sparse = [
        played(dayPlus(today, -60), 200),
        played(dayPlus(today, -30), 20),
        played(dayPlus(today, -10), 40),
      ];
      expect(weekLoad(today, sparse, 16).warning).toContain('after a usual 30');
    });
  });
});
