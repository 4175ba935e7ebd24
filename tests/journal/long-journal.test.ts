import * as fs from 'node:fs';
import { expect, it } from 'vitest';
import { readJournal } from '../../src/journal/journal-file.ts';
import { readingProgress } from '../../src/runtime/screen/reading-progress.ts';
import { writer } from './entries.ts';
import { sound, storeInFolder } from './in-folder.ts';

const { files } = storeInFolder();

it('a journal of many pieces is read whole: letters of two bytes on an edge, long lines, numbers of bad lines', () => {
  const write = writer();
  const few = Array.from({ length: 40 }, (_, index) => write.note(`${'ü'.repeat(index * 11_117)}.`));
  const long = write.note('ö'.repeat(5_000_000));
  const lines = [...few, long, ...few.slice(0, 3)].map((entry) => JSON.stringify(entry));
  fs.writeFileSync(files().journal, [...lines.slice(0, 41), 'no entry', ...lines.slice(41)].join('\n'));
  const shares: number[] = [];
  const contents = sound(readJournal(files().journal, undefined, (share) => shares.push(share)));
  expect(contents.entries).toEqual([...few, long]);
  expect(contents.bad).toEqual([{ line: 42, reason: 'it is not JSON' }]);
  expect(contents.torn).toBeNull();
  expect(shares.length).toBeGreaterThan(3);
  expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  expect(shares.at(-1)).toBe(1);
});

it('how far it has come is said on a terminal only, after a while, and the line is empty at the end', () => {
  let now = 0;
  const said: string[] = [];
  const out = { isTTY: true, write: (text: string) => said.push(text) };
  const progress = readingProgress(out, () => now);
  progress(0.1);
  expect(said).toEqual([]);
  now = 500;
  progress(0.42);
  progress(0.421);
  expect(said).toEqual(['\rReading the journal: 42 %']);
  progress(1);
  expect(said.at(-1)).toBe('\r\u001b[K');
  const pipe = readingProgress({ ...out, isTTY: false }, () => now);
  now += 5000;
  pipe(0.5);
  expect(said).toHaveLength(2);
});
