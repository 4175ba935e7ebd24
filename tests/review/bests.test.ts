import { describe, expect, it } from 'vitest';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { bestsOf } from '../../src/review/bests.ts';
import { writer } from '../journal/entries.ts';

describe('the bests', () => {
  it('give each line its best in beats per minute and notes per second, and the day', () => {
    const write = writer();
    const clean = (bpm: number, next: number) => write.mark('clean', bpm, next);
    const held = [clean(144, 144), clean(144, 144), clean(144, 148)];
    const other = write.mark('clean', 63, 63, { key: 'F', notesPerBeat: 3 });
    expect(bestsOf(foldAll([...held, other]))).toEqual([
      // Sixteenths at 144 are 9.6 notes per second: arithmetic.
      {
        exercise: 'five-notes',
        articulation: 'single',
        key: 'Bb',
        bpm: 144,
        beat: '1/4',
        notesPerSecond: 9.6,
        day: '2026-11-25',
        next: 148,
      },
      {
        exercise: 'five-notes',
        articulation: 'single',
        key: 'F',
        bpm: null,
        beat: '1/4',
        notesPerSecond: null,
        day: null,
        next: 63,
      },
    ]);
  });
});
