/** What a file may say of how keys come round, and what is wrong where it is. */
import { describe, expect, it } from 'vitest';
import { remarksOn } from '../../src/plan/file/file-remarks.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';

const SOME = 'keys: [C, F, Bb, Eb], articulations: [slurred, double]';

function read(settings: string) {
  const exercise = `{pattern: "1 2 3 2 1 2 3 2", ${settings}}`;
  const text = `exercises: {study: ${exercise}}\nparts: [{part: All, blocks: [study: 5]}]\n`;
  return parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
}

function exerciseWith(settings: string) {
  const parsed = read(settings);
  if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
  const [exercise] = parsed.routine.exercises;
  if (!exercise) throw new Error('no exercise');
  return { exercise, remarks: remarksOn(parsed.routine) };
}

const troubles = (settings: string): readonly string[] => {
  const parsed = read(settings);
  return 'troubles' in parsed ? parsed.troubles.map(({ sentence }) => sentence) : [];
};

describe('a rotation in a file', () => {
  it('out of the hat changes with each repetition, unless it says something else', () => {
    const hat = { ...PLAIN_ROTATION, order: 'from the hat' };
    expect(exerciseWith(`${SOME}, rotate: from the hat`).exercise.rotation).toEqual({ ...hat, change: 'repetition' });
    const block = exerciseWith(`${SOME}, rotate: {order: from the hat, change: block}`);
    expect(block.exercise.rotation).toEqual({ ...hat, change: 'block' });
  });

  it.each([
    ['repetitions: 3, change: repetition', { repetitions: 3, change: 'repetition' }],
    ['ends: 1 key 3 times', { ends: { keys: 1, times: 3 } }],
    ['ends: 1 note 2 times', { ends: { keys: 1, times: 2 } }],
    ['week: 3', { weekKeys: 3 }],
    ['articulations: in turn', { articulations: 'in turn' }],
  ])('says more in one line: %s', (said, rotation) => {
    const { exercise, remarks } = exerciseWith(`${SOME}, rotate: {${said}}`);
    expect(exercise.rotation).toEqual({ ...PLAIN_ROTATION, ...rotation });
    expect(remarks).toEqual([]);
  });

  it.each([
    ['repetitions: 0', /'repetitions' is 0; write a whole number from 1 to 20/],
    ['repetitions: 1.5', /'repetitions' is 1.5; write a whole number from 1 to 20/],
    ['ends: 0 keys 3 times', /'ends' is .*; write how many at each end and how often, like 2 keys 3 times/],
    ['ends: 2', /like 2 keys 3 times/],
    ['week: 0', /'week' is 0; write a whole number from 1 to 24/],
    ['articulations: together', /write one of after all keys, in turn/],
    ['repetition: 2', /there is no 'repetition' in a rotation; did you mean 'repetitions'/],
  ])('is told what is wrong in one sentence: %s', (said, sentence) => {
    const said1 = troubles(`${SOME}, rotate: {${said}}`);
    expect(said1).toHaveLength(1);
    expect(said1[0]).toMatch(sentence);
  });

  it.each([
    ['keys: [C], rotate: from the hat', /nothing comes round, for it has one key and one way of tonguing/],
    ['keys: [C, F], rotate: {ends: 1 key 3 times}', /there is no middle/],
    [`${SOME}, rotate: {repetitions: 3}`, /repetitions are not counted, for its keys change with the block/],
    [`${SOME}, rotate: {repetitions: 3, change: rung}`, /repetitions are not counted.* with the rung/],
    ['keys: [C, F], rotate: {articulations: in turn}', /nothing takes turns/],
    [`${SOME}, work: clock, layers: [sing, play]`, /its layers never change, for it goes by the clock/],
  ])('is remarked on where it can never do what it says: %s', (settings, sentence) => {
    expect(exerciseWith(settings).remarks.join('\n')).toMatch(sentence);
  });
});

describe('layers in a file', () => {
  it('are a list of short cues', () => {
    expect(exerciseWith('layers: [sing, sing and play, play]').exercise.layers).toEqual([
      'sing',
      'sing and play',
      'play',
    ]);
    expect(exerciseWith('keys: [C]').exercise.layers).toBeUndefined();
  });

  it.each(['layers: []', 'layers: sing', 'layers: [1]', `layers: [${'a'.repeat(41)}]`])(
    'are told otherwise: %s',
    (said) => {
      expect(troubles(said)).toHaveLength(1);
      expect(troubles(said)[0]).toMatch(/'layers|'1'|'a+/);
    },
  );
});
