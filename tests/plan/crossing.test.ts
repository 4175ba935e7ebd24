import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { COMMON_TIME, notesPerSecond } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import { crossing } from '../../src/plan/rotation/single-double-crossing.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { lineRule, purposeOfStep, tonguingSteps } from '../../src/plan/rotation/multiple-tonguing-steps.ts';

describe('the crossing', () => {
  it('is a gap where double stops short of single, and sets a drill from below up to past it', () => {
    // Common practice, no source: a double-tongue drill starts below the fastest single tongue, so that the two
    // overlap.
    expect(crossing(8.4, 7)).toEqual({
      sentence: 'Single is clean up to 8.4 notes a second, double up to 7.0: a gap of 1.4.',
      drill: 'Double from 6.3 up to 9.2 notes a second, so that the two overlap.',
    });
  });

  it('is an overlap where double goes on, and then drills the change itself', () => {
    expect(crossing(8, 10, 'triple')).toEqual({
      sentence: 'Single is clean up to 8.0 notes a second, triple up to 10.0: triple goes on for 2.0.',
      drill: 'Bars of single and triple in turn from 7.2 to 8.8 notes a second, until the change is not heard.',
    });
  });

  it('goes on closing an overlap of less than a tenth', () => {
    expect(crossing(8, 8.7).drill).toBe('Double from 7.2 up to 8.8 notes a second, so that the two overlap.');
    expect(crossing(8, 8.8).drill).toMatch(/^Bars of single and double in turn/);
    expect(crossing(8, 8).sentence).toMatch(/double goes on for 0.0.$/);
  });

  it('compares lines in different note values by notes per second', () => {
    // Arithmetic: sixteenths at 120 are 8.0, triplets at 120 are 6.0, sixteenths at 144 are 9.6.
    expect(crossing(notesPerSecond(120, 4), notesPerSecond(120, 3), 'triple').sentence).toMatch(/a gap of 2.0.$/);
    expect(notesPerSecond(144, 4)).toBeCloseTo(9.6);
  });
});

const exercise: Exercise = {
  id: 'run',
  name: 'run',
  file: 'own',
  title: 'Run',
  kind: 'articulation',
  material: null,
  pattern: '1..8',
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 4,
  bars: 1,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['C'],
  articulations: ['single', 'double'],
  ladder: { ...DEFAULT_RULE, start: 80, target: 140 },
  click: PLAIN_CLICK,
  cues: [],
};
const articulations = () => tonguingSteps(exercise, 'Bb').map(({ line }) => line.articulation);
const last = (change: Partial<Exercise>) => tonguingSteps({ ...exercise, ...change }, 'C').at(-1)?.line.articulation;

describe('the split', () => {
  it('goes from slurred to double at speed, each a line of its own', () => {
    expect(articulations()).toEqual([
      'slurred',
      'single',
      'back syllable',
      'double long-short',
      'double even',
      'double',
    ]);
    expect(
      new Set(tonguingSteps(exercise, 'Bb').map(({ line }) => `${line.exercise} ${line.key} ${line.articulation}`))
        .size,
    ).toBe(6);
    for (const name of articulations()) expect(readArticulation(name)).toMatchObject({ name });
  });

  it('uses triple where the exercise does, or its beat falls into threes', () => {
    expect(last({ articulations: ['single', 'triple'] })).toBe('triple');
    expect(last({ articulations: ['single'], notesPerBeat: 3 })).toBe('triple');
    expect(last({ articulations: ['double'], notesPerBeat: 3 })).toBe('double');
  });

  it("starts multiple tonguing below the single tongue and ends at the exercise's own target", () => {
    const rules = Object.fromEntries(tonguingSteps(exercise, 'C').map(({ line, rule }) => [line.articulation, rule]));
    expect(rules['double long-short']?.start).toBe(40);
    expect(rules['double even']?.start).toBeLessThan(rules.single?.start ?? 0);
    expect(rules.double).toMatchObject({ start: 60, target: 140 });
    expect(rules.single).toEqual(exercise.ladder);
    for (const rule of Object.values(rules)) {
      expect(rule.floor).toBeLessThanOrEqual(rule.start);
      expect(rule.target).toBeGreaterThanOrEqual(rule.start);
      expect(Number.isInteger(rule.start)).toBe(true);
    }
  });

  it('leaves the ladder of an exercise alone that is not split', () => {
    for (const name of exercise.articulations) expect(lineRule(exercise, name)).toBe(exercise.ladder);
    expect(purposeOfStep(exercise, 'double')).toBeNull();
    expect(purposeOfStep({ articulations: ['back syllable', 'double'] }, 'double')).toMatch(/At speed/);
  });

  it('follows the steps that the player writes, in that order', () => {
    const own = { ...exercise, articulations: ['double even', 'back syllable', 'double'] };
    expect(tonguingSteps(own, 'C').map(({ line }) => line.articulation)).toEqual(own.articulations);
    expect(
      tonguingSteps(own, 'C')
        .map(({ purpose }) => purpose)
        .every((purpose) => purpose.length > 20),
    ).toBe(true);
  });
});

describe('a routine that says split', () => {
  it('gets the steps as articulations, in triple where the notes come in threes', () => {
    const parsed = parseRoutine(
      'routine: R\nexercises:\n  a: {pattern: "1 1 1 2 2 2 3 3 3 2 2 2 | 1", articulations: split}\n  b: ' +
        '{pattern: "1..8 | 1", articulations: [slur 2 tongue 2, split]}\n',
      'r.yaml',
      () => ({ trouble: 'none' }),
    );
    if (!('routine' in parsed)) throw new Error(parsed.troubles[0]?.sentence);
    expect(parsed.routine.exercises.map(({ articulations: names }) => names)).toEqual([
      ['slurred', 'single', 'back syllable', 'triple long-short', 'triple even', 'triple'],
      ['slur 2 tongue 2', 'slurred', 'single', 'back syllable', 'double long-short', 'double even', 'double'],
    ]);
  });
});
