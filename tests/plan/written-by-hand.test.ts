/** What a player may get wrong in a routine file: each sentence says what would be right, in the file's own words. */
import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';

const FILES: Readonly<Record<string, string>> = {
  'x.yaml': 'include: [y.yaml, x.yaml]\nexercises: {q: {}}\n',
  'y.yaml': 'exercises: {z: {}}\n',
};
const read = (text: string) =>
  parseRoutine(text, 'a.yaml', (name) => (FILES[name] ? { text: FILES[name] } : { trouble: 'none.' }));

function said(text: string): readonly string[] {
  const parsed = read(text);
  return 'troubles' in parsed ? parsed.troubles.map((one) => troubleLine(one).replace(/^a\.yaml, line \d+, /, '')) : [];
}

function exerciseOf(settings: string): Exercise {
  const parsed = read(`exercises: {a: {${settings}}}`);
  if ('troubles' in parsed) throw new Error(parsed.troubles.map(troubleLine).join('\n'));
  return parsed.routine.exercises[0]!;
}

const exercise = (settings: string): string => `exercises: {a: {${settings}}}`;
const block = (settings: string): string => `exercises: {a: {}}\nparts: [{part: A, blocks: [${settings}]}]`;

describe('an empty list', () => {
  it.each([
    [exercise('keys: []'), "'keys' is a list; write at least one key."],
    [exercise('articulations: []'), "'articulations' is a list; write at least one articulation."],
    [exercise('drone: {voices: []}'), "'voices' is a list; write at least one voice."],
    [exercise('click: {on: []}'), "'on' is a list; write at least one beat."],
    ['pools: {p: []}', "'p' is a list; write at least one exercise."],
    ['pools: {p: {items: []}}', "'items' is a list; write at least one exercise."],
    ['parts: []', "'parts' is a list; write at least one part."],
    ['parts: [{part: A, blocks: []}]', "'blocks' is a list; write at least one block."],
    [block('{play: a, keys: []}'), "'keys' is a list; write at least one key."],
  ])('%s is said in words', (text, sentence) => {
    expect(said(text)).toEqual([expect.stringContaining(sentence)]);
  });
});

describe('something else where settings belong', () => {
  it.each([
    ['limits: 3', "'limits' is 3; write settings by their names, like same kind and high load."],
    ['defaults: 3', "'defaults' is 3; write settings by their names, like kind and material."],
    ['exercises: {a: 3}', "'a' is 3; write settings by their names, like title and pattern."],
    ['exercises: {a: }', "'a' is empty; write settings by their names, like title and pattern."],
    [exercise('click: 3'), "'click' is 3; write settings by their names, like on and subdivision."],
    [exercise('click: {silent bars: 3}'), "'silent bars' is 3; write settings by their names, like play and silent."],
    ['parts: [3]', "entry 1 of 'parts' is 3; write settings by their names, like part and warm up."],
    [block('3'), "entry 1 of 'blocks' is 3; write a block like long-tones: 5."],
    [block('{}'), 'a block has one of play, draw, do and rest; here is none.'],
    [exercise('kind: '), "'kind' is empty; write one of body, sound,"],
    ['about: {a: 1}', "'about' is a group of settings; write text of at most 1000 characters"],
    ['about: [a]', "'about' is a list; write text"],
    ['include: 3', "'include' is 3; write the name of a .yaml file in the same folder, or a list of such names."],
  ])('%s is said in words', (text, sentence) => {
    expect(said(text)).toEqual([expect.stringContaining(sentence)]);
  });
});

describe('a name that is not there', () => {
  it.each([
    [exercise('drone: {voicse: [tonic]}'), "there is no 'voicse' in a drone; did you mean 'voices'?"],
    ['limits: {same kid: 3}', "there is no 'same kid' in the limits; did you mean 'same kind'?"],
    ['limitsx: 3', "there is no 'limitsx' in a routine file; did you mean 'limits'?"],
    [block('{draw: p, minuts: 3}'), "there is no 'minuts' in a block; did you mean 'minutes'?"],
  ])('%s is told where it stands', (text, sentence) => {
    expect(said(text)).toEqual([expect.stringContaining(sentence)]);
  });
});

describe('settings that do not go together', () => {
  it('name the one that is missing as missing', () => {
    expect(said(exercise('ladder: 200 to 240'))).toEqual([
      "column 16: 'tempo' is missing; write tempos on the ladder, from 200 to 240.",
    ]);
  });

  it.each(['10%', '19.9%', '95.1%'])('a slow share of %s is none', (slow) => {
    expect(said(exercise(`slow: ${slow}`))).toEqual([
      `column 23: 'slow' is "${slow}"; write a percentage from 20% to 95%.`,
    ]);
  });
});

describe('files that include each other', () => {
  it('in a list are told at the entry that closes the circle', () => {
    const parsed = read('include: x.yaml');
    expect('troubles' in parsed && parsed.troubles.map(troubleLine)).toEqual([
      "x.yaml, line 1, column 19: 'include' goes in a circle: a.yaml, then x.yaml, then x.yaml; take one of them out.",
    ]);
  });
});

describe('what is written', () => {
  it('is taken as it stands: rungs up and down, a slow share at either end', () => {
    expect(exerciseOf('rungs up: 3, rungs down: 2').ladder).toMatchObject({ rungsUp: 3, rungsDown: 2 });
    expect(exerciseOf('slow: 20%').ladder.slowShare).toBe(0.2);
    expect(exerciseOf('slow: 95%').ladder.slowShare).toBe(0.95);
  });

  it('a note value in words and in figures is the same (handbook: a dotted note is half as long again)', () => {
    for (const [written, n, d] of [
      ['3/8', 3, 8],
      ['dotted quarter', 3, 8],
      ['1/2', 1, 2],
      ['half', 1, 2],
      ['eighth', 1, 8],
    ] as const)
      expect(exerciseOf(`meter: 6/8, beat: ${written}`).beat).toEqual({ n, d });
  });

  it('a drone sounds only where it is asked for, the rest left to the player where it is not said', () => {
    for (const none of ['', 'drone: no', 'drone: false']) expect(exerciseOf(none)).not.toHaveProperty('drone');
    for (const usual of ['drone: yes', 'drone: true', 'drone: {}']) expect(exerciseOf(usual).drone).toEqual({});
    expect(exerciseOf('drone: {voices: [octave], tuning: equal}').drone).toEqual({
      voices: ['octave'],
      tuning: 'equal',
    });
  });

  it('may refer to what stands elsewhere in the file (YAML 1.2.2, 7.1)', () => {
    const parsed = read('exercises: {a: &slow {tempo: 61}, b: *slow}');
    expect('routine' in parsed && parsed.routine.exercises.map(({ ladder }) => ladder.start)).toEqual([61, 61]);
  });
});
