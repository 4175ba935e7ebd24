/** The journal's file is replaced, cut or taken away while the program runs, as sync tools and editors do. */
import { execFileSync } from 'node:child_process';
import * as fs from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/diary/entry.ts';
import type { Disk } from '../../src/journal/journal-disk.ts';
import { type Journal, openJournal, readJournal } from '../../src/journal/journal-file.ts';
import { openStore } from '../../src/journal/journal-store.ts';
import { writer } from './entries.ts';
import { journalInFolder, marksIn, sound } from './in-folder.ts';

let folder: string;
let path: string;
journalInFolder((...at) => {
  [folder, path] = at;
});

const opened = (disk?: Disk): Journal => sound(openJournal(path, disk));
const idsOnDisk = (): readonly string[] => sound(readJournal(path)).entries.map(({ id }) => id);
const idsOf = (entries: readonly Entry[]): readonly string[] => entries.map(({ id }) => id);

/** As a sync tool does it: a second file takes the name. */
function replaceWith(text: string): void {
  fs.writeFileSync(`${path}.sync`, text);
  fs.renameSync(`${path}.sync`, path);
}

const WAYS: Readonly<Record<string, () => void>> = {
  'a copy took its name': () => replaceWith(fs.readFileSync(path, 'utf8')),
  'an older copy took its name': () => replaceWith(fs.readFileSync(path, 'utf8').split('\n').slice(0, 2).join('\n')),
  'an empty file took its name': () => replaceWith(''),
  'an editor wrote it anew in its place': () => fs.writeFileSync(path, 'my own words\n'),
  'it was cut to nothing in its place': () => fs.truncateSync(path, 0),
  'it was cut in the middle of a line': () => fs.truncateSync(path, fs.statSync(path).size - 9),
  'it was taken away': () => fs.rmSync(path),
  'its folder was replaced by a copy': () => {
    const aside = join(dirname(folder), `${basename(folder)}-aside`);
    fs.cpSync(folder, aside, { recursive: true });
    fs.rmSync(folder, { recursive: true });
    fs.renameSync(aside, folder);
  },
};

describe('marks that were kept', () => {
  it.each(Object.entries(WAYS))('are all on the disk after: %s', (_name, happen) => {
    const write = writer();
    const marks = Array.from({ length: 6 }, (_, i) => write.mark('clean', 80 + i));
    const journal = opened();
    marks.slice(0, 3).forEach((mark) => expect(journal.append(mark)).toBeNull());
    happen();
    marks.slice(3).forEach((mark) => expect(journal.append(mark)).toBeNull());
    expect(idsOnDisk()).toEqual(idsOf(marks));
    journal.close();
  });

  it.each(Object.entries(WAYS))('are all on the disk when it is closed after: %s', (_name, happen) => {
    const write = writer();
    const marks = Array.from({ length: 3 }, (_, i) => write.mark('clean', 80 + i));
    const journal = opened();
    marks.forEach((mark) => expect(journal.append(mark)).toBeNull());
    happen();
    journal.close();
    expect(idsOnDisk()).toEqual(idsOf(marks));
  });

  it('are on the disk with those of earlier days when the file is taken away', () => {
    const write = writer();
    const [early, late, last] = [write.mark('clean', 80), write.mark('clean', 81), write.mark('clean', 82)];
    fs.writeFileSync(path, `${JSON.stringify(early)}\n`);
    const journal = opened();
    journal.append(late);
    fs.rmSync(path);
    expect(journal.append(last)).toBeNull();
    expect(idsOnDisk()).toEqual(idsOf([early, late, last]));
    journal.close();
  });

  it('stay with what another program added in between, none of it twice', () => {
    const write = writer();
    const [ours, theirs, next] = [write.mark('clean', 80), write.mark('clean', 81), write.mark('clean', 82)];
    const journal = opened();
    journal.append(ours);
    fs.appendFileSync(path, `${JSON.stringify(theirs)}\n`);
    journal.append(next);
    journal.close();
    expect(fs.readFileSync(path, 'utf8')).toBe([ours, theirs, next].map((e) => `${JSON.stringify(e)}\n`).join(''));
  });

  it('are on the disk when the name is taken between writing and forcing', () => {
    const write = writer();
    const [a, b] = [write.mark('clean', 80), write.mark('clean', 81)];
    let armed = false;
    const disk: Disk = {
      ...fs,
      fsyncSync: (fd) => {
        fs.fsyncSync(fd);
        if (armed) replaceWith('');
        armed = false;
      },
    };
    const journal = opened(disk);
    journal.append(a);
    armed = true;
    expect(journal.append(b)).toBeNull();
    expect(idsOnDisk()).toEqual(idsOf([a, b]));
    journal.close();
  });
});

