/** What is known of each line and day, entry by entry: what a player would see after a start. */
import { describe, expect, it } from 'vitest';
import type { BlockEntry, Entry, MarkEntry } from '../../src/diary/entry.ts';
import { EMPTY_FOLD, type Fold, absorb, foldAll } from '../../src/journal/journal-fold.ts';
import { withEntry } from '../../src/journal/line-fold.ts';
import { lineName } from '../../src/ladder/line.ts';
import { LINE, writer } from './entries.ts';
import { marksIn } from './in-folder.ts';

const lineIn = (fold: Fold, key = LINE.key) => fold.lines.get(lineName({ ...LINE, key })) ?? null;

/** Each entry taken in by itself; fails where everything would have to be read again. */
const takenIn = (entries: readonly Entry[], from: Fold = EMPTY_FOLD): Fold =>
  entries.reduce((fold, entry) => {
    const next = absorb(fold, entry);
    if (!next) throw new Error('everything would have to be read again');
    return next;
  }, from);

describe('a best', () => {
  const held = (write: ReturnType<typeof writer>, bpm: number, more: Partial<MarkEntry>): Entry[] =>
    [0, 1, 2].map(() => write.mark('clean', bpm, bpm, more));

  it('keeps the day and the beat with which it was first held, though it is held again later', () => {
    const write = writer();
    const first = held(write, 88, { day: '2026-11-20', beat: '1/4', notesPerBeat: 4 });
    const again = held(write, 88, { day: '2026-11-21', beat: '3/8', notesPerBeat: 3 });
    const lower = held(write, 80, { day: '2026-11-22' });
    const state = lineIn(foldAll([...first, ...again, ...lower]));
    expect(state?.best).toEqual({ bpm: 88, day: '2026-11-20', beat: '1/4', notesPerBeat: 4 });
    expect(state).toMatchObject({ lastDay: '2026-11-22', beat: '1/4', notesPerBeat: 4 });
  });

  it('is another one’s day when a higher rung is held', () => {
    const write = writer();
    const fold = foldAll([...held(write, 88, { day: '2026-11-20' }), ...held(write, 91, { day: '2026-11-23' })]);
    expect(lineIn(fold)?.best).toMatchObject({ bpm: 91, day: '2026-11-23' });
  });

  it('stays when the player moves the ladder by hand', () => {
    const write = writer();
    const fold = foldAll([...held(write, 88, {}), write.tempo(70)]);
    expect(lineIn(fold)).toMatchObject({ bpm: 70, cleanRun: 0, missedRun: 0, best: { bpm: 88 } });
  });
});

describe('a line', () => {
  it('that was only given a tempo stands there, without a mark', () => {
    const state = lineIn(foldAll([writer().tempo(72)]));
    expect(state).toMatchObject({
      line: LINE,
      bpm: 72,
      tallies: [],
      lastDay: '',
      beat: '',
      notesPerBeat: 0,
      best: null,
    });
  });

  it('has its marks of each day and tempo counted apart, in the order in which they were played', () => {
    const write = writer();
    const on = (day: string, bpm: number, mark: MarkEntry['mark']) => write.mark(mark, bpm, bpm, { day });
    const entries = [
      on('2026-11-24', 88, 'clean'),
      on('2026-11-24', 91, 'missed'),
      on('2026-11-24', 88, 'tense'),
      on('2026-11-25', 88, 'clean'),
      on('2026-11-25', 85, 'clean'),
      on('2026-11-25', 88, 'clean'),
    ];
    const tallies = [
      { day: '2026-11-24', bpm: 88, clean: 1, tense: 1, missed: 0 },
      { day: '2026-11-24', bpm: 91, clean: 0, tense: 0, missed: 1 },
      { day: '2026-11-25', bpm: 88, clean: 2, tense: 0, missed: 0 },
      { day: '2026-11-25', bpm: 85, clean: 1, tense: 0, missed: 0 },
    ];
    expect(lineIn(foldAll(entries))?.tallies).toEqual(tallies);
    expect(lineIn(takenIn(entries))?.tallies).toEqual(tallies);
  });

  it('that all keys share counts the marks of each key that sounded', () => {
    const write = writer();
    const entries = [
      write.mark('clean', 72, 72, { sounded: 'C' }),
      write.mark('tense', 72, 72, { sounded: 'Eb' }),
      write.mark('clean', 72, 72, { sounded: 'C' }),
    ];
    expect(lineIn(foldAll(entries))?.keys).toEqual({
      C: { clean: 2, tense: 0, missed: 0 },
      Eb: { clean: 0, tense: 1, missed: 0 },
    });
    expect(lineIn(foldAll([write.mark('clean', 72)]))).not.toHaveProperty('keys');
  });

  it('as it was is not changed by one more entry', () => {
    const write = writer();
    const before = withEntry(null, write.mark('clean', 88));
    const copy = structuredClone(before);
    const fold = takenIn([write.mark('clean', 88)]);
    const { size } = fold.lines;
    withEntry(before, write.mark('clean', 88));
    absorb(fold, write.mark('clean', 88, 88, { key: 'C' }));
    expect(before).toEqual(copy);
    expect(fold.lines.size).toBe(size);
    expect(lineIn(fold)?.tallies).toMatchObject([{ clean: 1 }]);
  });
});

