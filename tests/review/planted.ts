/** Journals made for one answer: lines of an invented player, each with a story of its own. */
import { seeded } from '../../src/common/chance.ts';
import { dateOf, dayNumber } from '../../src/common/days.ts';
import type { Entry, MarkEntry } from '../../src/diary/entry.ts';
import { entryIds } from '../../src/journal/entry-ids.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import type { Line } from '../../src/ladder/line.ts';
import { afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import { markChances } from '../../src/ladder/settling/player-curve.ts';
import { learnAllLines } from '../../src/ladder/speed/speed-knowledge.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import type { Lines } from '../../src/review/standing.ts';
import { atOf } from '../../src/runtime/clock.ts';

export const TODAY = '2026-11-25';
const DAY = 86_400_000;

export const exerciseNamed = (id: string, title: string): Exercise => ({
  id,
  name: id,
  file: 'own',
  title,
  kind: 'technique',
  material: null,
  pattern: '1 2 3 4 5 4 3 2 | 1',
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 4,
  bars: 2,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['Bb', 'F', 'C'],
  articulations: ['slurred', 'single', 'double'],
  ladder: DEFAULT_RULE,
  click: PLAIN_CLICK,
  cues: [],
});

export const EXERCISES: readonly Exercise[] = [
  exerciseNamed('five-notes', 'Five-note study'),
  exerciseNamed('one-note', 'One-note tonguing'),
  exerciseNamed('thirds', 'Thirds up and down'),
];

/** What happens on one line. */
export interface Story {
  readonly line: Line;
  /** The tempo at which half are clean, sixteen weeks ago. */
  readonly from: number;
  /** Gained a week, as a share. */
  readonly gain: number;
  /** Weeks before today when it was played last; 0 when absent. */
  readonly until?: number;
}

const WEEKS = 16;
/** Monday, Wednesday, Friday. */
const ON = [0, 2, 4];
const MARKS = 30;

function lineEntries(story: Story, nextIdOf: (wall: number) => string, seed: number): readonly Entry[] {
  const chance = seeded(seed);
  const rungs = rungsOf(DEFAULT_RULE);
  let climb = startAt(rungs[nearestRung(rungs, story.from * 0.8)]!);
  const entries: Entry[] = [];
  for (let week = 0; week < WEEKS - (story.until ?? 0); week += 1) {
    for (const weekday of ON) {
      const number = dayNumber('2026-11-23') - 7 * (WEEKS - 1 - week) + weekday;
      if (number > dayNumber(TODAY)) continue;
      for (let nth = 0; nth < MARKS; nth += 1) {
        const wall = number * DAY + 18 * 3_600_000 + seed * 1_200_000 + nth * 20_000;
        const threshold = story.from * (1 + story.gain) ** week;
        const { clean, tense } = markChances({ threshold, slope: 16, lapse: 0.02, tense: 0.3 }, climb.bpm);
        const u = chance();
        const mark = u < clean ? 'clean' : u < clean + tense ? 'tense' : 'missed';
        const { bpm } = climb;
        climb = afterMark(climb, mark, DEFAULT_RULE, rungs);
        const entry: MarkEntry = {
          v: 1,
          id: nextIdOf(wall),
          at: atOf(wall, 0),
          day: dateOf(number),
          kind: 'mark',
          ...story.line,
          mark,
          bpm,
          beat: '1/4',
          notesPerBeat: 4,
          cleanUp: 3,
          missedDown: 1,
          tenseDown: 2,
          next: climb.bpm,
          by: 'player',
        };
        entries.push(entry);
      }
    }
  }
  return entries;
}

/** A journal of these stories, all of it what the review is given. */
export function planted(stories: readonly Story[]): Lines {
  const entries = stories.flatMap((story, index) => {
    let wall = 0;
    const nextId = entryIds(null, () => wall);
    return lineEntries(
      story,
      (at) => {
        wall = at;
        return nextId();
      },
      index + 1,
    );
  });
  const { lines } = foldAll(entries);
  return {
    lines: Object.fromEntries(lines),
    exercises: EXERCISES,
    knowledge: learnAllLines(lines.values()),
    today: TODAY,
  };
}

export const line = (exercise: string, articulation: string, key: string): Line => ({ exercise, articulation, key });

/** Lines that go on quietly: nobody has to look at them. */
export const QUIET: readonly Story[] = [
  { line: line('five-notes', 'single', 'F'), from: 74, gain: 0.012 },
  { line: line('thirds', 'slurred', 'C'), from: 66, gain: 0.012 },
  { line: line('one-note', 'single', 'C'), from: 80, gain: 0.012 },
];
