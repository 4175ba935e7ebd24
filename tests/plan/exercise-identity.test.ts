/** Under which name an exercise is kept where several files have the same one. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { KEPT } from '../diary/kept.ts';
import type { DayEntry } from '../../src/diary/entry.ts';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { type ReadInclude, parseRoutine } from '../../src/plan/file/routine-file.ts';
import { identified } from '../../src/plan/routine/exercise-identity.ts';
import { type Routine, exerciseOf } from '../../src/plan/routine/routine.ts';
import { restoreRun } from '../../src/plan/run/interrupted-sitting.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { exercisesOf, findExercise, orderedFor } from '../../src/runtime/files/routine-finder.ts';

const alone: ReadInclude = () => ({ trouble: 'there is no such file.' });

function file(name: string, text: string, read: ReadInclude = alone): Routine {
  const parsed = parseRoutine(text, `${name}.yaml`, read);
  if ('troubles' in parsed) throw new Error(parsed.troubles.map(troubleLine).join('\n'));
  return parsed.routine;
}

const day = (exercise: string, more = ''): string =>
  `exercises: {five-notes: {${exercise}}, thirds: {}}\npools: {fingers: [five-notes, thirds]}\n` +
  `parts: [{part: All, blocks: [five-notes: 5, fingers: 5, {do: Breathe}, rest: 1]}]\n${more}`;

const idsOf = ({ exercises }: Routine): readonly string[] => exercises.map(({ id }) => id);

describe('two files with an exercise of the same name', () => {
  const [mine, theirs] = identified([file('mine', day('title: Mine')), file('theirs', day('title: Theirs'))]);
  if (mine === undefined || theirs === undefined) throw new Error('two files');

  it('keep it apart: the first under its name, the other under its file and name', () => {
    expect(idsOf(mine)).toEqual(['five-notes', 'thirds']);
    expect(idsOf(theirs)).toEqual(['theirs/five-notes', 'theirs/thirds']);
    expect(theirs.exercises[0]).toMatchObject({ name: 'five-notes', file: 'theirs', title: 'Theirs' });
  });

  it('play each their own, in blocks and out of pools', () => {
    expect(theirs.parts[0]?.blocks.map(({ id, content }) => [id, content])).toEqual([
      ['five-notes', { is: 'exercise', exercise: 'theirs/five-notes' }],
      ['fingers', { is: 'pool', pool: 'fingers' }],
      ['breathe', { is: 'body' }],
      ['rest', { is: 'rest' }],
    ]);
    expect(theirs.pools[0]?.items).toEqual(['theirs/five-notes', 'theirs/thirds']);
    expect(exerciseOf(theirs, 'theirs/five-notes')?.title).toBe('Theirs');
    const plan = todaysPlan(theirs, { minutes: 20, before: playedBefore('2026-11-25', [], []), seed: 1 });
    expect(plan.items.flatMap(({ exercise }) => exercise ?? [])).toEqual(['theirs/five-notes', 'theirs/thirds']);
  });

  it('find what was kept under the bare name in either of them', () => {
    expect(exerciseOf(mine, 'five-notes')?.title).toBe('Mine');
    expect(exerciseOf(theirs, 'five-notes')?.title).toBe('Theirs');
    expect(exerciseOf(theirs, 'mine/five-notes')).toBeNull();
  });

  it('are settled once and for all', () => {
    expect(identified([mine, theirs])).toEqual([mine, theirs]);
    expect(identified([theirs]).map(idsOf)).toEqual([['five-notes', 'thirds']]);
  });

  it('go on with a sitting that was planned before the other file was there', () => {
    const stamp = { ...KEPT, at: '', day: '2026-11-25', routine: 'theirs' };
    const block = { part: 'all', block: 'five-notes', exercise: 'five-notes' };
    const begun: readonly DayEntry[] = [
      { ...stamp, kind: 'plan', items: [{ ...block, length: 300, before: 0 }] },
      { ...stamp, kind: 'block', ...block, event: 'left', played: 60, length: 300 },
    ];
    const run = restoreRun(theirs, '2026-11-25', begun, 0);
    expect(run?.items[0]).toMatchObject({ title: 'Theirs', exercise: 'theirs/five-notes', played: 60 });
    const plan = todaysPlan(theirs, { minutes: 10, before: playedBefore('2026-11-25', begun, []), seed: 1 });
    expect(plan.items[0]).toMatchObject({ title: 'Theirs', exercise: 'theirs/five-notes' });
  });
});

const common: ReadInclude = () => ({ text: 'exercises: {tall: {}}\n' });
const INCLUDING = 'include: common.yaml\nexercises: {}\n';

describe('an exercise', () => {
  it('that several files include is the same in all of them', () => {
    const routines = identified([file('a', INCLUDING, common), file('b', INCLUDING, common)]);
    expect(routines.map(idsOf)).toEqual([['tall'], ['tall']]);
    expect(routines[0]?.exercises[0]).toMatchObject({ file: 'common' });
  });

  it('that is included and one of the same name elsewhere are two', () => {
    const routines = [file('a', 'exercises: {tall: {}}'), file('b', INCLUDING, common), file('c', INCLUDING, common)];
    expect(identified(routines).map(idsOf)).toEqual([['tall'], ['common/tall'], ['common/tall']]);
    expect(identified(routines.toReversed()).map(idsOf)).toEqual([['tall'], ['tall'], ['a/tall']]);
  });

  it('may name its history, and then uses up no name', () => {
    const routines = identified([
      file('a', 'exercises: {tall: {history: my-tall}}'),
      file('b', 'exercises: {tall: {}}'),
      file('c', 'exercises: {tall: {history: a/tall}}'),
    ]);
    expect(routines.map(idsOf)).toEqual([['my-tall'], ['tall'], ['a/tall']]);
  });

  it('that names its history is played under it', () => {
    const routine = file('a', day('history: mine'));
    expect(idsOf(routine)).toEqual(['mine', 'thirds']);
    expect(routine.parts[0]?.blocks[0]?.content).toEqual({ is: 'exercise', exercise: 'mine' });
    expect(routine.pools[0]?.items).toEqual(['mine', 'thirds']);
    expect(routine.exercises[0]).toMatchObject({ title: 'Five notes', name: 'five-notes', history: 'mine' });
  });

  // Unicode NFC and NFD: one name in two spellings, as different systems keep file names.
  it.each([
    ['Übung für abends', 'Übung-für-abends/tall'],
    ['Übung'.normalize('NFD'), 'Übung/tall'.normalize('NFC')],
    ['a · b\n\u001b[2J', 'a-b-2J/tall'],
    ['my.plan_2', 'my.plan_2/tall'],
  ])('takes the name of a file as what can be kept: %j', (name, id) => {
    expect(
      identified([file('first', 'exercises: {tall: {}}'), file(name, 'exercises: {tall: {}}')]).at(-1),
    ).toMatchObject({ exercises: [{ id }] });
  });
});

const sentences = (text: string, read: ReadInclude = alone): readonly string[] => {
  const parsed = parseRoutine(text, 'a.yaml', read);
  return 'troubles' in parsed ? parsed.troubles.map(troubleLine) : [];
};

describe('a history', () => {
  it.each([
    ['{x: {}, y: {history: x}}', "line 1, column 33: 'x' is kept under 'x' already; choose another name."],
    ['{x: {history: y}, y: {}}', "line 1, column 30: 'x' is kept under 'y' already; choose another name."],
    ['{x: {history: z}, y: {history: z}}', "line 1, column 43: 'x' is kept under 'z' already; choose another name."],
    ['{x: {}, y: {history: a/x}}', "line 1, column 33: 'x' is kept under 'a/x' already; choose another name."],
    [
      '{x: {history: a b}}',
      'line 1, column 26: \'history\' is "a b"; write a short name, or one with its file like cornet-daily/five-notes.',
    ],
  ])('belongs to one exercise of a routine: %s', (exercises, sentence) => {
    expect(sentences(`exercises: ${exercises}`)).toEqual([`a.yaml, ${sentence}`]);
  });

  it('may be the own name, and one that came in is said once', () => {
    expect(sentences('exercises: {x: {history: x}}')).toEqual([]);
    expect(sentences('include: b.yaml\nexercises: {x: {}}', () => ({ text: 'exercises: {x: {}}' }))).toEqual([
      "a.yaml, line 2, column 13: an exercise 'x' came in from an included file; choose another name.",
    ]);
  });
});

describe('routines from the disk', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'standside-'));
    for (const name of ['own', 'packaged']) mkdirSync(join(folder, name));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  const loaded = () => loadRoutines([join(folder, 'own'), join(folder, 'packaged')]);
  const put = (path: string, text: string): void => writeFileSync(join(folder, path), text);

  it("leave the bare name to the player's own file, and list both", () => {
    put('packaged/a-day.yaml', day('title: Packaged'));
    put('own/mine.yaml', day('title: Own'));
    const listed = [...exercisesOf(loaded()).values()].map(({ exercise }) => [exercise.id, exercise.title]);
    expect(listed).toEqual([
      ['five-notes', 'Own'],
      ['thirds', 'Thirds'],
      ['a-day/five-notes', 'Packaged'],
      ['a-day/thirds', 'Thirds'],
    ]);
  });

  it("do not depend on the player's instrument, which only orders them", () => {
    put('packaged/a.yaml', `instrument: flute\n${day('')}`);
    put('packaged/b.yaml', `instrument: tuba\n${day('')}`);
    for (const instrument of ['flute', 'tuba'])
      expect([...exercisesOf(orderedFor(loaded(), instrument)).keys()].toSorted()).toEqual([
        'b/five-notes',
        'b/thirds',
        'five-notes',
        'thirds',
      ]);
  });

  it('are found by the bare name, and by file and name whatever they are kept under', () => {
    put('own/mine.yaml', day('title: Own'));
    put('packaged/a-day.yaml', day('title: Packaged'));
    expect(findExercise(loaded(), 'five-notes').exercise.title).toBe('Own');
    expect(findExercise(loaded(), 'mine/five-notes').exercise.title).toBe('Own');
    expect(findExercise(loaded(), 'a-day/five-notes').exercise.title).toBe('Packaged');
    expect(() => findExercise(loaded(), 'a-day/fife-notes')).toThrow("did you mean 'a-day/five-notes'?");
  });
});
