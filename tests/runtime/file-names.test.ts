/** A file name may hold anything but a slash: what a terminal would obey gets no further than the folder. */
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { routinesOf } from '../../src/runtime/files/routine-cache.ts';
import { eachInOwnFolder } from './folder.ts';
import { put } from './routines.ts';

const own = eachInOwnFolder();

/** OSC 52, which writes to the clipboard in terminals that know it (xterm's control sequences). */
const CLIPBOARD = '\u001b]52;c;cm0gLXJm\u0007';

it('a routine whose name a terminal obeys is left out, and that is said, from the cache too', async () => {
  mkdirSync(join(own(), 'routines'));
  put(join(own(), 'routines', 'good.yaml'), 'routine: Good\nexercises: {one: {}}\n');
  await routinesOf(own());
  put(join(own(), 'routines', `${CLIPBOARD}.yaml`), 'exercises: {two: {}}\n');
  symlinkSync('/dev/zero', join(own(), 'routines', 'a\u202eb.yaml'));
  for (const loaded of [await routinesOf(own()), await routinesOf(own())]) {
    const lines = loaded.troubles.map(troubleLine);
    expect(lines).toEqual([
      expect.stringMatching(/^\\u001b\]52;c;cm0gLXJm\\u0007\.yaml, line 1, column 1: this file is left out/),
      expect.stringMatching(/^a\\u202eb\.yaml, line 1, column 1: this file is left out/),
    ]);
    const ids = [...loaded.routines, ...loaded.collections].map(({ routine }) => routine.id);
    expect(ids).toContain('good');
    expect(ids.join('')).not.toContain('\u001b');
  }
});
