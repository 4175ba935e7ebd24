/** The shape of the source tree, as DEVELOPERS.md promises it. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ARROWS, lintConfiguration } from './arrows.ts';

const ROOT = new URL('../..', import.meta.url).pathname;

const sources = (folder: string): readonly string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));

const SRC = sources('src');

/** A line of nothing but a long text or a pattern cannot be broken without harm. */
const tooLong = (path: string): readonly string[] =>
  readFileSync(path, 'utf8')
    .split('\n')
    .flatMap((line, at) => (line.length > 120 ? [`${path.slice(ROOT.length)}:${at + 1}`] : []));

describe('the house', () => {
  it('has its lint made from the table of arrows: npm run arrows', async () => {
    const text = `${JSON.stringify(lintConfiguration(), null, 2)}\n`;
    await expect(text).toMatchFileSnapshot(join(ROOT, '.oxlintrc.json'));
  });

  it('knows every folder', () => {
    const folders = readdirSync(join(ROOT, 'src'), { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect(folders.map(({ name }) => name).toSorted()).toEqual(Object.keys(ARROWS).toSorted());
  });

  it('has rooms of at most sixteen files', () => {
    const rooms = SRC.map((path) => path.slice(0, path.lastIndexOf('/')));
    const isFull = (room: string): boolean => rooms.filter((one) => one === room).length > 16;
    expect([...new Set(rooms)].filter(isFull)).toEqual([]);
  });

  it('has lines of at most 120 characters', () => {
    expect([...SRC, ...sources('tests'), ...sources('sounds')].flatMap(tooLong)).toEqual([]);
  });

  it('has every path that DEVELOPERS.md names', () => {
    const page = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
    const named = [...page.matchAll(/`((?:src|tests|shared|sounds|routines|\.ci)\/[^`\s]*)`/g)].map(
      ([, path]) => path ?? '',
    );
    expect(named.length).toBeGreaterThan(30);
    expect(named.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });
});
