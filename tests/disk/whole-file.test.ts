import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { jsonFile } from '../../src/disk/json-file.ts';
import { type WholeDisk, createFile, replaceFile } from '../../src/disk/whole-file.ts';
import { eachInOwnFolder } from '../runtime/folder.ts';

const folder = eachInOwnFolder();
const at = (name: string): string => join(folder(), name);
const text = (name: string): string => fs.readFileSync(at(name), 'utf8');
const modeOf = (name: string): number => fs.statSync(at(name)).mode & 0o777;
const names = (): readonly string[] => fs.readdirSync(folder()).toSorted();

const failure = (code: string): Error => Object.assign(new Error(code), { code });

/** A disk on which one call fails. */
const failing = (call: keyof WholeDisk, code: string): WholeDisk => ({
  ...fs,
  [call]: () => {
    throw failure(code);
  },
});

/** A disk that says what was done in which order. */
function told(): { readonly disk: WholeDisk; readonly calls: string[] } {
  const calls: string[] = [];
  const opened = new Map<number, string>();
  const disk: WholeDisk = {
    ...fs,
    openSync: (path, flags, mode) => {
      const fd = fs.openSync(path, flags, mode);
      opened.set(fd, path === folder() ? 'the folder' : 'the text');
      return fd;
    },
    fsyncSync: (fd) => void calls.push(`force ${opened.get(fd)}`),
    renameSync: (from, to) => {
      calls.push('name');
      fs.renameSync(from, to);
    },
    linkSync: (from, to) => {
      calls.push('name');
      fs.linkSync(from, to);
    },
  };
  return { disk, calls };
}

describe('a file that is replaced', () => {
  it('is made when there is none, and leaves nothing beside it', () => {
    replaceFile(at('a'), 'one');
    expect(text('a')).toBe('one');
    expect(modeOf('a')).toBe(0o666 & ~process.umask());
    expect(names()).toEqual(['a']);
  });

  it('is on the disk before it gets its name, and its name right after', () => {
    const { disk, calls } = told();
    replaceFile(at('a'), 'one', disk);
    expect(calls).toEqual(['force the text', 'name', 'force the folder']);
  });

  it.each([0o600, 0o640, 0o777])('keeps its mode %i', (mode) => {
    fs.writeFileSync(at('a'), 'a longer text than the next');
    fs.chmodSync(at('a'), mode);
    replaceFile(at('a'), 'two');
    expect(text('a')).toBe('two');
    expect(modeOf('a')).toBe(mode);
  });

  it('stays behind the link that leads to it, however many there are', () => {
    fs.mkdirSync(at('deep'));
    fs.writeFileSync(at('deep/real'), 'one');
    fs.symlinkSync('deep/real', at('near'));
    fs.symlinkSync('near', at('far'));
    replaceFile(at('far'), 'two');
    expect(text('deep/real')).toBe('two');
    expect(fs.readlinkSync(at('far'))).toBe('near');
    expect(fs.readlinkSync(at('near'))).toBe('deep/real');
    expect(fs.readdirSync(at('deep'))).toEqual(['real']);
  });

  it('is made where a link leads that led nowhere', () => {
    fs.mkdirSync(at('deep'));
    fs.symlinkSync('deep/real', at('near'));
    fs.symlinkSync(at('near'), at('far'));
    replaceFile(at('far'), 'one');
    expect(text('deep/real')).toBe('one');
    expect(fs.lstatSync(at('far')).isSymbolicLink()).toBe(true);
    expect(fs.lstatSync(at('near')).isSymbolicLink()).toBe(true);
  });

  it('is not looked for round and round', () => {
    fs.symlinkSync('b', at('a'));
    fs.symlinkSync('a', at('b'));
    expect(() => replaceFile(at('a'), 'one')).toThrow(/ELOOP/);
  });

  it.each([
    ['fsyncSync', 'EIO'],
    ['writeFileSync', 'ENOSPC'],
    ['renameSync', 'EACCES'],
    ['fchmodSync', 'EPERM'],
  ] as const)('is as it was when %s fails, and nothing is left beside it', (call, code) => {
    fs.writeFileSync(at('a'), 'one');
    expect(() => replaceFile(at('a'), 'two', failing(call, code))).toThrow(code);
    expect(text('a')).toBe('one');
    expect(names()).toEqual(['a']);
  });

  it('is closed again, whatever fails', () => {
    const open = new Set<number>();
    const disk: WholeDisk = {
      ...failing('writeFileSync', 'ENOSPC'),
      openSync: (path, flags, mode) => {
        const fd = fs.openSync(path, flags, mode);
        open.add(fd);
        return fd;
      },
      closeSync: (fd) => {
        open.delete(fd);
        fs.closeSync(fd);
      },
    };
    expect(() => replaceFile(at('a'), 'one', disk)).toThrow('ENOSPC');
    replaceFile(at('a'), 'one', { ...disk, writeFileSync: fs.writeFileSync });
    expect([...open]).toEqual([]);
  });

  it('is not hindered by what a process of the same number left behind', () => {
    fs.writeFileSync(at(`a.${process.pid}.new`), 'half of');
    replaceFile(at('a'), 'one');
    expect(text('a')).toBe('one');
    expect(names()).toEqual(['a']);
  });

  it('is no folder', () => {
    fs.mkdirSync(at('a'));
    expect(() => replaceFile(at('a'), 'one')).toThrow(/EISDIR|EPERM|EACCES/);
    expect(names()).toEqual(['a']);
  });

  it('does not mind a platform that cannot open folders', () => {
    const disk: WholeDisk = {
      ...fs,
      openSync: (path, flags, mode) => {
        if (path === folder()) throw failure('EPERM');
        return fs.openSync(path, flags, mode);
      },
    };
    replaceFile(at('a'), 'one', disk);
    expect(text('a')).toBe('one');
  });
});