describe('what the day says', () => {
  it('keeps one report of each block, by routine, part, block and day', () => {
    const write = writer();
    const block = (more: Partial<BlockEntry>): BlockEntry => ({ ...write.block('tone', 60), ...more });
    const first = block({});
    const others = [
      block({ block: 'scales' }),
      block({ part: 'evening' }),
      block({ routine: 'horn' }),
      block({ day: '2026-11-26' }),
    ];
    expect(foldAll([first, ...others]).others).toEqual([first, ...others]);
    const newest = { ...block({ played: 200 }), day: '2026-11-26' };
    expect(foldAll([first, ...others, newest]).others).toEqual([first, ...others.slice(0, 3), newest]);
    expect(takenIn([first, ...others, newest]).others).toEqual([first, ...others.slice(0, 3), newest]);
  });

  it('forgets what is 400 days old when a newer day comes, and not before', () => {
    const write = writer();
    const old = { ...write.note('old'), day: '2025-10-21' };
    const just = { ...write.note('just kept'), day: '2025-10-22' };
    const today = { ...write.note('today'), day: '2026-11-26' };
    for (const fold of [foldAll, takenIn]) {
      expect(fold([old, just]).others).toEqual([old, just]);
      expect(fold([old, just, today]).others).toEqual([just, today]);
    }
  });

  it('has the newest day, though an entry of an earlier one was written after it', () => {
    const write = writer();
    const abroad = [
      { ...write.note('at home'), day: '2026-11-26' },
      { ...write.note('on tour, a zone behind'), day: '2026-11-25' },
    ];
    for (const fold of [foldAll, takenIn]) {
      expect(fold(abroad).lastDay).toBe('2026-11-26');
      expect(fold(abroad).lastId).toBe(abroad[1]!.id);
    }
    expect(foldAll([])).toEqual(EMPTY_FOLD);
  });
});

describe('taking back within a sitting', () => {
  it('of a note or a reading leaves everything else', () => {
    const write = writer();
    const [note, mark] = [write.note('oops'), write.mark('clean', 88)];
    const fold = takenIn([note, mark, write.undo(note.id)]);
    expect(fold.others).toEqual([]);
    expect(marksIn(fold)).toBe(1);
    expect(lineIn(fold)?.tallies).toHaveLength(1);
  });

  it('of the only mark of a line leaves nothing known of it; of one of an older line, what was known before', () => {
    const write = writer();
    const older = foldAll([write.mark('clean', 88), write.mark('clean', 88)]);
    const known = lineIn(older);
    const mark = write.mark('missed', 88, 85);
    const fresh = write.mark('clean', 60, 60, { key: 'F#' });
    const fold = takenIn([mark, fresh, write.undo(mark.id), write.undo(fresh.id)], older);
    expect(lineIn(fold)).toEqual(known);
    expect(lineIn(fold, 'F#')).toBeNull();
    expect(fold.lines.size).toBe(1);
    expect(marksIn(fold)).toBe(2);
  });

  it('twice of the same mark takes back one; a tempo by hand is no mark', () => {
    const write = writer();
    const [first, second, tempo] = [write.mark('clean', 88), write.mark('clean', 88), write.tempo(70)];
    const undone = [first, second, tempo, write.undo(second.id), write.undo(second.id), write.undo(tempo.id)];
    const fold = takenIn(undone);
    expect(marksIn(fold)).toBe(1);
    expect(lineIn(fold)).toMatchObject({ bpm: 88, cleanRun: 1 });
  });

  it('of an undo changes nothing: what was taken back is marked again by hand', () => {
    const write = writer();
    const mark = write.mark('clean', 88);
    const undo = write.undo(mark.id);
    for (const fold of [foldAll, takenIn]) expect(marksIn(fold([mark, undo, write.undo(undo.id)]))).toBe(0);
  });

  it('of a block’s report asks for everything again: the one before it comes back', () => {
    const write = writer();
    const [before, after] = [write.block('tone', 60), write.block('tone', 120)];
    const undo = write.undo(after.id);
    expect(absorb(takenIn([before, after]), undo)).toBeNull();
    expect(foldAll([before, after, undo]).others).toEqual([before]);
  });

  it('an entry that is there already, or of the same moment, is not counted twice', () => {
    const write = writer();
    const mark = write.mark('clean', 88);
    expect(absorb(takenIn([mark]), mark)).toBeNull();
  });
});
