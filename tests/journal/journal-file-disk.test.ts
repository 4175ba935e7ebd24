/** The journal's file on disks that do less than asked, and what is done to the disk. */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Disk, readText, stampOf } from '../../src/journal/journal-disk.ts';
import { type Journal, openJournal, readJournal } from '../../src/journal/journal-file.ts';
import { writer } from './entries.ts';
import { journalInFolder, sound } from './in-folder.ts';

let folder: string;
let path: string;
journalInFolder((...at) => {
  [folder, path] = at;
});

const opened = (disk?: Disk): Journal => sound(openJournal(path, disk));
const text = (): string => fs.readFileSync(path, 'utf8');
const line = (value: unknown): string => `${JSON.stringify(value)}\n`;
const failing = (code: string) => (): never => {
  throw Object.assign(new Error('it failed'), { code });
};

/** A disk that writes down what is asked of it by name. */
function watched(more: Partial<Disk> = {}): { readonly disk: Disk; readonly calls: string[] } {
  const calls: string[] = [];
  const names = new Map<number, string>();
  const disk: Disk = {
    ...fs,
    openSync: (file, flags, mode) => {
      const fd = fs.openSync(file, flags, mode);
      names.set(fd, file === folder ? 'the folder' : 'the journal');
      calls.push(`open ${names.get(fd)}`);
      return fd;
    },
    closeSync: (fd) => {
      calls.push(`close ${names.get(fd)}`);
      fs.closeSync(fd);
    },
    fsyncSync: (fd) => {
      calls.push(`sync ${names.get(fd)}`);
      fs.fsyncSync(fd);
    },
    ftruncateSync: (fd, size) => {
      calls.push(`cut to ${size}`);
      fs.ftruncateSync(fd, size);
    },
    ...more,
  };
  return { disk, calls };
}

describe('a journal that is new', () => {
  it('is for the player alone, and its name is on the disk', () => {
    const { disk, calls } = watched();
    opened(disk);
    expect(calls).toEqual(['open the journal', 'open the folder', 'sync the folder', 'close the folder']);
    expect(fs.statSync(path).mode & 0o777).toBe(0o600);
  });

  it('leaves no folder open where its name cannot be forced to the disk', () => {
    const { disk, calls } = watched({ fsyncSync: failing('EIO') });
    opened(disk);
    expect(calls).toEqual(['open the journal', 'open the folder', 'close the folder']);
  });

  it('is opened though its folder cannot be', () => {
    const disk: Disk = {
      ...fs,
      openSync: (file, flags, mode) => (file === folder ? failing('EISDIR')() : fs.openSync(file, flags, mode)),
    };
    expect(opened(disk).append(writer().note('a'))).toBeNull();
  });

  it('has its name looked after once only', () => {
    fs.writeFileSync(path, line(writer().note('a')));
    const { disk, calls } = watched();
    opened(disk);
    expect(calls).toEqual(['open the journal']);
  });
});

describe('a last line', () => {
  const [whole, last] = [writer().note('whole'), writer().note('last')];

  it('that lacks its line break is completed on the disk', () => {
    fs.writeFileSync(path, JSON.stringify(whole));
    const { disk, calls } = watched();
    const journal = opened(disk);
    expect(journal.notice).toBeNull();
    expect(calls).toEqual(['open the journal', 'sync the journal']);
    expect(text()).toBe(line(whole));
  });

  it('that a newer program wrote counts as whole', () => {
    const newer = { ...last, v: 7 };
    fs.writeFileSync(path, `${line(whole)}${JSON.stringify(newer)}`);
    expect(opened().notice).toBeNull();
    expect(text()).toBe(`${line(whole)}${line(newer)}`);
  });

  it('that was cut off is set aside behind those of earlier times, for the player alone', () => {
    fs.writeFileSync(path, `${line(whole)}{"v":1,"cut`);
    const { disk, calls } = watched();
    expect(opened(disk).notice).toBe(
      `The last line of ${path} was cut off while it was written; it was set aside in ${path}.torn, and every other ` +
        'line is kept.',
    );
    expect(calls).toEqual(['open the journal', `cut to ${line(whole).length}`, 'sync the journal']);
    expect(fs.statSync(`${path}.torn`).mode & 0o777).toBe(0o600);
    fs.appendFileSync(path, 'again');
    opened();
    expect(fs.readFileSync(`${path}.torn`, 'utf8')).toBe('{"v":1,"cut\nagain\n');
    expect(text()).toBe(line(whole));
  });

  it.each(['appendFileSync', 'ftruncateSync', 'fsyncSync'] as const)(
    'that cannot be mended (%s fails) is said, nothing is lost and no file is left open',
    (call) => {
      fs.writeFileSync(path, `${line(whole)}{"v":1,"cut`);
      const { disk, calls } = watched({ [call]: failing('EIO') });
      expect(openJournal(path, disk)).toMatchObject({
        file: path,
        sentence: expect.stringMatching(/cannot be opened for writing/),
      });
      expect(calls.at(-1)).toBe('close the journal');
      // The cut-off line is where it was, or where it was set aside.
      const aside = fs.existsSync(`${path}.torn`) ? fs.readFileSync(`${path}.torn`, 'utf8') : '';
      expect(text().startsWith(line(whole))).toBe(true);
      expect(text() + aside).toContain('{"v":1,"cut');
    },
  );

  // The end of the file is read in stretches of 65,536 bytes.
  it.each([1, 65_534, 65_535, 65_536, 65_537, 131_072, 200_000])('of %i bytes is found whole', (length) => {
    fs.writeFileSync(path, `${line(whole)}${'x'.repeat(length)}`);
    opened();
    expect(fs.readFileSync(`${path}.torn`, 'utf8')).toBe(`${'x'.repeat(length)}\n`);
    expect(text()).toBe(line(whole));
  });

  it.each([1, 65_536, 100_000])('of %i bytes is found where it is the only one', (length) => {
    fs.writeFileSync(path, 'x'.repeat(length));
    opened();
    expect(fs.readFileSync(`${path}.torn`, 'utf8')).toHaveLength(length + 1);
    expect(text()).toBe('');
  });
});