describe('a new file', () => {
  it('is on the disk before it gets its name', () => {
    const { disk, calls } = told();
    createFile(at('a'), 'one', {}, disk);
    expect(calls).toEqual(['force the text', 'name', 'force the folder']);
    expect(text('a')).toBe('one');
    expect(modeOf('a')).toBe(0o666 & ~process.umask());
    expect(names()).toEqual(['a']);
  });

  it('need not wait for the disk, and may be the player’s alone', () => {
    const { disk, calls } = told();
    createFile(at('a'), 'one', { mode: 0o600, forced: false }, disk);
    expect(calls).toEqual(['name']);
    expect(modeOf('a')).toBe(0o600);
  });

  it.each(['linkSync', 'fsyncSync'] as const)('never takes the place of another, whether %s works or not', (call) => {
    fs.writeFileSync(at('a'), 'one');
    expect(() => createFile(at('a'), 'two', { forced: false }, failing(call, 'EPERM'))).toThrow(/EEXIST/);
    expect(text('a')).toBe('one');
    expect(names()).toEqual(['a']);
  });

  it('is made on a disk that knows no links', () => {
    createFile(at('a'), 'one', {}, failing('linkSync', 'EPERM'));
    expect(text('a')).toBe('one');
    expect(names()).toEqual(['a']);
  });

  it('leaves no empty file where the text cannot be put under its name', () => {
    const disk = { ...failing('linkSync', 'EPERM'), renameSync: failing('renameSync', 'EIO').renameSync };
    expect(() => createFile(at('a'), 'one', {}, disk)).toThrow('EIO');
    expect(names()).toEqual([]);
  });

  it('is not made when the disk is full, nor is anything else', () => {
    expect(() => createFile(at('a'), 'one', {}, failing('writeFileSync', 'ENOSPC'))).toThrow('ENOSPC');
    expect(names()).toEqual([]);
  });
});

describe('a JSON document', () => {
  it('is null when it is missing, and what was written after that', () => {
    const file = jsonFile<{ readonly a: number }>(at('a.json'));
    expect(file.read()).toBeNull();
    file.write({ a: 1 });
    expect(file.read()).toEqual({ a: 1 });
    expect(text('a.json')).toBe('{"a":1}');
  });

  it('that is broken or a folder is an error', () => {
    fs.writeFileSync(at('a.json'), '{"a":');
    expect(() => jsonFile(at('a.json')).read()).toThrow(SyntaxError);
    fs.mkdirSync(at('b.json'));
    expect(() => jsonFile(at('b.json')).read()).toThrow(/EISDIR/);
  });
});
