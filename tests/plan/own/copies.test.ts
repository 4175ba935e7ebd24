/** Copies of the packaged exercises, and own ones that are changed: what no form shows stays as it is. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packageRoot } from '../../../src/audio/package-folder.ts';
import { parseRoutine } from '../../../src/plan/file/routine-file.ts';
import type { Exercise } from '../../../src/plan/routine/exercise.ts';
import { formOf } from '../../../src/plan/own/form-of-exercise.ts';
import { mistakesIn } from '../../../src/plan/own/form-mistakes.ts';
import { OWN_FILE, keptIn } from '../../../src/plan/own/own-file.ts';
import { type OwnForm, isSameForm } from '../../../src/plan/own/own-form.ts';

const FILE = `${OWN_FILE}.yaml`;
const FOLDER = join(packageRoot(), 'routines');
const textOf = (name: string): string => readFileSync(join(FOLDER, name), 'utf8');
const include = (name: string) => ({ text: textOf(name) });

interface Packaged {
  readonly text: string;
  readonly exercise: Exercise;
}

function exercisesOf(text: string, name: string): readonly Exercise[] {
  const read = parseRoutine(text, name, include);
  if ('troubles' in read) throw new Error(`${read.troubles[0]?.sentence}\n${text}`);
  return read.routine.exercises;
}

const PACKAGED: readonly Packaged[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.yaml'))
  .flatMap((name) => {
    const text = textOf(name);
    return exercisesOf(text, name)
      .filter(({ file }) => `${file}.yaml` === name)
      .map((exercise) => ({ text, exercise }));
  });

/** The file with a copy in it, whose form says so. */
function copied({ text, exercise }: Packaged, change: Partial<OwnForm> = {}, before = ''): string {
  const form = { ...formOf(exercise), title: 'Copy', ...change };
  const beside = { name: 'b', history: 'b' };
  const keeping = { name: 'copy', before: null, form, history: 'copy', beside, copied: { text, exercise } };
  const kept = keptIn(before, FILE, keeping, include);
  if ('wrong' in kept) throw new Error(kept.wrong);
  return kept.text;
}

/** All that plays and is said, without under which names. */
function asPlayed({ id, name, file, history, title, ...rest }: Exercise): Partial<Exercise> {
  void [id, name, file, history, title];
  return rest;
}

const copyIn = (text: string): Exercise => {
  const [copy] = exercisesOf(text, FILE);
  if (!copy) throw new Error(text);
  return copy;
};

describe('a copy', () => {
  it.each(PACKAGED.map((one) => [`${one.exercise.file}/${one.exercise.name}`, one] as const))(
    'of %s is the same exercise under another name',
    (_, one) => {
      const copy = copyIn(copied(one));
      expect(copy).toMatchObject({ title: 'Copy', name: 'copy', history: 'copy', id: 'copy', file: OWN_FILE });
      expect(asPlayed(copy)).toEqual(asPlayed(one.exercise));
    },
  );

  it('has what every kind of setting says that no form shows', () => {
    const shown = (test: (one: Exercise) => boolean): boolean => PACKAGED.some(({ exercise }) => test(exercise));
    expect(shown(({ place }) => place !== undefined)).toBe(true);
    expect(shown(({ layers }) => layers !== undefined)).toBe(true);
    expect(shown(({ drone }) => drone !== undefined)).toBe(true);
    expect(shown(({ eachBreath }) => eachBreath !== undefined)).toBe(true);
    expect(shown(({ rotation }) => rotation?.change === 'repetition')).toBe(true);
    expect(shown(({ click }) => click.silentBars !== null)).toBe(true);
  });

  it('takes what was changed in the form, and nothing else of it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PACKAGED), fc.integer({ min: 1, max: 240 }), (one, minutes) => {
        const copy = copyIn(copied(one, { minutes: `${minutes}`, spot: 'bar 9' }));
        expect(asPlayed(copy)).toEqual({ ...asPlayed(one.exercise), minutes, spot: 'bar 9' });
      }),
      { numRuns: 100 },
    );
  });

  it('is not written where what was changed does not go with the rest, and that is said', () => {
    const text = 'exercises: {a: {tempo: 60 -> 90, ladder: 50 to 100}}';
    const [exercise] = exercisesOf(text, 'a.yaml');
    if (!exercise) throw new Error('nothing was read');
    expect(() => copied({ text, exercise }, { to: '140' })).toThrow(
      /^Not kept yet: 'tempo' is "60 -> 140"; write tempos on the ladder, from 50 to 100\.$/,
    );
  });

  it('of an exercise without its own register or note takes the file’s; its own one comes before the file’s', () => {
    const text = `defaults: {register: low, flow: yes, click: {subdivision: 2, voice: wood}}
exercises:
  plain: {pattern: 1 2 3 4}
  noted: {pattern: 1 2 3 4, from: G4, click: {subdivision: 3}}
`;
    for (const exercise of exercisesOf(text, 'a.yaml'))
      expect(asPlayed(copyIn(copied({ text, exercise })))).toEqual(asPlayed(exercise));
  });
});

describe('the form of a packaged exercise', () => {
  it.each(PACKAGED.map(({ exercise }) => [exercise.id, exercise] as const))('of %s has no mistake', (_, exercise) =>
    expect(mistakesIn(formOf(exercise))).toEqual([]),
  );
});

describe('an own exercise that is changed', () => {
  it('keeps what the form does not show, and its text but for what was changed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PACKAGED), fc.string({ minLength: 1, maxLength: 20 }), (one, typed) => {
        const text = copied(one);
        const before = formOf(copyIn(text));
        const form = { ...before, material: `p. ${typed.replace(/[^a-z0-9 ]/gi, '').trim()}` };
        if (isSameForm(form, before)) return;
        const beside = { name: 'b', history: 'b' };
        const kept = keptIn(text, FILE, { name: 'copy', before, form, history: 'copy', beside }, include);
        if ('wrong' in kept) throw new Error(kept.wrong);
        expect(asPlayed(copyIn(kept.text))).toEqual({ ...asPlayed(one.exercise), material: form.material.trim() });
      }),
      { numRuns: 100 },
    );
  });

  it('and that an editor has changed in the same field keeps them in both', () => {
    const one = PACKAGED.find(({ exercise }) => exercise.layers !== undefined);
    if (!one) throw new Error('no exercise has layers');
    const text = copied(one);
    const before = formOf(copyIn(text));
    const edited = copied(one, { material: 'the editor’s' });
    const form = { ...before, material: 'mine' };
    const beside = { name: 'beside', history: 'beside' };
    const kept = keptIn(edited, FILE, { name: 'copy', before, form, history: 'copy', beside }, include);
    if ('wrong' in kept) throw new Error(kept.wrong);
    const [theirs, mine] = exercisesOf(kept.text, FILE);
    expect([theirs?.layers, mine?.layers]).toEqual([one.exercise.layers, one.exercise.layers]);
    expect([theirs?.material, mine?.material]).toEqual(['the editor’s', 'mine']);
  });
});
