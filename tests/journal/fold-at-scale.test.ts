/** Journals of every shape: what the fold says against a plain second telling, and that no shape makes it slow. */
import { describe, expect, it } from 'vitest';
import * as fc from 'fast-check';
import type { Entry, MarkEntry } from '../../src/diary/entry.ts';
import { absorb, foldAll } from '../../src/journal/journal-fold.ts';
import { sitting, writer } from './entries.ts';
import { plainly } from './plain-fold.ts';

const knowledge = ({ lines, others, lastId, lastDay }: ReturnType<typeof foldAll>) => ({
  lines,
  others,
  lastId,
  lastDay,
});

/** Days that go back and forth, as on tour, and keys that share a line, with names that every object inherits. */
const crossed = fc
  .tuple(sitting, fc.array(fc.tuple(fc.nat(3), fc.constantFrom(undefined, 'C', 'constructor', '__proto__', 'valueOf'))))
  .map(([entries, changes]) =>
    entries.map((entry, index): Entry => {
      const [back, sounded] = changes[index] ?? [0, undefined];
      const day = back === 3 ? '2026-11-30' : entry.day;
      return entry.kind === 'mark' && sounded !== undefined ? { ...entry, day, sounded } : { ...entry, day };
    }),
  );

describe('the fold of any journal', () => {
  it('says what a plain second telling says', () => {
    fc.assert(
      fc.property(crossed, (entries) => {
        fc.pre(entries.length > 0);
        expect(knowledge(foldAll(entries))).toEqual(plainly(entries));
      }),
    );
  });

  it('counts keys by names that every object inherits', () => {
    const write = writer();
    const names = ['constructor', '__proto__', 'valueOf', 'constructor'];
    const { lines } = foldAll(names.map((sounded) => write.mark('clean', 72, 72, { sounded })));
    const keys = [...lines.values()][0]?.keys ?? {};
    expect(Object.entries(keys).map(([key, { clean }]) => [key, clean])).toEqual([
      ['constructor', 2],
      ['__proto__', 1],
      ['valueOf', 1],
    ]);
  });
});

/** One entry of a shape, by its number. */
type Shape = (write: ReturnType<typeof writer>, index: number) => Entry;
const tempo = (index: number): number => 40 + (index % 150_000) / 1000;

const SHAPES: readonly (readonly [what: string, shape: Shape])[] = [
  ['notes on one day', (write) => ({ ...write.note('still'), day: '2026-11-25' })],
  ['tempos on one day', (write, index) => write.mark('clean', tempo(index), 60, { day: '2026-11-25' })],
  ['blocks on one day', (write, index) => ({ ...write.block(`b${index}`, 60), day: '2026-11-25' })],
  ['reports on one block', (write) => ({ ...write.block('tone', 60), day: '2026-11-25' })],
  ['keys of one line', (write, index) => write.mark('clean', 60, 60, { sounded: `k${index}` })],
  ['lines', (write, index) => write.mark('clean', 60, 60, { key: `k${index}` })],
];

/** Processor time, which other processes on the machine hardly lengthen. */
function cpuOf(work: () => void): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

const some = (shape: Shape, count: number): readonly Entry[] => {
  const write = writer();
  return Array.from({ length: count }, (_, index) => shape(write, index));
};

describe('eight times as much', () => {
  // By the square it would be sixty-four times the time; the allowance is for the collector and a busy machine.
  it.each(SHAPES)('of %s takes about eight times as long', (_, shape) => {
    const [few, many] = [some(shape, 3000), some(shape, 24_000)];
    foldAll(few);
    const once = Math.max(2, Math.min(...[1, 2, 3].map(() => cpuOf(() => foldAll(few)))));
    const eight = Math.min(...[1, 2].map(() => cpuOf(() => foldAll(many))));
    expect(eight / once).toBeLessThan(30);
  });
});

describe('an entry dated in the future', () => {
  const write = writer();
  const block = { ...write.block('tone', 300), day: '2026-11-25' };
  const ahead: Entry = { ...write.note('a watch set wrong'), day: '2099-01-01' };

  it('does not push the day by the clock out of sight', () => {
    expect(foldAll([block, ahead], '2026-11-25').others).toEqual([block, ahead]);
  });

  it('nor what is entered after it', () => {
    const later = { ...write.block('scales', 60), day: '2026-11-26' };
    expect(absorb(foldAll([block, ahead], '2026-11-25'), later)?.others).toEqual([block, ahead, later]);
  });

  it('of a mark leaves the newest mark the newest', () => {
    const marks: MarkEntry[] = [write.mark('clean', 60, 60, { day: '2099-01-01' }), write.mark('missed', 60, 58)];
    expect([...foldAll(marks, '2026-11-25').lines.values()][0]).toMatchObject({ lastDay: marks[1]!.day, bpm: 58 });
  });
});
