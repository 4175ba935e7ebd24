/** Where lines start, over random journals of several exercises: what a teacher would hold against a start. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayPlus } from '../../src/common/days.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { lineName } from '../../src/ladder/line.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { EXERCISES } from '../../src/practice/screens/exercises-keys.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { practiceOf } from '../../src/practice/stand.ts';
import { exercisesScreen } from '../../src/ui/screens/exercises-screen.ts';
import { writer } from '../journal/entries.ts';
import { DAY, firstStand } from './daily-sitting.ts';
import { EXERCISE } from './rehearsal.ts';

const named = (id: string, start: number, target: number): Exercise => ({
  ...EXERCISE,
  id,
  name: id,
  title: id,
  keys: ['C', 'F'],
  ladder: { ...DEFAULT_RULE, start, target, top: 240 },
});

const ALL = [named('fingers', 100, 160), named('tongue', 60, 132), named('lips', 50, 72)];

/** One mark: of which exercise, in which key, at which tempo, how many days ago. */
const played = fc.record({
  exercise: fc.constantFrom(...ALL.map(({ id }) => id)),
  key: fc.constantFrom('C', 'F'),
  bpm: fc.integer({ min: 40, max: 240 }),
  mark: fc.constantFrom<Mark>('clean', 'clean', 'clean', 'tense', 'missed'),
  ago: fc.integer({ min: 1, max: 30 }),
  times: fc.integer({ min: 1, max: 5 }),
});

type Played = typeof played extends fc.Arbitrary<infer One> ? One : never;

function standAfter(marks: readonly Played[]): Stand {
  const write = writer();
  const entries = marks
    .toSorted((a, b) => b.ago - a.ago)
    .flatMap(({ exercise, key, bpm, mark, ago, times }) =>
      Array.from({ length: times }, () =>
        write.mark(mark, bpm, bpm, { exercise, key, articulation: 'slurred', day: dayPlus(DAY, -ago) }),
      ),
    );
  const first = firstStand([]);
  const lines = Object.fromEntries(foldAll(entries).lines);
  return { ...first, known: { ...first.known, exercises: ALL, lines }, view: { screen: 'exercises' } };
}

/** The stand with a row of the list and a key chosen. */
const choosing = (stand: Stand, row: number, key: number): Stand => ({
  ...stand,
  choice: { row, keyOf: { [ALL[row]!.id]: key }, articulationOf: {} },
});

const listed = (stand: Stand): readonly string[] =>
  exercisesScreen(stand as never, { columns: 100, rows: 30, foot: [] } as never).map((line) =>
    line.map(({ text }) => text).join(''),
  );

describe('where a line starts', () => {
  it('is never above its best, nor beyond the target of an exercise without marks; list and stand agree', () => {
    fc.assert(
      fc.property(fc.array(played, { maxLength: 25 }), (marks) => {
        const stand = standAfter(marks);
        ALL.forEach((exercise, row) =>
          exercise.keys.forEach((name, key) => {
            const here = choosing(stand, row, key);
            const practice = practiceOf(EXERCISES.open(here));
            const bpm = practice!.opened.bpm;
            const history = stand.known.lines[lineName({ exercise: exercise.id, articulation: 'slurred', key: name })];
            if (history?.best) expect(bpm).toBeLessThanOrEqual(history.best.bpm);
            const { start, target } = exercise.ladder;
            if (!marks.some((one) => one.exercise === exercise.id)) {
              expect(bpm).toBeLessThanOrEqual(target);
              // A tenth, and a rung of 3 % where none lies there.
              expect(Math.abs(Math.log(bpm / start))).toBeLessThan(Math.log(1.1 * 1.03));
            }
            const said = listed(here).find((text) => text.includes('▶'));
            expect(said).toMatch(new RegExp(` ${bpm} +(\\d+|–) `, 'u'));
            expect(practice!.remark).not.toContain('\n');
          }),
        );
      }),
      { numRuns: 40 },
    );
  });

  it('is two rungs below what is safe first thing in the day, and at it once something was played today', () => {
    const before: Played = { exercise: 'fingers', key: 'C', bpm: 100, mark: 'clean', ago: 1, times: 5 };
    const start = (marks: readonly Played[]): number =>
      practiceOf(EXERCISES.open(choosing(standAfter(marks), 0, 1)))!.opened.bpm;
    const today: Played = { exercise: 'lips', key: 'F', bpm: 50, mark: 'clean', ago: 0, times: 1 };
    expect(start([before, today])).toBeGreaterThan(start([before]));
  });

  it('is not pulled away by one fast exercise, nor by one slow one', () => {
    const fast = standAfter([{ exercise: 'lips', key: 'C', bpm: 236, mark: 'clean', ago: 2, times: 5 }]);
    const slow = standAfter([{ exercise: 'tongue', key: 'C', bpm: 40, mark: 'missed', ago: 2, times: 5 }]);
    const start = (stand: Stand): number => practiceOf(EXERCISES.open(choosing(stand, 0, 0)))!.opened.bpm;
    expect(start(fast)).toBeLessThanOrEqual(110);
    expect(start(slow)).toBeGreaterThanOrEqual(88);
  });

  it('is nothing for work by the clock or by breaths: it stays in the list, and is said to belong to a block', () => {
    const stand = standAfter([]);
    for (const [work, sentence] of [
      ['clock', 'fingers goes by the clock, not by a ladder; it is played in a block of Today.'],
      ['breaths', 'fingers goes by breaths, not by a ladder; it is played in a block of Today.'],
    ] as const) {
      const exercises = [{ ...ALL[0]!, work }];
      const here: Stand = { ...stand, known: { ...stand.known, exercises } };
      expect(listed(here).find((text) => text.includes('▶'))).not.toMatch(/\d/u);
      const after = EXERCISES.open(here);
      expect(after.view.screen).toBe('exercises');
      expect(after.answer?.sentence).toBe(sentence);
    }
  });
});
