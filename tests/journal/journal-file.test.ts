import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Disk } from '../../src/journal/journal-disk.ts';
import { type Journal, openJournal, readJournal } from '../../src/journal/journal-file.ts';
import { writer } from './entries.ts';
import { journalInFolder, sound } from './in-folder.ts';

let path: string;
journalInFolder((_folder, journal) => {
  path = journal;
});

const opened = (disk?: Disk): Journal => sound(openJournal(path, disk));
const read = () => sound(readJournal(path));
const text = () => fs.readFileSync(path, 'utf8');

/** A disk that takes so many bytes and is then full, as the system reports it: part of a line may have been written. */
function fullAfter(room: number): Disk & { free: () => void } {
  let left = room;
  const writeSync = (fd: number, bytes: Buffer, offset: number, length: number) => {
    if (left === 0) throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
    const part = Math.min(left, length);
    left -= part;
    return fs.writeSync(fd, bytes, offset, part);
  };
  const free = () => {
    left = Infinity;
  };
  return { ...fs, writeSync, free } as unknown as Disk & { free: () => void };
}

describe('the journal file', () => {
  it('holds an entry on the disk as soon as append returns', () => {
    const calls: string[] = [];
    const disk: Disk = {
      ...fs,
      fsyncSync: (fd) => {
        calls.push(`sync after ${fs.fstatSync(fd).size > 0 ? 'the line' : 'nothing'}`);
        fs.fsyncSync(fd);
      },
    };
    const journal = opened(disk);
    calls.length = 0;
    const entry = writer().mark('clean', 88);
    expect(journal.append(entry)).toBeNull();
    expect(calls).toEqual(['sync after the line']);
    expect(text()).toBe(`${JSON.stringify(entry)}\n`);
    expect(read().entries).toEqual([entry]);
    journal.close();
  });

  it('is read in the order of its ids, whatever the order of its lines, and none twice', () => {
    const write = writer();
    const [a, b, c] = [write.mark('clean', 80), write.mark('missed', 82), write.tempo(84)];
    fs.writeFileSync(path, [c, a, b, a].map((entry) => `${JSON.stringify(entry)}\n`).join(''));
    expect(read().entries).toEqual([a, b, c]);
  });

  it.each([1, 2, 10, 60, 200])('sets aside a last line of which %i bytes were lost, and keeps all others', (lost) => {
    const write = writer();
    const [kept, cut, next] = [write.mark('clean', 80), write.mark('clean', 80), write.mark('clean', 80)];
    const whole = `${JSON.stringify(kept)}\n${JSON.stringify(cut)}\n`;
    fs.writeFileSync(path, whole.slice(0, -1 - lost));
    const journal = opened();
    expect(journal.notice).toMatch(/cut off.*journal\.jsonl\.torn/);
    expect(fs.readFileSync(`${path}.torn`, 'utf8').trim()).toBe(JSON.stringify(cut).slice(0, -lost));
    expect(journal.append(next)).toBeNull();
    journal.close();
    expect(read()).toEqual({ entries: [kept, next], foreign: [], bad: [], torn: null });
  });

  it('completes a last line that lacks only its line break', () => {
    const write = writer();
    const [a, b] = [write.mark('clean', 80), write.mark('clean', 80)];
    fs.writeFileSync(path, JSON.stringify(a));
    const journal = opened();
    expect(journal.notice).toBeNull();
    journal.append(b);
    journal.close();
    expect(read().entries).toEqual([a, b]);
    expect(fs.existsSync(`${path}.torn`)).toBe(false);
  });

  it('sets aside the zeros that a power failure can leave at the end', () => {
    const entry = writer().mark('clean', 80);
    fs.writeFileSync(path, `${JSON.stringify(entry)}\n${'\0'.repeat(70_000)}`);
    const journal = opened();
    journal.close();
    expect(text()).toBe(`${JSON.stringify(entry)}\n`);
  });

  it('names each bad line by its number and leaves it where it is', () => {
    const write = writer();
    const good = write.mark('clean', 80);
    const impossible = { ...write.mark('clean', 80), bpm: -3 };
    const lines = ['{"v":1', JSON.stringify(good), '[]', JSON.stringify(impossible)];
    fs.writeFileSync(path, `${lines.join('\n')}\n`);
    opened().close();
    expect(read().entries).toEqual([good]);
    expect(read().bad.map(({ line }) => line)).toEqual([1, 3, 4]);
    expect(read().bad[2]?.reason).toBe('"bpm" should be beats per minute above 0, at most 1000');
    expect(text()).toBe(`${lines.join('\n')}\n`);
  });

  it('keeps what a newer program wrote', () => {
    const write = writer();
    const [{ id, at, day }, { id: later }] = [write.note('now'), write.note('later')];
    const newer = [
      { v: 1, id, at, day, kind: 'breath', seconds: 31 },
      { v: 7, id: later, at, day, kind: 'mark', verdict: 'fine' },
    ];
    fs.writeFileSync(path, newer.map((value) => `${JSON.stringify(value)}\n`).join(''));
    expect(read().entries).toEqual([]);
    expect(read().bad).toEqual([]);
    expect(read().foreign).toEqual(newer);
  });

  it.each([0, 1, 100])('loses nothing when the disk is full after %i more bytes', (room) => {
    const write = writer();
    const [before, refused, later] = [write.mark('clean', 80), write.mark('clean', 80), write.mark('tense', 80)];
    fs.writeFileSync(path, `${JSON.stringify(before)}\n`);
    const disk = fullAfter(room);
    const journal = opened(disk);
    expect(journal.append(refused)).toMatchObject({
      file: path,
      sentence: `${path} cannot be written: the disk is full.`,
    });
    expect(text()).toBe(`${JSON.stringify(before)}\n`);
    disk.free();
    expect(journal.append(later)).toBeNull();
    journal.close();
    expect(read().entries).toEqual([before, later]);
  });

  it('adds nothing more while half a line that could not be taken back is in the file', () => {
    const write = writer();
    const [refused, later] = [write.mark('clean', 80), write.mark('tense', 80)];
    const full = fullAfter(100);
    let stuck = true;
    const disk: Disk = {
      ...full,
      ftruncateSync: (fd, size) => {
        if (stuck) throw Object.assign(new Error('i/o error'), { code: 'EIO' });
        fs.ftruncateSync(fd, size);
      },
    };
    const journal = opened(disk);
    expect(journal.append(refused)).not.toBeNull();
    full.free();
    expect(journal.append(later)).not.toBeNull();
    stuck = false;
    expect(journal.append(later)).toBeNull();
    journal.close();
    expect(read().entries).toEqual([later]);
  });

  it('says in one sentence that it cannot be opened', () => {
    fs.mkdirSync(path);
    expect(openJournal(path)).toMatchObject({
      file: path,
      sentence: `${path} cannot be opened for writing: it is a folder.`,
    });
    expect(readJournal(path)).toMatchObject({ file: path, sentence: `${path} cannot be read: it is a folder.` });
  });

  it('says nothing when there is none yet', () => {
    expect(read()).toEqual({ entries: [], foreign: [], bad: [], torn: null });
    expect(fs.existsSync(path)).toBe(false);
  });
});
