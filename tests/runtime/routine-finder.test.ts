import { join, sep } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  type LoadedRoutines,
  exercisesOf,
  findExercise,
  findRoutine,
  namesakeOf,
  orderedFor,
  routineFiles,
  routineFolders,
} from '../../src/runtime/files/routine-finder.ts';
import { eachInOwnFolder } from './folder.ts';
import { said } from './said.ts';
import { dayText, loadedFrom, put } from './routines.ts';

const folder = eachInOwnFolder();
const at = (...names: readonly string[]): string => join(folder(), ...names);

describe('the files of routines', () => {
  it('are the YAML files of a folder by name, but no hidden ones', () => {
    for (const name of ['b.yml', 'a.yaml', '.a.yaml', 'c.yaml.old', 'yaml', 'd.json', 'e.yaaml', 'xyaml'])
      put(at(name), 'routine: X\n');
    expect(routineFiles([folder()])).toEqual([at('a.yaml'), at('b.yml')]);
  });

  it('are the earlier folder’s where two have a name, and a missing folder has none', () => {
    put(at('one', 'b.yaml'), '');
    put(at('two', 'a.yaml'), '');
    put(at('two', 'b.yaml'), '');
    expect(routineFiles([at('none'), at('one'), at('two')])).toEqual([at('one', 'b.yaml'), at('two', 'a.yaml')]);
  });

  it('are the earlier folder’s where two names differ in their endings only; in one folder both are found', () => {
    put(at('one', 'b.yml'), '');
    put(at('two', 'b.yaml'), '');
    put(at('two', 'c.yaml'), '');
    put(at('two', 'c.yml'), '');
    const paths = routineFiles([at('one'), at('two')]);
    expect(paths).toEqual([at('one', 'b.yml'), at('two', 'c.yaml'), at('two', 'c.yml')]);
    expect(paths.map((path) => namesakeOf(path, paths))).toEqual([null, null, at('two', 'c.yaml')]);
    expect(namesakeOf(at('two', 'b.yaml'), paths)).toBeNull();
  });

  it('are looked for in the player’s folder and then in the packaged one', () => {
    const [own, packaged] = routineFolders(folder());
    expect(own).toBe(at('routines'));
    expect(routineFiles([packaged ?? '']).some((path) => path.endsWith(`${sep}cornet-daily.yaml`))).toBe(true);
  });

  it('in a folder that is none are one sentence', () => {
    put(at('file'), '');
    expect(said(() => routineFiles([at('file')]))).toBe(
      `The routines in ${at('file')} cannot be read: there is a file in its way.`,
    );
  });
});

function mine(): LoadedRoutines {
  const first = loadedFrom(put(at('first.yaml'), dayText('First')));
  const second = loadedFrom(put(at('second.yaml'), dayText('Second', 'first', 'instrument: flute\n')));
  const more = loadedFrom(put(at('more.yaml'), 'routine: More\nexercises: {long-tones: {}, first: {}}\n'));
  const troubles = [
    { file: 'odd.yml', line: 3, column: 4, sentence: 'what is this?' },
    { file: 'odd.yaml.yaml', line: 5, column: 6, sentence: 'and this?' },
  ];
  return { routines: [first, second], collections: [more], troubles };
}

describe('an exercise', () => {
  it('is the earlier routine’s where two have a name, and a collection’s too', () => {
    const { exercise, routine } = findExercise(mine(), 'first');
    expect(exercise.title).toBe('From First');
    expect(routine.title).toBe('First');
    expect(findExercise(mine(), 'long-tones').routine.title).toBe('More');
    expect([...exercisesOf(mine()).keys()]).toEqual(['first', 'long-tones']);
  });

  it('that is not there is a sentence with the nearest', () => {
    expect(said(() => findExercise(mine(), 'long-tone'))).toBe(
      "There is no exercise 'long-tone'; did you mean 'long-tones'?",
    );
    expect(said(() => findExercise(mine(), '\u009bqqqqqqqq'))).toBe(
      "There is no exercise '\\u009bqqqqqqqq'; 'standside exercises' lists them.",
    );
  });
});

describe('a routine', () => {
  it('is found by its name, with parts and without', () => {
    expect(findRoutine(mine(), 'second').routine.title).toBe('Second');
    expect(findRoutine(mine(), 'more').path).toBe(at('more.yaml'));
  });

  it('that cannot be used says why', () => {
    expect(said(() => findRoutine(mine(), 'odd'))).toBe(
      "The routine 'odd' cannot be used: odd.yml, line 3, column 4: what is this?",
    );
    expect(said(() => findRoutine(mine(), 'odd.yaml'))).toBe(
      "The routine 'odd.yaml' cannot be used: odd.yaml.yaml, line 5, column 6: and this?",
    );
  });

  it('that is not there is a sentence with the nearest, or with all of them', () => {
    expect(said(() => findRoutine(mine(), 'secnd'))).toBe("There is no routine 'secnd'; did you mean 'second'?");
    expect(said(() => findRoutine(mine(), '\u009bqqqqqqqq'))).toBe(
      "There is no routine '\\u009bqqqqqqqq'; there are first, second, more.",
    );
  });

  it('of the player’s own comes before a packaged one, whatever the instrument', () => {
    const own = mine();
    const [, packaged = ''] = routineFolders(folder());
    const cornet = loadedFrom(join(packaged, 'cornet-daily.yaml'));
    const flute = loadedFrom(join(packaged, 'flute-evening.yaml'));
    const names = (instrument: string): readonly string[] =>
      orderedFor({ ...own, routines: [cornet, flute, ...own.routines] }, instrument).routines.map(
        ({ routine }) => routine.id,
      );
    expect(names('flute')).toEqual(['first', 'second', flute.routine.id, cornet.routine.id]);
    expect(names('cornet')).toEqual(['first', 'second', cornet.routine.id, flute.routine.id]);
    expect(orderedFor(own, 'flute').collections).toBe(own.collections);
  });
});
