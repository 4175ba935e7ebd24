import { describe, expect, it } from 'vitest';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { bestsOf } from '../../src/review/bests.ts';
import { toCsv } from '../../src/journal/csv-export.ts';
import { type Exercise, speedUnknownIn } from '../../src/plan/routine/exercise.ts';
import { writer } from '../journal/entries.ts';
import { EXERCISE } from '../practice/rehearsal.ts';

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

  it('claim no notes a second of own material whose notes nobody has said', () => {
    const write = writer();
    const held = [60, 60, 60].map((bpm) => write.mark('clean', bpm, bpm, { exercise: 'page', notesPerBeat: 1 }));
    const page = { ...EXERCISE, id: 'page', notesUnknown: true };
    const of = (exercise: Exercise) => bestsOf(foldAll(held), speedUnknownIn(new Map([['page', exercise]])));
    expect(of(page)[0]).toMatchObject({ bpm: 60, notesPerSecond: null });
    expect(of(EXERCISE)[0]).toMatchObject({ bpm: 60, notesPerSecond: 1 });
    const [csv, known] = [page, EXERCISE].map((one) => toCsv(held, speedUnknownIn(new Map([['page', one]]))));
    expect(csv?.split('\r\n')[1]).toMatch(/,clean,60,1\/4,,60,player$/);
    expect(known?.split('\r\n')[1]).toMatch(/,clean,60,1\/4,1,60,player$/);
  });

  it('still say how fast vibrato goes in such material: its pulses are counted', () => {
    const page = { ...EXERCISE, notesUnknown: true };
    const line = { exercise: page.id, key: 'C' };
    const isUnknown = speedUnknownIn(new Map([[page.id, page]]));
    expect([isUnknown({ ...line, articulation: 'pulses 4' }), isUnknown({ ...line, articulation: 'single' })]).toEqual([
      false,
      true,
    ]);
  });
});
