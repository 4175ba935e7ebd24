/** Three journals, each with one planted answer, and what the first page of the weeks says of them. */
import * as statistics from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../src/common/days.ts';
import { weeksFlat } from '../../src/review/speed-weeks.ts';
import { standingsOf } from '../../src/review/standing.ts';
import { weeksSentences } from '../../src/review/weeks-sentences.ts';
import { QUIET, type Story, line, planted } from './planted.ts';

const said = (stories: readonly Story[]): readonly string[] => {
  const known = planted(stories);
  return weeksSentences(known, standingsOf(known)).map(({ matter, sentence }) => `${matter} ${sentence}`);
};

describe('what is stuck', () => {
  const stories = [...QUIET, { line: line('five-notes', 'double', 'Bb'), from: 90, gain: 0 }];

  it('is the line that weeks of practice have not made faster, with its wall', () => {
    expect(said(stories)[0]).toMatch(/^Stuck Five-note study, B♭ double: \d+ for \d+ weeks, the wall is \d+\.$/);
  });

  it('stands first, before the wall that its marks show', () => {
    const first = standingsOf(planted(stories))[0]!;
    expect(first.line.articulation).toBe('double');
    expect(first.wall!.bpm).toBeGreaterThan(first.now.bpm * 0.97);
    expect(first.wall!.bpm).toBeLessThan(90 * 1.2);
  });
});

describe('what waits', () => {
  const left = { line: line('thirds', 'slurred', 'F'), from: 70, gain: 0.012, until: 7 };

  it('is the line that was left alone for more than four weeks', () => {
    // Played last on Friday, 9 October: 47 days before 25 November, six whole weeks.
    expect(said([...QUIET, left])[1]).toBe('Waits Thirds up and down, F slurred: not for 6 weeks.');
  });

  it('is nothing at four weeks or less', () => {
    const short = [...QUIET, { ...left, until: 3 }];
    expect(said(short)[1]).toBe('Waits nothing; every line was played within four weeks.');
  });

  it('counts the others that wait', () => {
    const two = [...QUIET, left, { line: line('one-note', 'double', 'F'), from: 80, gain: 0.012, until: 5 }];
    expect(said(two)[1]).toBe('Waits Thirds up and down, F slurred: not for 6 weeks; 1 more of 5 lines wait.');
  });
});

describe('what grows', () => {
  const stories = [...QUIET, { line: line('one-note', 'double', 'Bb'), from: 60, gain: 0.035 }];

  it('is the line that has gained most, from where to where', () => {
    expect(said(stories)[2]).toMatch(/^Grows One-note tonguing, B♭ double: \d+ to \d+ in 8 weeks(; \d more)?\.$/);
  });

  it('gains about what the player did: 3.5 % a week, compounded', () => {
    const growing = standingsOf(planted(stories)).find(({ line: { key } }) => key === 'Bb')!;
    // Eight weeks of 3.5 %, in closed form; the estimate's interval is some 6 % wide on each side.
    expect(Math.abs(growing.now.bpm / growing.before!.bpm / 1.035 ** 8 - 1)).toBeLessThan(0.1);
  });
});

it('the clean share of the weeks is the mean of the marks, as a general-purpose library has it', () => {
  const known = planted(QUIET);
  for (const standing of standingsOf(known)) {
    const since = dayNumber(known.today) - 56;
    const tallies = Object.values(known.lines)
      .find(({ line: of }) => of.exercise === standing.line.exercise)!
      .tallies.filter(({ day }) => dayNumber(day) > since);
    const marks = tallies.flatMap(({ clean, tense, missed }) => [
      ...Array<number>(clean).fill(1),
      ...Array<number>(tense + missed).fill(0),
    ]);
    expect(standing.clean).toBeCloseTo(statistics.mean(marks), 10);
  }
});

it('a line is flat since the week after it last was elsewhere', () => {
  const at = (bpm: number) =>
    ({ said: { known: 'near', bpm, low: null, high: null }, low: bpm, bpm, high: bpm }) as const;
  const weeks = [60, 70, null, 80, 81, null, 82].map((bpm) => ({ from: '', speed: bpm === null ? null : at(bpm) }));
  expect(weeksFlat(weeks)).toBe(4);
  expect(weeksFlat([])).toBe(0);
});
