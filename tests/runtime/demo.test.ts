/** The demo's half-year: a journal as the program writes it, the same for the same seed, with something to see. */
import { expect, it } from 'vitest';
import { wrongInEntry } from '../../src/journal/entry-check.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { lineName } from '../../src/ladder/line.ts';
import { learnAllLines } from '../../src/ladder/speed/speed-knowledge.ts';
import { standingsOf } from '../../src/review/standing.ts';
import { weeksSentences } from '../../src/review/weeks-sentences.ts';
import { halfYear } from '../../src/runtime/demo/half-year.ts';
import { STANDS_STILL } from '../../src/runtime/demo/invented-player.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { standside } from '../cli/typed.ts';

const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
const { routine } = read;
const asked = { routine, today: '2026-11-25', offset: 60, seed: 1 };

/** Without the ids, whose tails are drawn anew each time. */
const told = (seed: number): string =>
  JSON.stringify(halfYear({ ...asked, seed }).map((entry) => ({ ...entry, id: '' })));

it('is the same for the same seed, and another for another', () => {
  const first = told(1);
  expect(told(1) === first).toBe(true);
  expect(told(2) === first).toBe(false);
});

it('is a journal without a mistake, in the order of its ids, that ends before today', () => {
  const entries = halfYear(asked);
  expect(entries.flatMap((entry) => wrongInEntry({ ...entry }) ?? [])).toEqual([]);
  expect(entries.every(({ id }, index) => index === 0 || id > entries[index - 1]!.id)).toBe(true);
  expect(entries.every(({ day, at }) => day < '2026-11-25' && at.startsWith(day))).toBe(true);
  expect(new Set(entries.map(({ kind }) => kind))).toEqual(new Set(['mark', 'block', 'tension', 'note']));
});

it('has something that is stuck, something that waits and something that grows', () => {
  const { lines } = foldAll(halfYear(asked));
  const knowledge = learnAllLines(lines.values());
  const known = { lines: Object.fromEntries(lines), exercises: routine.exercises, knowledge, today: '2026-11-25' };
  const [stuck, waits, grows] = weeksSentences(known, standingsOf(known)).map(({ standing }) => standing);
  expect(lineName(stuck!.line)).toBe(lineName(STANDS_STILL));
  expect(waits).not.toBeNull();
  expect(grows!.gain).toBeGreaterThan(0);
});

it('says in one sentence what is wrong with a seed', async () => {
  const said = await standside('demo', '--seed', '1.5');
  expect(said).toMatchObject({ code: 1, out: '' });
  expect(said.err).toBe("standside: --seed is '1.5'; it must be a whole number from 0 to 1000000.\n");
});
