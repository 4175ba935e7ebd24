import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { type Instrument, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { totalMinutes } from '../../src/plan/today/plan-items.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { BLOCK_KEYS, WrittenExercise, WrittenRoutine } from '../../src/plan/file/routine-schema.ts';
import { blocksOf } from '../../src/plan/routine/routine.ts';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { routinesOf } from '../../src/runtime/files/routine-cache.ts';
import { loadRoutines, readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { findExercise, orderedFor } from '../../src/runtime/files/routine-finder.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'standside-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const put = (name: string, text: string | Uint8Array): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};

const wrong = (path: string): string => {
  const read = readRoutineFile(path);
  return 'troubles' in read ? read.troubles.map(troubleLine).join('\n') : '';
};

describe('the packaged routines', () => {
  const packaged = loadRoutines([join(packageRoot(), 'routines')]);

  it('are all sound', () => {
    expect(packaged.troubles.map(troubleLine)).toEqual([]);
    expect(packaged.routines.length).toBeGreaterThan(0);
  });

  it('hold at least eight exercises for the cornet player', () => {
    const cornet = packaged.routines.find(({ routine }) => routine.id === 'cornet-daily')?.routine;
    expect(cornet?.exercises.length).toBeGreaterThanOrEqual(8);
    expect(cornet?.exercises.find(({ id }) => id === 'five-notes')?.keys).toHaveLength(12);
  });

  it('are at least four with a day, for different instruments, one of ten minutes', () => {
    expect(packaged.routines.length).toBeGreaterThanOrEqual(4);
    expect(new Set(packaged.routines.map(({ routine }) => routine.instrument)).size).toBeGreaterThanOrEqual(4);
    const lengths = packaged.routines.map(({ routine }) =>
      blocksOf(routine).reduce((sum, { minutes }) => sum + minutes, 0),
    );
    expect(lengths).toContain(10);
  });

  it.each(packaged.routines.map(({ routine }) => [routine.id, routine] as const))(
    '%s can be played: every pattern fits the instrument in every key',
    (_, routine) => {
      const instrument = instrumentNamed(routine.instrument) as Instrument;
      for (const exercise of routine.exercises) {
        for (const key of exercise.pattern === null ? [] : exercise.keys) {
          const written = writeOut({ ...exercise, pattern: exercise.pattern ?? '', key, instrument });
          expect(
            isPassage(written)
              ? ''
              : `${exercise.id} in ${key}: ${written.troubles.map(({ sentence }) => sentence).join(' ')}`,
          ).toBe('');
        }
      }
    },
  );

  it.each(packaged.routines.map(({ routine }) => [routine.id, routine] as const))(
    '%s fits into 5, 25 and 90 minutes, warm-up first',
    (_, routine) => {
      for (const minutes of [5, 25, 90]) {
        const plan = todaysPlan(routine, { minutes, before: playedBefore('2026-11-25', [], []), seed: 1 });
        expect(plan.items[0]?.warmUp).toBe(true);
        expect(totalMinutes(plan.items)).toBeLessThanOrEqual(minutes);
      }
    },
  );

  it("come in the player's order: their instrument's first", () => {
    expect(orderedFor(packaged, 'flute').routines[0]?.routine.instrument).toBe('flute');
    expect(orderedFor(packaged, 'cornet').routines[0]?.routine.instrument).toBe('cornet');
  });

  it("come after the player's own, whose folder may begin with the program's whole name", () => {
    const [any] = packaged.routines;
    if (any === undefined) throw new Error('no packaged routine');
    const own = {
      ...any,
      path: `${packageRoot()}-data/routines/mine.yaml`,
      routine: { ...any.routine, id: 'mine', instrument: 'tuba' },
    };
    expect(orderedFor({ ...packaged, routines: [...packaged.routines, own] }, 'flute').routines[0]?.routine.id).toBe(
      'mine',
    );
    expect(packaged.collections.map(({ routine }) => routine.id)).toEqual(['body-common']);
  });

  it('are explained with an example that is sound', () => {
    const [, text = ''] =
      /```yaml\n([\s\S]*?)```/.exec(readFileSync(join(packageRoot(), 'routines', 'README.md'), 'utf8')) ?? [];
    const parsed = parseRoutine(text, 'readme.yaml', () => ({ trouble: 'none' }));
    expect('troubles' in parsed ? parsed.troubles.map(troubleLine) : parsed.routine.title).toBe('Ten minutes');
  });

  it('are explained setting by setting, none forgotten', () => {
    const readme = readFileSync(join(packageRoot(), 'routines', 'README.md'), 'utf8');
    const settings = [...Object.keys(WrittenExercise.shape), ...Object.keys(WrittenRoutine.shape), ...BLOCK_KEYS];
    expect(settings.filter((setting) => !readme.includes(`\`${setting}\``))).toEqual([]);
  });

  it('find an exercise, or suggest the nearest', () => {
    expect(findExercise(packaged, 'five-notes').exercise.title).toBe('Five-note study');
    expect(() => findExercise(packaged, 'five-ntoes')).toThrow(
      "There is no exercise 'five-ntoes'; did you mean 'five-notes'?",
    );
    expect(() => findExercise(packaged, '\u001b[2Jqqqqqqqq')).toThrow(
      "There is no exercise '\\u001b[2Jqqqqqqqq'; 'standside exercises' lists them.",
    );
  });
});

describe("the player's own folder", () => {
  it('comes first, file by file, and one bad file does not hide the others', () => {
    const second = join(folder, 'second');
    mkdirSync(second);
    put('a.yaml', 'routine: Mine\nexercises: {x: {}}\nparts: [{part: A, blocks: [x: 5]}]\n');
    put('bad.yaml', 'routine: [\n');
    put('second/a.yaml', 'routine: Theirs\n');
    put('second/c.yaml', 'routine: Third\nparts: [{part: A, blocks: [{do: Breathe}]}]\n');
    const loaded = loadRoutines([folder, second, join(folder, 'missing')]);
    expect(loaded.routines.map(({ routine }) => routine.title)).toEqual(['Mine', 'Third']);
    expect(loaded.troubles.map(({ file }) => file)).toEqual(['bad.yaml']);
  });
});

const own = (): string => join(folder, 'routines', 'mine.yaml');
const titles = async (): Promise<readonly string[]> =>
  (await routinesOf(folder)).routines.map(({ routine }) => routine.title);
const write = (title: string): void => {
  mkdirSync(join(folder, 'routines'), { recursive: true });
  writeFileSync(own(), `routine: ${title}\nparts: [{part: A, blocks: [{do: Breathe}]}]\n`);
};

describe('the cache of what was read', () => {
  it('gives the same as reading', async () => {
    write('One');
    const read = await routinesOf(folder);
    expect(existsSync(join(folder, 'routines-read.json'))).toBe(true);
    expect(await routinesOf(folder)).toEqual(read);
  });

  it('counts no longer when a file changed, came or went', async () => {
    write('One');
    expect(await titles()).toContain('One');
    write('Another');
    expect(await titles()).toContain('Another');
    rmSync(own());
    expect(await titles()).not.toContain('Another');
  });

  it('is read anew when it is broken, and missed by nobody when it cannot be written', async () => {
    write('One');
    writeFileSync(join(folder, 'routines-read.json'), '{"stamp": 3');
    expect(await titles()).toContain('One');
    expect((await routinesOf(join(folder, 'nowhere'))).routines.length).toBeGreaterThan(0);
  });
});

describe('files that are none of ours', () => {
  it.each([
    ['ten megabytes', () => put('big.yaml', 'x'.repeat(10_000_000)), 'larger than a megabyte'],
    ['Latin-1', () => put('l.yaml', new Uint8Array([0x61, 0xe9])), 'line 1, column 2: a letter here is not UTF-8'],
    ['no file', () => join(folder, 'no.yaml'), 'there is no such file'],
    ['a folder', () => folder, 'this is not an ordinary file'],
    [
      'a missing include',
      () => put('i.yaml', 'include: no.yaml\n'),
      "'no.yaml' cannot be included: there is no such file.",
    ],
  ])('%s', (_, make, said) => {
    expect(wrong(make())).toContain(said);
  });

  it('a link that leads out of the folder is not followed', () => {
    const inner = join(folder, 'inner');
    mkdirSync(inner);
    put('secret.yaml', 'exercises: {s: {}}\n');
    symlinkSync(join(folder, 'secret.yaml'), join(inner, 'link.yaml'));
    expect(wrong(put('inner/a.yaml', 'include: link.yaml\n'))).toContain("'link.yaml' leads out of this folder");
  });
});
