import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { loadRoutines, readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { eachInOwnFolder } from './folder.ts';
import { dayText, put } from './routines.ts';

const folder = eachInOwnFolder();
const at = (...names: readonly string[]): string => join(folder(), ...names);

const troubles = (path: string): readonly string[] => {
  const read = readRoutineFile(path);
  return 'troubles' in read ? read.troubles.map(troubleLine) : [];
};

describe('a routine file', () => {
  it('takes in another of its folder, also through a link', () => {
    put(at('common.yaml'), 'exercises: {five: {}}\n');
    symlinkSync('common.yaml', at('link.yaml'));
    const read = readRoutineFile(
      put(at('a.yaml'), 'include: link.yaml\nroutine: A\nparts: [{part: P, blocks: [five: 5]}]\n'),
    );
    expect('routine' in read && read.routine.exercises.map(({ id }) => id)).toEqual(['five']);
  });

  it.each([
    ['behind a file', 'file/a.yaml', 'a.yaml, line 1, column 1: there is a file in its way.'],
    ['that is a circle of links', 'round.yaml', 'round.yaml, line 1, column 1: its links go in a circle.'],
    ['that is not there', 'none.yaml', 'none.yaml, line 1, column 1: there is no such file.'],
    ['that is a folder', 'folder.yaml', 'folder.yaml, line 1, column 1: this is not an ordinary file.'],
  ])('%s is one sentence', (_, name, sentence) => {
    put(at('file'), '');
    mkdirSync(at('folder.yaml'));
    symlinkSync('round.yaml', at('round.yaml'));
    expect(troubles(at(name))).toEqual([sentence]);
  });

  it.each([
    ['a folder', 'folder.yaml', 'this is not an ordinary file.'],
    ['a circle of links', 'round.yaml', 'its links go in a circle.'],
  ])('does not take in %s', (_, name, sentence) => {
    mkdirSync(at('folder.yaml'));
    symlinkSync('round.yaml', at('round.yaml'));
    expect(troubles(put(at('a.yaml'), `include: ${name}\n`))).toEqual([
      `a.yaml, line 1, column 10: '${name}' cannot be included: ${sentence}`,
    ]);
  });

  it('may have a million bytes and no more', () => {
    const text = dayText('A');
    const most = put(at('a.yaml'), text + '#'.repeat(1_000_000 - text.length));
    expect(troubles(most)).toEqual([]);
    put(most, `${text}${'#'.repeat(1_000_001 - text.length)}`);
    expect(troubles(most)).toEqual([
      'a.yaml, line 1, column 1: the file is larger than a megabyte; that is no routine.',
    ]);
  });
});

describe('all routines', () => {
  it('are those with a day, those to be taken in, and what is wrong in the order of files and lines', () => {
    put(at('c.yaml'), 'routine: [\n');
    put(at('a.yaml'), 'tempi: 3\nroutine: A\nparts: 5\n');
    put(at('b.yaml'), dayText('B'));
    put(at('d.yaml'), 'exercises: {five: {}}\n');
    const { routines, collections, troubles: wrong } = loadRoutines([folder()]);
    expect(routines.map(({ path }) => path)).toEqual([at('b.yaml')]);
    expect(collections.map(({ path }) => path)).toEqual([at('d.yaml')]);
    expect(wrong.map(({ file, line }) => `${file} ${line}`)).toEqual(['a.yaml 1', 'a.yaml 3', 'c.yaml 2']);
  });

  it('are each one file: of two whose names differ in their endings the first counts, and the other is said', () => {
    put(at('a.yaml'), dayText('First'));
    put(at('a.yml'), dayText('Second'));
    const { routines, troubles: wrong } = loadRoutines([folder()]);
    expect(routines.map(({ routine }) => routine.title)).toEqual(['First']);
    expect(wrong.map(troubleLine)).toEqual([
      'a.yml, line 1, column 1: a.yaml has the same name but for its ending, and is the one that is used; give this ' +
        'file another name.',
    ]);
  });
});
