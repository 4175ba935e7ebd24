/** Histories for tests, made of marks. */
import { type DayNumber, dateOf } from '../../src/common/days.ts';
import { type Line } from '../../src/ladder/line.ts';
import { afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import type { PlayedLine } from '../../src/ladder/speed/speed-knowledge.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import type { Tally } from '../../src/ladder/speed/line-history.ts';
import { type Belief, type Marking, afterTallies } from '../../src/ladder/speed/speed-estimate.ts';

export interface Played {
  readonly bpm: number;
  readonly mark: Mark;
}

export function talliesOf(day: string, marks: readonly Played[]): readonly Tally[] {
  const tallies = new Map<number, { day: string; bpm: number; clean: number; tense: number; missed: number }>();
  for (const { bpm, mark } of marks) {
    const tally = tallies.get(bpm) ?? { day, bpm, clean: 0, tense: 0, missed: 0 };
    tally[mark] += 1;
    tallies.set(bpm, tally);
  }
  return [...tallies.values()];
}

export interface PlayedOn extends Played {
  readonly day: DayNumber;
}

/** What is believed after more marks, given one by one in the order in which they were made. */
export const afterMarks = (marking: Marking, belief: Belief, marks: readonly PlayedOn[]): Belief =>
  afterTallies(
    marking,
    belief,
    marks.flatMap(({ day, ...played }) => talliesOf(dateOf(day), [played])),
  );

/** Days of marks, one after another; the last is on `lastDay`. Days without marks are gaps. */
export function historyOf(
  line: Line,
  days: readonly (readonly Played[])[],
  lastDay: number,
  rule: LadderRule = DEFAULT_RULE,
): PlayedLine {
  const first = lastDay - days.length + 1;
  const tallies = days.flatMap((marks, i) => talliesOf(dateOf(first + i), marks));
  const rungs = rungsOf(rule);
  let climb = startAt(days.flat()[0]?.bpm ?? rule.start);
  let best: PlayedLine['best'] = null;
  days.forEach((marks, i) => {
    for (const { bpm, mark } of marks) {
      climb = afterMark(bpm === climb.bpm ? climb : startAt(bpm, climb.best), mark, rule, rungs);
      if (climb.best !== null && climb.best > (best?.bpm ?? 0)) best = { bpm: climb.best, day: dateOf(first + i) };
    }
  });
  const { bpm, cleanRun, missedRun } = climb;
  return { line, bpm, cleanRun, missedRun, best, lastDay: tallies.at(-1)?.day ?? '', tallies, notesPerBeat: 4 };
}
