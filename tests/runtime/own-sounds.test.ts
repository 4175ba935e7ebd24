import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { encodeWav } from '../../src/audio/file/wav.ts';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { checkSounds } from '../../src/runtime/files/missing-sounds.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { exercisesOf } from '../../src/runtime/files/routine-finder.ts';
import { eachInOwnFolder } from './folder.ts';
import { loadedFrom, put } from './routines.ts';

const own = eachInOwnFolder();

const routine = `routine: Own sounds
exercises:
  mine:
    tempo: 60 -> 80
    click: { voice: my click.wav }
  missing:
    tempo: 60 -> 80
    click: { voice: gone.wav }
  too-many:
    tempo: 60 -> 80
    click: { on: [2, 7] }
`;

it("finds the player's own click beside the routine, and names what cannot be struck", () => {
  const folder = own();
  mkdirSync(join(folder, 'routines'));
  writeFileSync(join(folder, 'routines', 'own.yaml'), routine);
  const samples = Float32Array.from({ length: 480 }, (_, i) => Math.cos(i / 3) * Math.exp(-i / 99));
  writeFileSync(join(folder, 'routines', 'my click.wav'), encodeWav({ rate: 48_000, samples }, '16'));
  const loaded = checkSounds(loadRoutines([join(folder, 'routines')]));
  const voiceOf = (id: string) => exercisesOf(loaded).get(id)?.exercise.click.voice;
  expect(voiceOf('mine')).toBe(join(folder, 'routines', 'my click.wav'));
  expect(voiceOf('missing')).toBe('wood');
  expect(exercisesOf(loaded).get('too-many')?.exercise.click.on).toBe('beats');
  const lines = loaded.troubles.map(troubleLine);
  expect(lines[0]).toMatch(
    /^own\.yaml, line 8, column 1: Click sound ".*gone\.wav": there is no such file; give a WAV file/,
  );
  expect(lines[1]).toMatch(/^own\.yaml, line 9, column 1: Click: chosen beats must be whole numbers from 1 to 4\.$/);
  expect(lines).toHaveLength(2);
});

it('leaves every other exercise as it is, and says where it looked when the file is gone', () => {
  const folder = own();
  const path = put(
    join(folder, 'a.yaml'),
    'routine: A\nexercises:\n  plain: {}\n  bell: {click: {voice: bell}}\n  own: {click: {voice: gone.wav}}\n',
  );
  const routines = [loadedFrom(path)];
  const earlier = { file: 'z.yaml', line: 1, column: 1, sentence: 'earlier.' };
  const checked = checkSounds({ routines, collections: routines, troubles: [earlier] });
  const [plain, bell, gone] = routines[0]?.routine.exercises ?? [];
  expect(checked.routines[0]?.routine.exercises[0]).toBe(plain);
  expect(checked.routines[0]?.routine.exercises[1]).toBe(bell);
  expect(checked.collections[0]?.routine.exercises[2]).toMatchObject({ id: gone?.id, click: { voice: 'wood' } });
  expect(checked.troubles.map(({ file, line, column }) => [file, line, column])).toEqual([
    ['a.yaml', 5, 1],
    ['a.yaml', 5, 1],
    ['z.yaml', 1, 1],
  ]);
  rmSync(path);
  expect(checkSounds({ routines, collections: [], troubles: [] }).troubles[0]).toMatchObject({
    file: 'a.yaml',
    line: 1,
  });
  put(path, 'nothing of the kind\n');
  expect(checkSounds({ routines, collections: [], troubles: [] }).troubles[0]).toMatchObject({
    file: 'a.yaml',
    line: 1,
  });
});

describe('a click sound that somebody else has chosen', () => {
  const SAID = /it leads out of the routine's folder/;
  const said = (voice: string): readonly string[] => {
    const path = put(join(own(), 'routines', 'a.yaml'), `routine: A\nexercises:\n  one: {click: {voice: ${voice}}}\n`);
    const checked = checkSounds({ routines: [], collections: [loadedFrom(path)], troubles: [] });
    expect(checked.collections[0]?.routine.exercises[0]?.click.voice).toBe('wood');
    return checked.troubles.map(({ sentence }) => sentence);
  };
  const beside = (name: string): string => join(own(), 'routines', name);

  beforeEach(() => void mkdirSync(join(own(), 'routines')));

  it.each(['/dev/zero', '/etc/passwd', '../outside.wav', '/dev/null'])('lies beside its routine: %s', (voice) => {
    put(join(own(), 'outside.wav'), 'x');
    expect(said(voice)).toMatchObject([expect.stringMatching(SAID)]);
  });

  it('lies there after its links are followed', () => {
    symlinkSync('/dev/zero', beside('link.wav'));
    expect(said('link.wav')).toMatchObject([expect.stringMatching(SAID)]);
  });

  it('is no pipe, which would never answer', () => {
    execFileSync('mkfifo', [beside('pipe.wav')]);
    expect(said('pipe.wav')).toMatchObject([expect.stringMatching(/it is not an ordinary file; give a WAV file/)]);
  });
});
