/** The store: what it says of lines it cannot read, whose line an entry moves, and when its cache counts. */
import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isMishap } from '../../src/common/mishap.ts';
import { readCache, writeCache } from '../../src/journal/fold-cache.ts';
import { stampOf } from '../../src/journal/journal-disk.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { badLinesSentence, openStore, readFold } from '../../src/journal/journal-store.ts';
import { lineName } from '../../src/ladder/line.ts';
import { LINE, writer } from './entries.ts';
import { marksIn, sound, storeInFolder } from './in-folder.ts';

const { files, opened } = storeInFolder();
const marksRead = () => marksIn(sound(readFold(files())).fold);

describe('lines that are no entries', () => {
  const bad = (n: number) =>
    Array.from({ length: n }, (_, i) => ({ line: i + 1, text: 'x', reason: 'it is not JSON' }));

  it('are named one by one up to three, and the others counted', () => {
    expect(badLinesSentence('j', [])).toBeNull();
    expect(badLinesSentence('j', bad(3))).toBe(
      'j: left out, but kept in the file: line 1 (it is not JSON), line 2 (it is not JSON), line 3 (it is not JSON).',
    );
    expect(badLinesSentence('j', bad(5))).toMatch(/line 3 \(it is not JSON\) and 2 more\.$/);
  });

  it('keep the journal from being cached, so that they are said again; what is good counts', () => {
    const mark = writer().mark('clean', 88);
    fs.writeFileSync(files().journal, `{}\n${JSON.stringify(mark)}\n`);
    const store = opened();
    expect(store.notices).toHaveLength(1);
    expect(marksIn(store.fold())).toBe(1);
    store.close();
    expect(fs.existsSync(files().cache)).toBe(false);
    expect(marksRead()).toBe(1);
    expect(readFold(files())).toMatchObject({ bad: [{ line: 1 }] });
  });

  it('a line that was cut off is said together with them', () => {
    fs.writeFileSync(files().journal, 'nonsense\n{"v":1');
    const store = opened();
    expect(store.notices).toHaveLength(2);
    expect(store.notices[1]).toMatch(/line 1/);
    store.close();
    const again = opened();
    expect(again.notices).toHaveLength(1);
    again.close();
  });
});

describe('an entry that is put on the disk', () => {
  it('is on it before the call returns, and names the line that it moves', () => {
    const write = writer();
    const store = opened();
    const mark = write.mark('clean', 88);
    expect(store.append(mark)).toEqual({ line: lineName(LINE) });
    expect(fs.readFileSync(files().journal, 'utf8')).toBe(`${JSON.stringify(mark)}\n`);
    expect(store.append(write.note('fine'))).toEqual({ line: null });
    expect(store.append(write.undo(mark.id))).toEqual({ line: lineName(LINE) });
    expect(store.append(write.undo('00000000-0000-7000-8000-000000000000'))).toEqual({ line: null });
    expect(store.entries()).toHaveLength(4);
    store.close();
  });

  it('that takes back a mark of an earlier start names its line too, and of a note none', () => {
    const write = writer();
    const first = opened();
    const [mark, note] = [write.mark('clean', 88), write.note('fine')];
    for (const entry of [mark, note]) first.append(entry);
    first.close();
    const second = opened();
    expect(second.append(write.undo(note.id))).toEqual({ line: null });
    expect(second.append(write.undo(mark.id))).toEqual({ line: lineName(LINE) });
    expect(second.fold().others).toEqual([]);
    expect(marksIn(second.fold())).toBe(0);
    second.close();
  });

  it.skipIf(!fs.existsSync('/dev/full'))('that cannot be written counts for nothing, and a sentence says so', () => {
    // Where every write fails because the disk is full: full(4) of the Linux manual pages.
    fs.symlinkSync('/dev/full', files().journal);
    const store = opened();
    const kept = store.append(writer().mark('clean', 88));
    expect(kept).toMatchObject({ sentence: expect.stringContaining('full') });
    expect(store.fold()).toEqual(foldAll([]));
    store.close();
  });
});

