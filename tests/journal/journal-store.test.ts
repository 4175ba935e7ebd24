import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCache } from '../../src/journal/fold-cache.ts';
import { stampOf } from '../../src/journal/journal-disk.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { isMishap } from '../../src/common/mishap.ts';
import { readFold } from '../../src/journal/journal-store.ts';
import { writer } from './entries.ts';
import { marksIn, sound, storeInFolder } from './in-folder.ts';

const { files, opened } = storeInFolder();
const folded = () => sound(readFold(files())).fold;

const cached = () => {
  const stamp = stampOf(files().journal);
  return stamp && readCache(files().cache, stamp);
};

describe('the store', () => {
  it('knows after closing and opening what it knew before, from the cache and without it', () => {
    const write = writer();
    const store = opened();
    const entries = [
      write.mark('clean', 88),
      write.mark('clean', 88),
      write.mark('clean', 88, 91),
      write.mark('missed', 91),
    ];
    for (const entry of entries) expect(isMishap(store.append(entry))).toBe(false);
    store.close();
    expect(cached()).toEqual(foldAll(entries));
    expect(folded()).toEqual(foldAll(entries));
    fs.rmSync(files().cache);
    expect(folded()).toEqual(foldAll(entries));
    expect(opened().fold().lines).toEqual(foldAll(entries).lines);
  });

  it('throws a cache away that does not fit the journal', () => {
    const write = writer();
    const store = opened();
    const [first, second] = [write.mark('clean', 88), write.mark('missed', 88)];
    store.append(first);
    store.close();
    fs.appendFileSync(files().journal, `${JSON.stringify(second)}\n`);
    expect(cached()).toBeNull();
    expect(folded()).toEqual(foldAll([first, second]));
  });

  it.each(['', '{', 'null', '{"v":1}', '{"v":99}'])('throws away a cache that holds %j', (text) => {
    const store = opened();
    store.append(writer().mark('clean', 88));
    store.close();
    fs.writeFileSync(files().cache, text);
    expect(cached()).toBeNull();
    expect(marksIn(folded())).toBe(1);
  });

  it('undoes a mark of an earlier sitting', () => {
    const write = writer();
    const earlier = opened();
    const mark = write.mark('clean', 88);
    earlier.append(mark);
    earlier.close();
    const store = opened();
    const undo = write.undo(mark.id);
    store.append(undo);
    expect(store.fold()).toEqual(foldAll([mark, undo]));
    store.close();
  });

  it('says at every start which lines it leaves out', () => {
    fs.writeFileSync(files().journal, 'what is this\n');
    for (const _ of [1, 2]) {
      const store = opened();
      expect(store.notices).toEqual([`${files().journal}: left out, but kept in the file: line 1 (it is not JSON).`]);
      store.close();
    }
  });
});
