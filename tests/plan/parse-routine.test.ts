import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { type ReadInclude, parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';

const alone: ReadInclude = () => ({ trouble: 'there is no such file.' });
const among =
  (files: Readonly<Record<string, string>>): ReadInclude =>
  (name) =>
    files[name] === undefined ? { trouble: `there is no ${name}.` } : { text: files[name] };

function good(text: string, read: ReadInclude = alone): Routine {
  const parsed = parseRoutine(text, 'a.yaml', read);
  if ('troubles' in parsed) throw new Error(parsed.troubles.map(troubleLine).join('\n'));
  return parsed.routine;
}

function sentences(text: string, read: ReadInclude = alone): readonly string[] {
  const parsed = parseRoutine(text, 'a.yaml', read);
  return 'troubles' in parsed ? parsed.troubles.map(troubleLine) : [];
}

describe('a pattern that YAML would cut off', () => {
  const SHARP =
    'a # after a space begins a comment, which would cut the pattern off here; put the whole pattern in quotes.';
  const COMMA =
    'a comma inside { } begins the next setting, which would cut the pattern off; put the whole pattern in quotes.';

  // YAML 1.2.2, 6.6: a comment begins with a # that white space stands before; 7.4: a comma ends an entry of { }.
  it.each([
    ['  a:\n    pattern: 1 2 #4 5 | 1', SHARP, 'line 3, column 18'],
    ['  a:\n    pattern: #4 1', SHARP, 'line 3, column 14'],
    ['  a:\n    pattern: 1 2 3\n      #4 5', SHARP, 'line 4, column 7'],
    ['  a: {pattern: 1 2 #4 5}', SHARP, 'line 2, column 20'],
    ['  a: {pattern: 1 7, 1 2 | 1}', COMMA, 'line 2, column 21'],
    ['  a: {pattern: 7, #4 | 1}', SHARP, 'line 2, column 19'],
  ])('is refused with its place: %s', (exercise, sentence, place) => {
    expect(sentences(`exercises:\n${exercise}\n`)).toContain(`a.yaml, ${place}: ${sentence}`);
  });

  it('is all that is said of it', () => {
    expect(sentences('exercises:\n  a:\n    pattern: #4 1\n    bars: many\n')).toHaveLength(2);
  });

  it.each([
    '1 2 3 4 | 1  # up and down',
    '"1 2 #4 5"',
    "'#4 1 2 3'",
    '|\n      1 2\n      #4 5',
    '1 7, 1 2 | 1',
    '1 2 3#4',
  ])('lets this be: %s', (pattern) => {
    expect(
      sentences(`exercises:\n  a:\n    pattern: ${pattern}\n    # 4 bars\n`).filter((one) => one.includes('quotes')),
    ).toEqual([]);
  });
});

describe('a sentence about a routine file', () => {
  it.each([
    [
      '- a\n- b\n',
      "a.yaml, line 1, column 1: the file is a list; write settings by their names, beginning with 'routine: ' " +
        'and a title.',
    ],
    [
      'five minutes\n',
      'a.yaml, line 1, column 1: the file is "five minutes"; write settings by their names, beginning with ' +
        "'routine: ' and a title.",
    ],
    [
      'exercises: {a: {tempo: 60 -> 500}}\n',
      'a.yaml, line 1, column 24: \'tempo\' is "60 -> 500"; write tempos from 10 to 400 beats per minute.',
    ],
    ['exercises:\n  a: {}\n  a: {}\n', "a.yaml, line 3, column 3: 'a' stands here a second time; keep one of the two."],
  ])('says the one thing that is wrong: %j', (text, sentence) => {
    expect(sentences(text)).toEqual([sentence]);
  });
});

describe('a routine written by hand', () => {
  it('needs few words', () => {
    const routine = good(
      'routine: Ten minutes\nexercises:\n  scales: {}\nparts:\n  - part: All\n    blocks:\n      - scales: 10\n',
    );
    expect(routine.parts[0]?.blocks[0]).toMatchObject({
      id: 'scales',
      title: 'Scales',
      minutes: 10,
      least: 5,
      warmUp: false,
    });
    expect(routine.exercises[0]).toMatchObject({
      keys: ['C'],
      articulations: ['slurred'],
      breathBars: 1,
      noMark: 'wait',
    });
    expect(routine.breaks).toEqual({ after: 25, minutes: 5 });
  });

  it('says meter, tempo, step and keys in the words of the trade', () => {
    const { exercises } = good(
      'exercises:\n  a: {meter: 7/8 (2+2+3), tempo: 60 -> 132, step: marks, keys: all major, slow: 50%, order: ' +
        'alternate}\n' +
        '  b: {meter: 6/8, step: 2.5%, keys: [B♭, A minor, C major], ladder: 50 to 90, tempo: 60}\n  c: {step: ' +
        '4, beat: dotted quarter}\n',
    );
    const [a, b, c] = exercises;
    expect(a).toMatchObject({ meter: { count: 7, unit: 8, groups: [2, 2, 3] }, beat: { n: 1, d: 8 } });
    expect(a?.ladder).toMatchObject({
      start: 60,
      target: 132,
      step: { by: 'marks' },
      slowShare: 0.5,
      order: 'alternate',
    });
    expect(new Set(a?.keys).size).toBe(12);
    expect(b).toMatchObject({ meter: { groups: [3, 3] }, beat: { n: 3, d: 8 }, keys: ['Bb', 'A minor', 'C'] });
    expect(b?.ladder).toMatchObject({ step: { by: 'ratio', percent: 2.5 }, floor: 50, top: 90 });
    expect(c).toMatchObject({ ladder: { step: { by: 'beats', bpm: 4 } }, beat: { n: 3, d: 8 } });
  });

  it('says how keys come round', () => {
    const { exercises } = good(
      'exercises: {a: {rotate: fifths}, b: {rotate: {order: drawn, change: rung, weak: 2, fingerings: yes}}, c: ' +
        '{rotate: key and articulation, articulations: [tk, legato]}}',
    );
    expect(exercises[0]?.rotation).toMatchObject({ order: 'fifths', change: 'block', ladder: 'each key' });
    expect(exercises[1]?.rotation).toMatchObject({ order: 'drawn', change: 'rung', weakTimes: 2, fingerings: true });
    expect(exercises[2]).toMatchObject({
      rotation: { order: 'key and articulation', change: 'block' },
      articulations: ['double', 'slurred'],
    });
  });

  it('says once under defaults what holds for all', () => {
    const { exercises } = good(
      'defaults: {tempo: 80 -> 100, click: {voice: bell}}\nexercises:\n  a: {click: {subdivision: 2}}\n',
    );
    expect(exercises[0]).toMatchObject({ ladder: { start: 80 }, click: { voice: 'bell', subdivision: 2 } });
  });

  it('takes exercises and pools from another file of the folder, once', () => {
    const files = { 'b.yaml': 'include: c.yaml\npools: {p: [x]}\n', 'c.yaml': 'exercises: {x: {title: From afar}}\n' };
    const routine = good('include: [b.yaml, c.yaml]\nparts: [{part: A, blocks: [x: 3, p: 4]}]\n', among(files));
    expect(routine.parts[0]?.blocks.map(({ title, content }) => [title, content.is])).toEqual([
      ['From afar', 'exercise'],
      ['P', 'pool'],
    ]);
  });

  it('gives every block a name of its own', () => {
    const { parts } = good('exercises: {x: {}}\nparts: [{part: A, blocks: [x: 1, x: 2, {rest: 3}, {do: Über all}]}]\n');
    expect(parts[0]?.blocks.map(({ id }) => id)).toEqual(['x', 'x-2', 'rest', 'u-ber-all']);
  });
});