describe('a journal that cannot be read', () => {
  it('is no empty one: opening and reading both say what is wrong', () => {
    fs.mkdirSync(files().journal);
    expect(isMishap(openStore(files()))).toBe(true);
    expect(isMishap(readFold(files()))).toBe(true);
  });

  it('a journal that is not there yet says nothing, and is not made by reading', () => {
    expect(readFold(files())).toEqual({ fold: foldAll([]), bad: [] });
    expect(fs.existsSync(files().journal)).toBe(false);
  });

  it('while the program runs, leaves what is known as it was', () => {
    const write = writer();
    const first = opened();
    const mark = write.mark('clean', 88);
    first.append(mark);
    first.close();
    const second = opened();
    fs.renameSync(files().journal, `${files().journal}.away`);
    fs.mkdirSync(files().journal);
    expect(isMishap(second.entries())).toBe(true);
    // Kept in a file that nobody finds any more is not kept.
    expect(isMishap(second.append(write.undo(mark.id)))).toBe(true);
    expect(marksIn(second.fold())).toBe(1);
    second.close();
  });
});

describe('the cache', () => {
  it('counts only for the very size and moment of the journal', () => {
    const store = opened();
    store.append(writer().mark('clean', 88));
    store.close();
    const stamp = stampOf(files().journal)!;
    expect(marksIn(readCache(files().cache, stamp)!)).toBe(1);
    expect(readCache(files().cache, { ...stamp, bytes: stamp.bytes + 1 })).toBeNull();
    expect(readCache(files().cache, { ...stamp, changed: stamp.changed + 1 })).toBeNull();
  });

  it('is what a start goes by: it is not read again from the journal', () => {
    const write = writer();
    const store = opened();
    store.append(write.mark('clean', 88));
    store.close();
    const two = foldAll([write.mark('clean', 60), write.mark('clean', 60)]);
    writeCache(files().cache, stampOf(files().journal)!, two);
    expect(marksRead()).toBe(2);
    expect(readFold(files())).toMatchObject({ bad: [] });
    const again = opened();
    expect(again.fold().lines).toEqual(two.lines);
    again.close();
  });

  it('is for its owner alone, though it was readable before', () => {
    const close = (): void => {
      const store = opened();
      store.append(writer().mark('clean', 88));
      store.close();
    };
    close();
    expect(fs.statSync(files().cache).mode & 0o777).toBe(0o600);
    fs.chmodSync(files().cache, 0o644);
    fs.rmSync(files().journal);
    close();
    expect(fs.statSync(files().cache).mode & 0o777).toBe(0o600);
  });

  it('in which one sign has changed is noticed, and made again', () => {
    const store = opened();
    store.append(writer().mark('clean', 88));
    store.close();
    const good = fs.readFileSync(files().cache, 'utf8');
    const damaged = good.replace('"bpm":88', '"bpm":98');
    expect(damaged).not.toBe(good);
    fs.writeFileSync(files().cache, damaged);
    expect(readCache(files().cache, stampOf(files().journal)!)).toBeNull();
    opened().close();
    expect(fs.readFileSync(files().cache, 'utf8')).toBe(good);
  });

  it('of another version is thrown away', () => {
    const store = opened();
    store.append(writer().mark('clean', 88));
    store.close();
    const document = JSON.parse(fs.readFileSync(files().cache, 'utf8')) as { v: number };
    fs.writeFileSync(files().cache, JSON.stringify({ ...document, v: document.v + 1 }));
    expect(readCache(files().cache, stampOf(files().journal)!)).toBeNull();
  });

  it('that cannot be written is no loss', () => {
    fs.mkdirSync(files().cache);
    const store = opened();
    store.append(writer().mark('clean', 88));
    expect(() => store.close()).not.toThrow();
    expect(marksRead()).toBe(1);
  });
});
