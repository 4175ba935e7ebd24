/** Entries for tests: of a cornet player in a town band, all invented. */
import { type Line } from '../../src/ladder/line.ts';
import * as fc from 'fast-check';
import type { BlockEntry, Entry, MarkEntry, NoteEntry, TempoEntry, UndoEntry } from '../../src/diary/entry.ts';
import { entryIds } from '../../src/journal/entry-ids.ts';
import { atOf, dayOf } from '../../src/runtime/clock.ts';

export const LINE: Line = { exercise: 'five-notes', articulation: 'single', key: 'Bb' };

const START = Date.parse('2026-11-25T17:00:00Z');

/** A writer of entries twenty seconds apart, as repetitions are. */
export function writer(start = START) {
  let wall = start;
  const nextId = entryIds(null, () => wall);
  const common = () => {
    wall += 20_000;
    return { v: 1, id: nextId(), at: atOf(wall, 60), day: dayOf(wall, 60) } as const;
  };
  return {
    mark: (mark: MarkEntry['mark'], bpm: number, next = bpm, more: Partial<MarkEntry> = {}): MarkEntry => ({
      ...common(),
      kind: 'mark',
      ...LINE,
      mark,
      bpm,
      beat: '1/4',
      notesPerBeat: 4,
      cleanUp: 3,
      missedDown: 2,
      next,
      by: 'player',
      ...more,
    }),
    tempo: (next: number): TempoEntry => ({ ...common(), kind: 'tempo', ...LINE, next }),
    undo: (of: string): UndoEntry => ({ ...common(), kind: 'undo', of }),
    note: (text: string): NoteEntry => ({ ...common(), kind: 'note', text }),
    block: (block: string, played: number): BlockEntry => ({
      ...common(),
      kind: 'block',
      routine: 'cornet',
      part: 'morning',
      block,
      event: 'going',
      played,
      length: 300,
      exercise: null,
    }),
    sleep: (ms: number) => {
      wall += ms;
    },
  };
}

const LINES: readonly Line[] = ['C', 'F#', 'Bb'].map((key) => ({ ...LINE, key }));

type Step = {
  readonly what: number;
  readonly line: number;
  readonly mark: number;
  readonly bpm: number;
  readonly back: number;
  readonly gap: number;
};

const step: fc.Arbitrary<Step> = fc.record({
  what: fc.nat(12),
  line: fc.nat(2),
  mark: fc.nat(2),
  bpm: fc.integer({ min: 60, max: 66 }),
  back: fc.nat(6),
  gap: fc.nat(40),
});

function entriesOf(steps: readonly Step[], start: number): Entry[] {
  const write = writer(start);
  const entries: Entry[] = [];
  for (const { what, line, mark, bpm, back, gap } of steps) {
    write.sleep(gap * 3_600_000);
    const at = LINES[line] as Line;
    const earlier = entries.at(-1 - back);
    if (what === 0 && earlier) entries.push(write.undo(earlier.id));
    else if (what === 2) entries.push(write.block(`block ${line}`, bpm));
    else if (what === 3) entries.push(write.note(`note ${bpm}`));
    else if (what === 1) entries.push({ ...write.tempo(bpm), ...at });
    else entries.push(write.mark((['clean', 'tense', 'missed'] as const)[mark] ?? 'clean', bpm, bpm + (what % 2), at));
  }
  return entries;
}

/**
 * Any sitting: marks, moves by hand, undos, blocks and notes on three lines over some days, in the order in which they
 * happened.
 */
export const sitting: fc.Arbitrary<readonly Entry[]> = fc
  .tuple(fc.array(step, { maxLength: 60 }), fc.nat(100_000))
  .map(([steps, start]) => entriesOf(steps, START + start * 1000));