describe('a disk that does less than asked', () => {
  const entries = (() => {
    const write = writer();
    return Array.from({ length: 20 }, (_, i) => write.mark('clean', 80 + i));
  })();

  it('is read and written until all is done', () => {
    const disk = {
      ...fs,
      readSync: (fd: number, buffer: Buffer, offset: number, length: number, position: number) =>
        fs.readSync(fd, buffer, offset, Math.min(length, 100), position),
      writeSync: (fd: number, bytes: Buffer, offset: number, length: number) =>
        fs.writeSync(fd, bytes, offset, Math.min(length, 7)),
    } as unknown as Disk;
    const journal = opened(disk);
    expect(journal.appendLines(entries.map((entry) => JSON.stringify(entry)))).toBeNull();
    expect(text()).toBe(entries.map(line).join(''));
    expect(sound(readJournal(path, disk)).entries).toEqual(entries);
  });

  it('gives what is there where the file is shorter than it said', () => {
    fs.writeFileSync(path, line(entries[0]));
    const disk = { ...fs, fstatSync: () => ({ size: 9999 }) } as unknown as Disk;
    expect(readText(path, disk)).toBe(line(entries[0]));
  });

  it('says why, and is closed again', () => {
    fs.writeFileSync(path, line(entries[0]));
    const { disk, calls } = watched({ readSync: failing('EIO') as unknown as Disk['readSync'] });
    expect(readText(path, disk)).toEqual({
      file: path,
      sentence: `${path} cannot be read: the disk reports an error.`,
    });
    expect(calls).toEqual(['open the journal', 'close the journal']);
    const denied = { ...fs, openSync: failing('EACCES') } as unknown as Disk;
    expect(readText(path, denied)).toEqual({
      file: path,
      sentence: `${path} cannot be read: you have no permission.`,
    });
    expect(readText(join(folder, 'none'), watched().disk)).toBeNull();
  });

  it('leaves a journal that cannot be repaired alone, and says so', () => {
    const { disk } = watched({
      writeSync: failing('ENOSPC') as unknown as Disk['writeSync'],
      ftruncateSync: failing('EIO') as unknown as Disk['ftruncateSync'],
    });
    const journal = opened(disk);
    expect(journal.append(entries[0]!)).toMatchObject({ sentence: `${path} cannot be written: the disk is full.` });
    expect(journal.append(entries[0]!)).toMatchObject({
      sentence: `${path} cannot be repaired after a failed write.`,
    });
  });

  it('cuts off half a line once, and not again after it was repaired', () => {
    let full = true;
    const { disk, calls } = watched({
      writeSync: ((...asked: Parameters<typeof fs.writeSync>) =>
        full ? failing('ENOSPC')() : fs.writeSync(...asked)) as unknown as Disk['writeSync'],
    });
    fs.writeFileSync(path, line(entries[0]));
    const journal = opened(disk);
    const size = line(entries[0]).length;
    expect(journal.append(entries[1]!)).not.toBeNull();
    full = false;
    calls.length = 0;
    expect(journal.append(entries[2]!)).toBeNull();
    expect(journal.append(entries[3]!)).toBeNull();
    expect(calls).toEqual(['sync the journal', 'sync the journal']);
    expect(text()).toBe([entries[0], entries[2], entries[3]].map(line).join(''));
    expect(text().length).toBeGreaterThan(size);
  });
});

describe('a journal that is open', () => {
  it('knows its size and when it changed, as a look at the file does', () => {
    expect(stampOf(path)).toBeNull();
    const journal = opened();
    expect(journal.path).toBe(path);
    expect(journal.stamp().bytes).toBe(0);
    journal.append(writer().note('a'));
    const { size, mtimeMs } = fs.statSync(path);
    expect(journal.stamp()).toEqual({ bytes: size, changed: mtimeMs });
    expect(stampOf(path)).toEqual({ bytes: size, changed: mtimeMs });
  });

  it('is closed once, and then takes nothing more', () => {
    const { disk, calls } = watched();
    const journal = opened(disk);
    journal.close();
    journal.close();
    expect(calls.filter((call) => call === 'close the journal')).toHaveLength(1);
    expect(() => journal.append(writer().note('a'))).toThrow(`${path} is closed`);
  });
});