describe('a journal that cannot be taken up again', () => {
  it('is said while it is away, and everything is there once it can be', () => {
    const write = writer();
    const [a, b, c] = [write.mark('clean', 80), write.mark('clean', 81), write.mark('clean', 82)];
    const journal = opened();
    journal.append(a);
    const away = `${folder}-away`;
    fs.renameSync(folder, away);
    expect(journal.append(b)).toMatchObject({ sentence: expect.stringMatching(/leads nowhere/) });
    fs.mkdirSync(folder);
    expect(journal.append(c)).toBeNull();
    expect(idsOnDisk()).toEqual(idsOf([a, c]));
    journal.close();
    fs.rmSync(away, { recursive: true });
  });

  it('is said where a folder has its name', () => {
    const journal = opened();
    fs.rmSync(path);
    fs.mkdirSync(path);
    expect(journal.append(writer().note('a'))).toMatchObject({ sentence: expect.stringMatching(/it is a folder/) });
    fs.rmdirSync(path);
    journal.close();
  });

  it('keeps what it still owes where the disk was full at the first try', () => {
    const write = writer();
    const [a, b, c] = [write.mark('clean', 80), write.mark('clean', 81), write.mark('clean', 82)];
    fs.writeFileSync(path, `${JSON.stringify(a)}\n`);
    let full = false;
    const writeSync = (fd: number, bytes: Buffer, offset: number, length: number) => {
      if (full) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
      return fs.writeSync(fd, bytes, offset, length);
    };
    const journal = opened({ ...fs, writeSync } as unknown as Disk);
    fs.rmSync(path);
    full = true;
    expect(journal.append(b)).toMatchObject({ sentence: expect.stringMatching(/the disk is full/) });
    full = false;
    expect(journal.append(c)).toBeNull();
    expect(idsOnDisk()).toEqual(idsOf([a, c]));
    journal.close();
  });
});

describe('a pipe in the place of a journal', () => {
  it('is said, and nothing waits for it', () => {
    const journal = opened();
    fs.rmSync(path);
    execFileSync('mkfifo', [path]);
    expect(journal.append(writer().note('a'))).toMatchObject({ sentence: expect.stringMatching(/it is a pipe/) });
    expect(readJournal(path)).toMatchObject({ sentence: `${path} cannot be read: it is a pipe.` });
    expect(openJournal(path)).toMatchObject({ sentence: `${path} cannot be opened for writing: it is a pipe.` });
    journal.close();
  });
});

describe('the store', () => {
  it('knows what stands in the file that was put in the place of its own, and says so once', () => {
    const write = writer();
    const [ours, theirs, next, last] = [80, 81, 82, 83].map((tempo) => write.mark('clean', tempo)) as [
      Entry,
      Entry,
      Entry,
      Entry,
    ];
    const store = sound(openStore({ journal: path, cache: join(folder, 'cache.json') }));
    store.append(ours);
    replaceWith(`${JSON.stringify(theirs)}\n`);
    expect(store.append(next)).toMatchObject({ notice: expect.stringMatching(/changed by another program/) });
    expect(marksIn(store.fold())).toBe(3);
    expect(store.append(last)).not.toHaveProperty('notice');
    expect(marksIn(store.fold())).toBe(4);
    store.close();
  });
});
