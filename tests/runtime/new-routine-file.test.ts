import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeNewRoutine } from '../../src/runtime/files/new-routine-file.ts';
import { eachInOwnFolder } from './folder.ts';

const folder = eachInOwnFolder();
const own = (): string => join(folder(), 'data', 'routines');
const text = (stem: string): string => `routine: ${stem}\n`;
const write = (name: string, into: string | null = own(), force = false): string =>
  writeNewRoutine(name, into, text, force);

describe('a new routine file', () => {
  it('lies in the player’s own folder, which is made for them alone', () => {
    const path = write('my day-2');
    expect(path).toBe(join(own(), 'my day-2.yaml'));
    expect(readFileSync(path, 'utf8')).toBe('routine: my day-2\n');
    expect(statSync(own()).mode & 0o077).toBe(0);
    expect(readdirSync(own())).toEqual(['my day-2.yaml']);
  });

  it('may have a path of its own', () => {
    const path = join(folder(), 'mine.yml');
    expect(write(path, null)).toBe(path);
    expect(readFileSync(path, 'utf8')).toBe('routine: mine\n');
  });

  it('does not take the place of another, unless it is forced', () => {
    const path = write('mine.yaml');
    writeFileSync(path, 'routine: by hand\n');
    chmodSync(path, 0o640);
    expect(() => write('mine')).toThrow(`${path} is there already; write over it with --force.`);
    expect(readFileSync(path, 'utf8')).toBe('routine: by hand\n');
    write('mine', own(), true);
    expect(readFileSync(path, 'utf8')).toBe('routine: mine\n');
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(readdirSync(own())).toEqual(['mine.yaml']);
  });

  it('takes a link that leads nowhere for a file that is there', () => {
    mkdirSync(own(), { recursive: true });
    symlinkSync(join(folder(), 'elsewhere.yaml'), join(own(), 'mine.yaml'));
    expect(() => write('mine')).toThrow('is there already');
    expect(existsSync(join(folder(), 'elsewhere.yaml'))).toBe(false);
  });

  it.each([
    ['../mine/', 'mine'],
    ['.hidden', null],
    ['-x', null],
    ['', null],
    ['a/b\u001b[2J', null],
    ['a\nb', null],
    ['mine.yaml.txt', null],
  ])('named %j is %j', (name, stem) => {
    if (stem === null)
      expect(() => write(name)).toThrow(/cannot name a routine; use letters, digits, hyphens and spaces\.$/);
    else expect(write(name)).toBe(join(own(), `${stem}.yaml`));
  });

  it('says what is wrong with a name without an ending, or a place that cannot be', () => {
    expect(() => write(join(folder(), 'mine'), null)).toThrow(
      /mine would not be found as a routine; end the name with \.yaml\.$/,
    );
    expect(() => write(join(folder(), 'no', 'mine.yaml'), null)).toThrow(
      /cannot be written: its path leads nowhere\.$/,
    );
    mkdirSync(join(own(), 'mine.yaml'), { recursive: true });
    expect(() => write('mine', own(), true)).toThrow(/cannot be written: it is a folder\.$/);
  });

  // Before, this never came back: Node 20's own way of making folders in one go does not end below /proc.
  it.runIf(process.platform === 'linux')('says that a folder cannot be made', () => {
    expect(() => write('mine', '/proc/none/routines')).toThrow(
      '/proc/none/routines/mine.yaml cannot be written: its path leads nowhere.',
    );
  });
});
